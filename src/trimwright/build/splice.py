"""Edits to the text of a build file that leave every other line as it was, to the byte."""

from collections.abc import Iterable

from trimwright.build.compose import composed
from trimwright.build.fault import InputError, spoken
from trimwright.build.insertion import inserted, put_before
from trimwright.build.node import Node, Path, Scalar, child
from trimwright.build.removal import removed
from trimwright.build.spelling import Data, data, spelled
from trimwright.findings import Edit


def edited(text: str, edits: Iterable[Edit]) -> str:
    r"""Return a build file's text with edits made, one after another.

    Parameters
    ----------
    text : str
        The whole file. Comments, order, spacing and line ends stay.
    edits : iterable of Edit
        Each sets the text at a path, adds the key where there is none, puts a new item into a
        list, or takes a key out (None); a group or list that loses its last entry goes with it.

    Raises
    ------
    ValueError
        If a path leads nowhere, or the text would not read back with that one change.
    InputError
        If the text is no YAML.

    Examples
    --------
    >>> edited("car:\n  carpet: {loose: 15} # thick\n", [Edit(("car", "carpet", "loose"), "14 ± 1")])
    'car:\n  carpet: {loose: 14 ± 1} # thick\n'
    """
    for edit in edits:
        text = _one(text, edit)
    return text


def _one(text: str, edit: Edit) -> str:
    """Return the text with one edit made, read back."""
    root = composed(text)
    wanted = data(root)
    place = _new_place(edit)
    if place:
        wanted = _parted(wanted, place)
    wanted = _changed(wanted, edit.path, edit.value)
    if edit.value is None:
        new = removed(text, root, edit.path)
    elif place and _at(root, place) is not None:
        new = put_before(text, root, place, edit.path[len(place) :], edit.value)
    else:
        new = _set(text, root, edit.path, edit.value)
    try:
        read = data(composed(new))
    except (InputError, ValueError) as error:
        raise ValueError(f"{spoken(edit.path)} cannot be changed in this text: {error}") from None
    if read != wanted:
        raise ValueError(f"{spoken(edit.path)} cannot be changed in this text alone")
    return new


def _set(text: str, root: Node, path: Path, value: str) -> str:
    """Return the text with a value written where one stands, or a key added."""
    node, flow, depth = root, False, 0
    for step in path:
        below = child(node, step)
        if below is None:
            break
        flow = flow or (not isinstance(node, Scalar) and node.flow)
        node, depth = below, depth + 1
    if depth < len(path):
        return inserted(text, root, path[:depth], path[depth:], value)
    if not isinstance(node, Scalar):
        raise ValueError(f"{spoken(path)} holds several values, not one")  # noqa: TRY004  a wrong path
    written = spelled(value, flow=flow)
    if node.start == node.end:
        return f"{text[: node.end]} {written}{text[node.end :]}"
    block = node.style in ("|", ">")
    end = node.start + len(text[node.start : node.end].rstrip()) if block else node.end
    return text[: node.start] + written + text[end:]


def _new_place(edit: Edit) -> Path:
    """Return the path of the item that an edit puts into a list; empty if it puts in none."""
    if not edit.inserts:
        return ()
    last = max(number for number, step in enumerate(edit.path) if isinstance(step, int))
    return edit.path[: last + 1]


def _at(root: Node, path: Path) -> Node | None:
    """Return the node at a path, None where there is none."""
    node: Node | None = root
    for step in path:
        node = None if node is None else child(node, step)
    return node


def _parted(held: Data, place: Path) -> Data:
    """Return what a file holds with an empty item put in at a place of a list."""
    step, rest = place[0], place[1:]
    if isinstance(held, dict) and isinstance(step, str) and step in held:
        return {**held, step: _parted(held[step], rest)}
    if isinstance(held, list) and isinstance(step, int) and step < len(held):
        if rest:
            return [*held[:step], _parted(held[step], rest), *held[step + 1 :]]
        return [*held[:step], "", *held[step:]]
    return held  # a list that ends there, or is not there yet: the item is added


def _changed(held: Data, path: Path, value: str | None) -> Data:
    """Return what a file should hold after an edit; nothing is left of an emptied group."""
    step, rest = path[0], path[1:]
    if held == "" and value is not None:
        held = {} if isinstance(step, str) else []
    if isinstance(held, dict) and isinstance(step, str):
        group: dict[str, Data] = dict(held)
        below = _below(group.get(step), step, rest, value)
        if below is None:
            del group[step]
        else:
            group[step] = below
        return group
    if isinstance(held, list) and isinstance(step, int) and 0 <= step <= len(held):
        items: list[Data] = list(held)
        below = _below(items[step] if step < len(items) else None, step, rest, value)
        items[step : step + 1] = [] if below is None else [below]
        return items
    raise ValueError(f"path must lead through groups and lists, got {step!r} in {_kind(held)}")


def _below(held: Data | None, step: str | int, rest: Path, value: str | None) -> Data | None:
    """Return what is to stand under a step, or None if nothing is left there."""
    if held is None and value is None:
        raise ValueError(f"path must name a key that is there, got {step!r}")
    if not rest:
        return value
    return _changed("" if held is None else held, rest, value) or None


def _kind(held: Data) -> str:
    """Return what is held, in a word."""
    return "a value" if isinstance(held, str) else "a group" if isinstance(held, dict) else "a list"
