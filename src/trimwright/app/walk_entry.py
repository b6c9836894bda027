"""Readings as they are entered: those that a file can hold now, and those that wait for others."""

from dataclasses import dataclass

from trimwright.app.walk import Known
from trimwright.build import InputError, Loaded, edited, parse
from trimwright.findings import Edit


@dataclass(frozen=True, slots=True)
class Split:
    """Readings parted: `lacking` are examples of what those that are held wait for."""

    ready: tuple[Edit, ...]
    held: tuple[Edit, ...]
    lacking: tuple[Edit, ...]


def ready(now: Known, edits: tuple[Edit, ...]) -> Split:
    """Return which readings can be written, given what the file says and the others."""
    needs = {one.path: one.needs for one in now.first}
    examples = {one.path: one.example(now.build.unit) for one in now.first}
    going = {edit.path: edit for edit in edits}
    while True:
        there = {*now.said, *going}
        short = [path for path in going if not set(needs.get(path, ())) <= there]
        if not short:
            break
        for path in short:
            del going[path]
    held = tuple(edit for edit in edits if edit.path not in going)
    offered = {*now.said, *(edit.path for edit in edits)}
    wanted = dict.fromkeys(p for edit in held for p in needs[edit.path] if p not in offered)
    return Split(tuple(going.values()), held, tuple(Edit(path, examples[path]) for path in wanted))


def refuse_wrong(loaded: Loaded, split: Split) -> None:
    """Raise what is wrong with readings that cannot be written yet, and nothing else.

    Raises
    ------
    InputError
        If one of them is no figure of its kind.
    """
    if not split.held:
        return
    try:
        parse(edited(loaded.text, (*split.ready, *split.held, *split.lacking)))
    except InputError as error:
        own = {edit.path for edit in split.held}
        mine = tuple(one for one in error.faults if one.path in own)
        if mine:
            raise InputError(error.name, mine) from None
