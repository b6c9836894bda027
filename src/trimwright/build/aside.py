"""What is set aside of a file with faults, so that the rest can be judged without a follow-on."""

from collections.abc import Iterable, Mapping

from trimwright.build.document import Document, dotted
from trimwright.build.fault import Fault
from trimwright.build.node import Node, Path, Scalar, Sequence, child, scalars
from trimwright.build.trap import values

MOST_TEXTS = 400  # of entries set aside of one list: with more, any name may be among them


def on_lines(root: Node, lines: set[int]) -> set[Path]:
    """Return the paths of all that is written on lines: where one value is misread, all may be."""
    return {
        path
        for path, _, node, key in values(root)
        if (key or node).line in lines or (isinstance(node, Scalar) and node.line in lines)
    }


class Aside:
    """Where a file is at fault, and which faults between the other entries hang on that.

    Parameters
    ----------
    where : Document
        The file.
    wrong : collection of Path
        The places at fault.
    strays : collection of Path
        Keys among them that have no place where they stand, or stand there twice: what they hold
        may belong to any key that is missed elsewhere.
    """

    def __init__(self, where: Document, wrong: Iterable[Path], strays: Iterable[Path]) -> None:
        self._root = where.root
        self._written: Mapping[str, int] = where.lines
        self._wrong = {dotted(path): path for path in wrong}
        self._strays = {dotted(path) for path in strays}
        self._merged = {dotted(path[:-1]) for path in strays}
        self._above = {dotted(path[:end]) for path in wrong for end in range(len(path) + 1)}
        self._texts: dict[str, tuple[str, ...] | None] = {}

    def touches(self, fault: Fault) -> bool:
        """Return whether a fault may be gone once what is set aside is put right."""
        own, group = dotted(fault.path), fault.path[:-1]
        if len(group) > 1 and dotted(group) in self._merged:
            return True  # two groups of keys may have become one
        if any(self._doubtful(key) for key in (own, *fault.hangs_on)):
            return True
        return any(self._may_be_meant(key, fault.found) for key in fault.among)

    def _doubtful(self, key: str) -> bool:
        """Return whether anything at a key, below it or above it is set aside, or may be it."""
        return key in self._above or self._gone(key)

    def _gone(self, key: str) -> bool:
        """Return whether a key is set aside as a whole, or may be one that has no place."""
        if self._strays and key not in self._written:
            return True
        while key:
            if key in self._wrong:
                return True
            key = key.rpartition(".")[0]
        return False

    def _may_be_meant(self, key: str, found: str) -> bool:
        """Return whether a text may name what is set aside of a list, or of a group."""
        if key not in self._texts:
            self._texts[key] = self._texts_below(key)
        texts, words = self._texts[key], " ".join(found.split())
        return texts is None or any(text in words for text in texts)

    def _texts_below(self, key: str) -> tuple[str, ...] | None:
        """Return all that is written in the entries at fault below a key, None for anything."""
        if self._gone(key):
            return None
        if key not in self._above:
            return ()
        steps: Path = tuple(key.split("."))
        many = isinstance(_at(self._root, steps), Sequence)
        below = [path for path in self._wrong.values() if path[: len(steps)] == steps]
        holders = {path[: len(steps) + many] for path in below}
        named = all(isinstance(child(_at(self._root, one), "name"), Scalar) for one in holders)
        if (many and not named) or any(self._unreadable(path, holders) for path in below):
            return None
        nodes = [_at(self._root, one) for one in holders]
        texts = {" ".join(one.text.split()) for node in nodes for _, one in scalars(node)}
        texts = (texts - {""}) | (set() if many else {key.rpartition(".")[2]})
        return tuple(sorted(texts)) if len(texts) <= MOST_TEXTS else None

    def _unreadable(self, path: Path, holders: set[Path]) -> bool:
        """Return whether nothing can be told of what is meant at a place at fault."""
        if path in holders:
            return False  # something is missing, other than its name
        wrong_name = dotted(path) in self._strays or path[-1] == "name"
        return wrong_name or not isinstance(_at(self._root, path), Scalar)


def _at(node: Node, path: Path) -> Node:
    """Return the node at a path that is written."""
    for step in path:
        below = child(node, step)
        if below is None:
            raise ValueError(f"path must be written, got {path}")
        node = below
    return node
