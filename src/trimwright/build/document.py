"""The text of a build file with the line of every key in it."""

from msgspec import Struct

from trimwright.build.node import Mapping, Node, Path, Scalar, Sequence


class Document(Struct, frozen=True, eq=False):
    r"""A build file's name and text, with where everything stands.

    Examples
    --------
    >>> from trimwright.build import parse
    >>> words = "build: Larkspur estate\nunit: mm\ncar:\n  carpet:\n    loose: 15 ± 1\n"
    >>> parse(words).document.line("car.carpet.loose")
    5
    """

    name: str
    text: str
    root: Node
    lines: dict[str, int]

    def line(self, key: str) -> int:
        """Return the line of a dotted key, or of the nearest group above it that is written."""
        while key and key not in self.lines:
            key = key.rpartition(".")[0]
        return self.lines.get(key, 1)


def dotted(path: Path) -> str:
    """Return a file path as one dotted key.

    Examples
    --------
    >>> dotted(("car", "tunnel", 2, "down 30", "left"))
    'car.tunnel.2.down 30.left'
    """
    return ".".join(str(step) for step in path)


def document(name: str, text: str, root: Node) -> Document:
    """Return a document, its lines looked up once."""
    lines: dict[str, int] = {}
    _number(root, (), lines)
    return Document(name, text, root, lines)


def _number(node: Node, path: Path, lines: dict[str, int]) -> None:
    """Note the line of everything below a node."""
    below: list[tuple[str | int, int, Node]] = []
    if isinstance(node, Mapping):
        below = [(key.text, key.line, value) for key, value in node.pairs]
    elif isinstance(node, Sequence):
        below = [(number, item.line, item) for number, item in enumerate(node.items)]
    for step, line, value in below:
        here = (*path, step)
        lines[dotted(here)] = line
        if not isinstance(value, Scalar):
            _number(value, here, lines)
