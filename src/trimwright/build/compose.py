"""From text to nodes: YAML without the parts that misread or explode."""

import re
from typing import Any

import yaml

from trimwright.build.fault import Fault, InputError, quoted
from trimwright.build.node import NOWHERE, Mapping, Node, Scalar, Sequence

DEEPEST = 20  # levels; the schema needs 7
MOST_NODES = 8_000  # a build of 300 lines has about 1,500

_INDENTED = ("key: value, each group indented alike", "unit: mm")
_IN_WORDS = {
    "mapping values are not allowed in this context": (
        'a second ": " or a key indented too far',
        "one key on a line, or text in quotes",
        'because: "two words: like so"',
    ),
    "could not find expected ':'": ("a line without a key", "key: value", "unit: mm"),
    "did not find expected key": ("a line that does not line up", *_INDENTED),
    "found unexpected end of stream": ("the end of the file inside quotes", "a closing quote", ""),
    "found character that cannot start any token": (
        "a sign that text may not begin with",
        "the text in quotes",
        '"@ the sill"',
    ),
}

_LINE_END = re.compile(r"\r\n|\r|\n")
_Open = list[Mapping | Sequence]


def composed(text: str, name: str = "build.yaml") -> Node:
    """Return the file's nodes; every scalar keeps the text that was typed.

    Raises
    ------
    InputError
        If the text is no YAML, or uses anchors, aliases, tags, several documents, or nests or
        runs on without end.
    """
    return _Composer(name).whole(text)


class _Composer:
    """Gathers parser events into nodes, and stops at the first that has no place in a build."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.root: Node | None = None
        self.open: _Open = []
        self.keys: list[Scalar | None] = []  # per open mapping: the key that waits for its value
        self.count = 0
        self.lines = 1  # up to the last that says something

    def whole(self, text: str) -> Node:
        """Return the root node."""
        self.lines = len(_LINE_END.split(text.rstrip()))
        try:
            for event in yaml.parse(text, Loader=yaml.CSafeLoader):
                self.take(event)
        except yaml.MarkedYAMLError as error:
            raise self.unreadable(error) from None
        except yaml.YAMLError as error:
            raise self.refusal(1, str(error), "plain text") from None
        return NOWHERE if self.root is None else self.root

    def unreadable(self, error: yaml.MarkedYAMLError) -> InputError:
        """Return what the parser could not read, with its line."""
        mark = error.problem_mark or error.context_mark
        line = min(mark.line + 1 if mark else 1, self.lines)
        problem = str(error.problem or error.context or "something that cannot be read")
        found, expected, example = _IN_WORDS.get(problem, (problem, *_INDENTED))
        return self.refusal(line, found, expected, example)

    def refusal(self, line: int, found: str, expected: str, example: str = "") -> InputError:
        """Return an error of one fault."""
        return InputError(self.name, (Fault(line, (), found, expected, example),))

    def take(self, event: yaml.Event) -> None:
        """Take one event in."""
        line = _start(event).line + 1
        if isinstance(event, yaml.DocumentStartEvent) and self.root is not None:
            raise self.refusal(line, "a second document (---)", "one build in a file")
        if isinstance(event, yaml.NodeEvent):
            self.refuse_marked(event, line)
            self.count += 1
            if self.count > MOST_NODES:
                raise self.refusal(
                    line, f"more than {MOST_NODES} entries", "a build of a few hundred lines"
                )
        if isinstance(event, yaml.ScalarEvent):
            self.scalar(event, line)
        elif isinstance(event, yaml.MappingStartEvent | yaml.SequenceStartEvent):
            self.begin(event, line)
        elif isinstance(event, yaml.MappingEndEvent | yaml.SequenceEndEvent):
            self.finish(event)

    def refuse_marked(self, event: yaml.NodeEvent, line: int) -> None:
        """Refuse anchors, aliases and tags: a build says a thing where it is used."""
        if event.anchor is not None:
            sign = "*" if isinstance(event, yaml.AliasEvent) else "&"
            raise self.refusal(
                line,
                f'"{sign}{event.anchor[:60]}"',
                "the figure itself, or the text in quotes if it begins with that sign",
                f'"{sign}{event.anchor[:20]}"',
            )
        tag = getattr(event, "tag", None)
        if tag is not None:
            raise self.refusal(
                line, f'"{tag[:60]}"', "plain text, in quotes if it begins with !", '"! fragile"'
            )

    def scalar(self, event: yaml.ScalarEvent, line: int) -> None:
        """Place a scalar: as key, value, item or root."""
        style = "" if event.style in (None, "") else event.style
        if not event.implicit[0] and not style:
            style = "'"
        node = Scalar(event.value, _start(event).index, _end(event).index, line, style)
        if self.open and isinstance(self.open[-1], Mapping) and self.keys[-1] is None:
            self.keys[-1] = node
        else:
            self.place(node)

    def place(self, node: Node) -> None:
        """Put a finished or opened node where it belongs."""
        if not self.open:
            self.root = node
            return
        holder = self.open[-1]
        if isinstance(holder, Sequence):
            holder.items.append(node)
            return
        key = self.keys[-1]
        if key is None:
            raise self.refusal(node.line, "a key that is a list or a group", "a word", "unit: mm")
        holder.pairs.append((key, node))
        self.keys[-1] = None

    def begin(self, event: yaml.MappingStartEvent | yaml.SequenceStartEvent, line: int) -> None:
        """Open a mapping or a sequence."""
        if len(self.open) >= DEEPEST:
            raise self.refusal(line, f"more than {DEEPEST} levels", "at most 7 levels")
        mark = _start(event)
        sort = Mapping if isinstance(event, yaml.MappingStartEvent) else Sequence
        node = sort(mark.index, line, mark.column, bool(event.flow_style))
        self.place(node)
        self.open.append(node)
        self.keys.append(None)

    def finish(self, event: yaml.MappingEndEvent | yaml.SequenceEndEvent) -> None:
        """Close the innermost node; a block node ends with the last thing in it."""
        node = self.open.pop()
        self.keys.pop()
        if node.flow:
            node.end = _end(event).index
        else:
            inside = [v for _, v in node.pairs] if isinstance(node, Mapping) else node.items
            node.end = inside[-1].end if inside else node.start


def _start(event: yaml.Event) -> Any:  # noqa: ANN401  a mark of either parser
    """Return where an event begins; the parser always says."""
    if event.start_mark is None:
        raise ValueError(f"event must carry its start, got {event!r}")
    return event.start_mark


def _end(event: yaml.Event) -> Any:  # noqa: ANN401  a mark of either parser
    """Return where an event ends; the parser always says."""
    if event.end_mark is None:
        raise ValueError(f"event must carry its end, got {event!r}")
    return event.end_mark


def found_in(node: Node) -> str:
    """Return what a node is, for a message."""
    if isinstance(node, Scalar):
        return quoted(node.text) if node.text else "nothing"
    return "a group of keys" if isinstance(node, Mapping) else "a list"
