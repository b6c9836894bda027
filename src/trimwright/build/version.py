"""Formats of the build file: what is older is brought up to date, what is newer is refused.

Format 0 was a draft. It said `vehicle` for `car`, `pile` (with `free`, `squeezed`) for `carpet`
(`loose`, `squeezed by hand`), and in `console` `board` for `sheet` and `top height` for
`deck height`. A file without `format` is in format 1.
"""

from collections.abc import Callable
from pathlib import Path as FilePath

from trimwright.build.compose import composed
from trimwright.build.disk import write_whole
from trimwright.build.fault import Fault, InputError
from trimwright.build.node import NOWHERE, Mapping, Node, Path, Scalar, child
from trimwright.build.splice import edited
from trimwright.findings import Edit

FORMAT = 1
_DRAFT_KEYS: tuple[tuple[Path, str], ...] = (
    (("vehicle",), "car"),
    (("car", "pile"), "carpet"),
    (("car", "carpet", "free"), "loose"),
    (("car", "carpet", "squeezed"), "squeezed by hand"),
    (("console", "board"), "sheet"),
    (("console", "top height"), "deck height"),
)


def up_to_date(text: str, root: Node, name: str = "build.yaml") -> str:
    r"""Return a build file's text in the newest format; one that is in it already comes back as is.

    `root` holds the text's nodes.

    Raises
    ------
    InputError
        If the file is in a newer format than this program reads, or in none.

    Examples
    --------
    >>> draft = "format: 0\nvehicle: {pile: {free: 15 ± 1}} # thick\n"
    >>> up_to_date(draft, composed(draft))
    'format: 1\ncar: {carpet: {loose: 15 ± 1}} # thick\n'
    """
    written = child(root, "format")
    if written is None:
        return text
    number = _number(written)
    if number is None:
        fault = Fault(written.line, ("format",), "no format", "a whole number", str(FORMAT))
        raise InputError(name, (fault,))
    if number > FORMAT:
        found = f"format {number}, newer than this program"
        raise InputError(name, (Fault(written.line, ("format",), found, f"at most {FORMAT}"),))
    for older in range(number, FORMAT):
        text = _STEPS[older](text)
    return text


def _number(written: Node) -> int | None:
    """Return the format's number, or None where it is none."""
    text = written.text if isinstance(written, Scalar) else ""
    return int(text) if text.isascii() and text.isdigit() and len(text) < 6 else None  # noqa: PLR2004  digits


def _from_draft(text: str) -> str:
    """Return a text of format 0 in format 1."""
    for path, name in _DRAFT_KEYS:
        text = _renamed(text, path, name)
    return edited(text, [Edit(("format",), "1")])


_STEPS: dict[int, Callable[[str], str]] = {0: _from_draft}


def _renamed(text: str, path: Path, name: str) -> str:
    """Return a text with one key renamed where it is written; nothing else moves."""
    node: Node | None = composed(text)
    for step in path[:-1]:
        node = child(node, step) if node else None
    if not isinstance(node, Mapping):
        return text
    for key, _ in node.pairs:
        if key.text == path[-1]:
            return text[: key.start] + name + text[key.end :]
    return text


def keep_older(path: FilePath, older: str, newer: str) -> FilePath:
    """Write a file in the newest format, after keeping it as it was beside it; return where.

    A backup that is there already is never overwritten: the next free name is taken.
    """
    data = older.encode("utf-8")
    number = _number(child(composed(older), "format") or NOWHERE)
    backup = path.with_name(f"{path.name}.format-{number}")
    count = 1
    while backup.exists() and backup.read_bytes() != data:
        count += 1
        backup = path.with_name(f"{path.name}.format-{number}-{count}")
    write_whole(backup, data)
    write_whole(path, newer.encode("utf-8"))
    return backup
