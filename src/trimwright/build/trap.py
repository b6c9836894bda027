"""What YAML would silently misread, refused with the right spelling."""

import re
from collections.abc import Iterator

from trimwright.build.fault import Fault, quoted
from trimwright.build.node import Mapping, Node, Path, Scalar, Sequence
from trimwright.build.source import MOST_BYTES

BYTE_ORDER_MARK = "\ufeff"
_UNPRINTABLE = re.compile(
    "[^\t\n\r\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
)
_TAB = re.compile(r"^[^#\n\t]*+\t", re.MULTILINE)
_DIRECTIVE = re.compile(r"^%", re.MULTILINE)
_AFTER = re.compile(r"(?: *+:)? ++(#\d[^\r\n]*+)")


def text_traps(text: str) -> list[Fault]:
    """Return the faults of the raw text: characters that do not belong in a build file."""
    if len(text) > MOST_BYTES:
        found = f"more than {MOST_BYTES // 1024} KiB"
        return [Fault(1, (), found, "a build of a few hundred lines")]
    faults = []
    if text.startswith(BYTE_ORDER_MARK):
        faults.append(
            Fault(1, (), "a byte-order mark", "text saved as UTF-8 without a byte-order mark")
        )
        text = " " + text[1:]
    for pattern, found, expected in (
        (_UNPRINTABLE, "the character {0}", "plain text"),
        (_TAB, "a tab", "spaces"),
        (_DIRECTIVE, "a line that begins with %", "key: value"),
    ):
        match = pattern.search(text)
        if match:
            sign = f"U+{ord(match[0][-1]):04X}"
            faults.append(Fault(_line(text, match.end() - 1), (), found.format(sign), expected))
    return faults


def _line(text: str, place: int) -> int:
    """Return the line of a place in the text, from 1; CR LF, CR and LF each end a line."""
    before = text[:place].replace("\r\n", "\n").replace("\r", "\n")
    return before.count("\n") + 1


def node_traps(root: Node, text: str) -> list[Fault]:
    """Return the faults of plain values that YAML, or a reader of YAML, takes for something else.

    A comma inside brackets parts two entries, # begins a comment, 012 is octal to some readers,
    1_000 a thousand, 12:30 a count of sixties, no a false.
    """
    faults = []
    for path, holder, node, key in values(root):
        if isinstance(node, Scalar) and not node.style:
            faults += _misread(path, node)
            if holder.flow:
                faults += _parted(path, node, text)
        end = node.end if isinstance(node, Scalar) else key.end if key else None
        eaten = _AFTER.match(text, end) if end is not None else None
        if eaten and not (isinstance(node, Scalar) and node.style in ("|", ">")):
            line = node.line if isinstance(node, Scalar) and node.text else (key or node).line
            faults.append(_eaten(path, line, node, eaten[1]))
    return faults


def values(root: Node) -> Iterator[tuple[Path, Mapping | Sequence, Node, Scalar | None]]:
    """Yield every value with its path, what holds it, and its key."""
    waiting: list[tuple[Path, Node]] = [((), root)]
    while waiting:
        path, holder = waiting.pop()
        if isinstance(holder, Scalar):
            continue
        below: list[tuple[str | int, Node, Scalar | None]]
        if isinstance(holder, Mapping):
            below = [(key.text, value, key) for key, value in holder.pairs]
        else:
            below = [(number, item, None) for number, item in enumerate(holder.items)]
        for step, value, key in below:
            yield (*path, step), holder, value, key
            waiting.append(((*path, step), value))


_MISREAD: tuple[tuple[re.Pattern[str], str], ...] = (
    (
        re.compile("yes|no|on|off|true|false|y|n", re.IGNORECASE),
        "words, in quotes if they must be these",
    ),
    (re.compile("~|null", re.IGNORECASE), "a value, or no such key"),
    (re.compile(r"0\d.*", re.DOTALL), "a number without a leading 0"),
    (re.compile(r"0[xXoObB].*", re.DOTALL), "a decimal number"),
    (re.compile(r".*\d_\d.*", re.DOTALL), "digits without underscores between them"),
    (re.compile(r"\d+(:\d+)+.*", re.DOTALL), "a decimal mark, or text in quotes"),
)


def _misread(path: Path, node: Scalar) -> list[Fault]:
    """Return the fault of a plain value that some readers of YAML take for another."""
    text = node.text
    for pattern, expected in _MISREAD:
        if pattern.fullmatch(text):
            return [Fault(node.line, path, quoted(text), expected, *_right(text))]
    return []


def _right(text: str) -> tuple[str, tuple[str, ...]]:
    """Return the right spelling of a misread value, and what it could mean."""
    if text[0] == "0" and text[1:2].isdigit():
        return text.lstrip("0") or "0", ()
    if text[0] == "0":
        return "12", ()
    if "_" in text:
        return text.replace("_", ""), ()
    if ":" in text:
        return _two((text.replace(":", "."), f'"{text}"'))
    return ("", ()) if text in ("~", "null") else (f'"{text}"', ())


def _two(readings: tuple[str, str]) -> tuple[str, tuple[str, ...]]:
    """Return the first reading as the example, and both as what it could mean."""
    return readings[0], readings


def _parted(path: Path, node: Scalar, text: str) -> list[Fault]:
    """Return the fault of a decimal comma that parts a number inside brackets or braces."""
    tail = re.match(r",(\d+)", text[node.end : node.end + 20])
    if not tail or not node.text[-1:].isdigit():
        return []
    head = re.split(r"[^\d.]", node.text)[-1]
    expected = "a point for the decimal mark, or a space after the comma"
    readings = (f"{head}.{tail[1]}", f"{head}, {tail[1]}")
    return [Fault(node.line, path, f'"{head},{tail[1]}" in brackets', expected, *_two(readings))]


def _eaten(path: Path, line: int, node: Node, comment: str) -> Fault:
    """Return the fault of words that # turned into a comment."""
    before = f"{node.text} " if isinstance(node, Scalar) and node.text else ""
    whole = f"{before}{comment.rstrip()}"
    return Fault(
        line,
        path,
        f"{quoted(whole)}, of which YAML drops all from # on",
        "the whole in quotes, or a space after # if it is a remark",
        f'"{whole[:60]}"',
    )
