"""A build file as text with places: every scalar as typed, every node with where it stands."""

from collections.abc import Iterator

from msgspec import Struct, field

Path = tuple[str | int, ...]


class Scalar(Struct, frozen=True):
    """A text as typed; `start` and `end` are character places in the file, quotes included."""

    text: str
    start: int
    end: int
    line: int
    style: str  # '' plain, else the quote or block sign


class Mapping(Struct):
    """Keys with their values, in file order."""

    start: int
    line: int
    column: int
    flow: bool
    end: int = 0
    pairs: list[tuple[Scalar, "Node"]] = field(default_factory=list)


class Sequence(Struct):
    """Items, in file order."""

    start: int
    line: int
    column: int
    flow: bool
    end: int = 0
    items: list["Node"] = field(default_factory=list)


Node = Scalar | Mapping | Sequence
NOWHERE = Scalar("", 0, 0, 1, "")


def child(node: Node, step: str | int) -> Node | None:
    """Return what a node holds under a key or an item's number, or None."""
    if isinstance(node, Mapping):
        return next((value for key, value in node.pairs if key.text == step), None)
    if isinstance(node, Sequence) and isinstance(step, int) and 0 <= step < len(node.items):
        return node.items[step]
    return None


def scalars(node: Node, path: Path = ()) -> Iterator[tuple[Path, Scalar]]:
    """Yield every scalar value below a node, each with its path."""
    if isinstance(node, Scalar):
        yield path, node
    elif isinstance(node, Mapping):
        for key, value in node.pairs:
            yield from scalars(value, (*path, key.text))
    else:
        for number, item in enumerate(node.items):
            yield from scalars(item, (*path, number))
