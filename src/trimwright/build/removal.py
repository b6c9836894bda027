"""Entries taken out of a text."""

from trimwright.build.extent import content_end, line_start, line_stop, next_line
from trimwright.build.fault import spoken
from trimwright.build.node import Mapping, Node, Path, Scalar, Sequence, child


def removed(text: str, root: Node, path: Path) -> str:
    """Return the text without the entry at a path, nor any group it leaves empty.

    Raises
    ------
    ValueError
        If nothing is there, if nothing would be left, or if the entry shares its line in a way
        that cannot be cut.
    """
    holders: list[Mapping | Sequence] = []
    node: Node = root
    for step in path:
        below = child(node, step)
        if below is None or isinstance(node, Scalar):
            raise ValueError(f"{spoken(path)} is not there")
        holders.append(node)
        node = below
    depth = len(path) - 1
    while depth > 0 and _count(holders[depth]) == 1:
        depth -= 1
    holder = holders[depth]
    if _count(holder) == 1:
        raise ValueError(f"{spoken(path)} is all there is")
    number = _number(holder, path[depth])
    if holder.flow:
        return _from_flow(text, holder, number)
    if isinstance(holder, Mapping):
        return _from_group(text, holder, number)
    return _from_list(text, holder, number)


def _count(holder: Mapping | Sequence) -> int:
    """Return how many entries a group or list has."""
    return len(holder.pairs) if isinstance(holder, Mapping) else len(holder.items)


def _number(holder: Mapping | Sequence, step: str | int) -> int:
    """Return the place of an entry among its neighbours."""
    if isinstance(holder, Sequence):
        return int(step)
    return next(number for number, (key, _) in enumerate(holder.pairs) if key.text == step)


def _from_flow(text: str, holder: Mapping | Sequence, number: int) -> str:
    """Return the text without one entry inside brackets or braces, and one comma less."""
    if isinstance(holder, Mapping):
        spans = [(key.start, content_end(text, value)) for key, value in holder.pairs]
    else:
        spans = [(item.start, content_end(text, item)) for item in holder.items]
    if number:
        start, end = spans[number - 1][1], spans[number][1]
    else:
        start, end = spans[0][0], spans[1][0]
    return text[:start] + text[end:]


def _from_group(text: str, holder: Mapping, number: int) -> str:
    """Return the text without one key of a group in block style."""
    key, value = holder.pairs[number]
    start, end = line_start(text, key.start), content_end(text, value)
    if not text[start : key.start].strip():
        return text[:start] + text[next_line(text, end) :]
    # the first key of a list's item stands behind the dash: the next one moves up to it
    follower = holder.pairs[number + 1][0]
    if not text[next_line(text, end) : follower.start].strip():
        return text[: key.start] + text[follower.start :]
    return text[: key.start].rstrip() + text[line_stop(text, end) :]


def _from_list(text: str, holder: Sequence, number: int) -> str:
    """Return the text without one item of a list in block style."""
    item = holder.items[number]
    dash = _dash(text, holder, item)
    start = line_start(text, dash)
    if text[start:dash].strip():
        raise ValueError(f"line {item.line} holds more than this item")
    return text[:start] + text[next_line(text, max(content_end(text, item), dash)) :]


def _dash(text: str, holder: Sequence, item: Node) -> int:
    """Return the place of an item's dash: in the list's column, on its line or above."""
    start = line_start(text, item.start)
    while start > 0 and text[start + holder.column : start + holder.column + 1] != "-":
        start = line_start(text, start - 1)
    return start + holder.column
