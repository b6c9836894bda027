"""What a key of a file is called in words that outlast a list growing or shrinking."""

from collections.abc import Sequence as Several

from trimwright.build.fault import ordinal
from trimwright.build.node import Mapping, Node, Path, Scalar, Sequence, child
from trimwright.build.reading import NAMING

SILENT = "car"  # every reading is of the car: the word tells none from another


def called(root: Node, path: Path) -> tuple[str, ...]:
    """Return the names that a key answers to, the best first; its second counts items of lists.

    Parameters
    ----------
    root : Node
        What the file holds.
    path : tuple of str or int
        A key, written or not.

    Examples
    --------
    >>> from trimwright.build.compose import composed
    >>> root = composed("car: {tunnel: [{at: 300 behind}]}")
    >>> called(root, ("car", "tunnel", 0, "width at floor"))
    ('tunnel at 300 behind, width at floor', 'tunnel 1st, width at floor')
    >>> called(root, ("car", "carpet", "loose"))
    ('carpet, loose',)
    """
    named: list[str] = []
    counted: list[str] = []
    node: Node | None = root
    for step in path:
        if isinstance(step, int):
            count = ordinal(step + 1)
            items = node.items if isinstance(node, Sequence) else []
            named[-1] = f"{named[-1]} {_item(items, step) or count}"
            counted[-1] = f"{counted[-1]} {count}"
        elif step != SILENT:
            named.append(step)
            counted.append(step)
        node = None if node is None else child(node, step)
    return tuple(dict.fromkeys((", ".join(named), ", ".join(counted))))


def _item(items: Several[Node], number: int) -> str:
    """Return what tells an item from all others of its list, nothing where nothing does."""
    names = [_name(item) for item in items]
    name = names[number] if number < len(names) else ""
    return name if names.count(name) == 1 else ""


def _name(item: Node) -> str:
    """Return what an item is known by."""
    if not isinstance(item, Mapping):
        return ""
    for key in NAMING:
        told = child(item, key)
        if isinstance(told, Scalar):
            text = told.text.split("±")[0].strip()
            return f"at {text}" if key == "at" else text
    return ""
