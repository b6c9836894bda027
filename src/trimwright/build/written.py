"""What a build file says, key by key, where two texts of it differ, and which edits meet there."""

from collections.abc import Iterable

from trimwright.build.compose import composed
from trimwright.build.node import Path, scalars
from trimwright.build.spelling import Data, data
from trimwright.findings import Edit

# what tells one item of a list from its neighbours, whatever else is measured of it
_NAMING = (
    *("name", "probe", "finding", "panel", "gear", "bolt", "at", "from", "to", "weight"),
    *("part", "reading", "photo"),
)


def written(text: str) -> dict[Path, str]:
    r"""Return every value of a file as typed, by its path.

    Raises
    ------
    InputError
        If the text cannot be read as a build file at all.

    Examples
    --------
    >>> written("build: Larkspur\ncar:\n  carpet: {loose: 15 ± 1}\n")
    {('build',): 'Larkspur', ('car', 'carpet', 'loose'): '15 ± 1'}
    """
    return {path: scalar.text for path, scalar in scalars(composed(text))}


def changed(before: str, after: str) -> dict[Path, str | None]:
    r"""Return what another text of the file says elsewise, by path; None where it says nothing.

    Examples
    --------
    >>> changed("a: 1\nb: 2\n", "a: 1\nc: 3\n")
    {('b',): None, ('c',): '3'}
    """
    old, new = written(before), written(after)
    return {
        path: new.get(path)
        for path in [*old, *(path for path in new if path not in old)]
        if old.get(path) != new.get(path)
    }


def meet(one: Path, other: Path) -> bool:
    """Return whether two paths are the same place, or one holds the other.

    Examples
    --------
    >>> meet(("car", "carpet"), ("car", "carpet", "loose")), meet(("car",), ("console",))
    (True, False)
    """
    short = min(len(one), len(other))
    return one[:short] == other[:short]


def met(before: str, now: str, edits: Iterable[Edit]) -> dict[Path, str | None]:
    r"""Return where edits made to one text of a file meet what another text of it says elsewise.

    A path through a list counts its items. Where the item it counts to in the text now is not,
    beyond doubt, the item that the edit was made to, the edit meets it too. An edit that writes
    what the other text says already meets nothing.

    Parameters
    ----------
    before, now : str
        The text that the edits were made to, and what the file says now.
    edits : iterable of Edit
        In the order they are to be made.

    Returns
    -------
    dict of path to str or None
        What the file says now at every place that is met; None where it says nothing.

    Examples
    --------
    >>> now = "dash: [{at: 9, up: 2}]\nwidth: 236\n"
    >>> met("dash: [{at: 5, up: 1}, {at: 9, up: 2}]\nwidth: 230\n", now, [
    ...     Edit(("dash", 0, "up"), "4"), Edit(("width",), "236"), Edit(("height",), "180")])
    {('dash', 0, 'up'): '2'}
    """
    theirs, said = changed(before, now), written(now)
    old, new = data(composed(before)), data(composed(now))
    found: dict[Path, str | None] = {}
    for edit in edits:
        if not _stands(old, new, edit):
            found[edit.path] = said.get(edit.path)
            continue
        found |= {
            path: value
            for path, value in theirs.items()
            if meet(path, edit.path) and (path, value) != (edit.path, edit.value)
        }
    return found


def _stands(old: Data, new: Data, edit: Edit) -> bool:
    """Return whether an edit's path leads, in the new text, to where it led in the old."""
    for number, step in enumerate(edit.path):
        if isinstance(old, list) and isinstance(step, int):
            if not isinstance(new, list) or not _same_item(old, new, step, edit):
                return False
            if step >= len(old):
                return True
            old, new = old[step], new[step]
        elif isinstance(old, dict) and isinstance(step, str):
            here = isinstance(new, dict) and step in new
            if step not in old:
                return not here or all(isinstance(one, str) for one in edit.path[number + 1 :])
            if not isinstance(new, dict) or not here:
                return number + 1 == len(edit.path)
            old, new = old[step], new[step]
        else:
            break
    return True


def _same_item(old: list[Data], new: list[Data], number: int, edit: Edit) -> bool:
    """Return whether a number counts to the same item in two states of a list."""
    if edit.value is None:  # may take the item out, and moves those that follow
        return old == new
    if number >= len(old):
        return len(old) == len(new)
    names, names_now = [_named(one) for one in old], [_named(one) for one in new]
    name = names[number]
    alone = names.count(name) == 1 and names_now.count(name) == 1
    return old == new or (alone and names_now.index(name) == number)


def _named(item: Data) -> Data:
    """Return what tells an item from its neighbours: its name and place, else all of it."""
    if not isinstance(item, dict):
        return item
    return {key: item[key] for key in _NAMING if key in item} or item
