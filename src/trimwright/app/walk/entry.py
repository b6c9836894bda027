"""Readings as they are entered: those that a file can hold now, those that wait, and where they go."""

from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import replace

from trimwright.app.walk.known import TUNNEL, Known
from trimwright.app.walk.more import NEW, PRESSED, carpet_steps, example_of, needs_of
from trimwright.app.walk.need import Path
from trimwright.build import InputError, Loaded, edited, parse
from trimwright.findings import Edit
from trimwright.quantities import along


class Split(Struct, frozen=True):
    """Readings parted: `lacking` are examples of what those that are held wait for."""

    ready: tuple[Edit, ...]
    held: tuple[Edit, ...]
    lacking: tuple[Edit, ...]


class Placed(Struct, frozen=True):
    """Edits as the file takes them, with where each reading that was asked for goes."""

    edits: tuple[Edit, ...]
    goes: dict[Path, Path]


def ready(now: Known, edits: tuple[Edit, ...]) -> Split:
    """Return which readings can be written, given what the file says and the others."""
    needs = {edit.path: needs_of(now, edit.path) for edit in edits}
    going = {edit.path: edit for edit in edits}
    while True:
        there = {*now.said, *going}
        short = [path for path in going if not set(needs[path]) <= there]
        if not short:
            break
        for path in short:
            del going[path]
    held = tuple(edit for edit in edits if edit.path not in going)
    offered = {*now.said, *(edit.path for edit in edits)}
    wanted = dict.fromkeys(p for edit in held for p in needs[edit.path] if p not in offered)
    lacking = tuple(Edit(path, example_of(now, path)) for path in wanted)
    return Split(tuple(going.values()), held, lacking)


def placed(now: Known, edits: Iterable[Edit]) -> Placed:
    """Return readings as edits of the file: a new section in its place along the car, others as is."""
    edits = tuple(edits)
    old = [edit for edit in edits if NEW not in edit.path and not _of_carpet(edit.path)]
    goes = {edit.path: edit.path for edit in old}
    made = [*old]
    for edit in edits:
        if _of_carpet(edit.path):
            new = _pressing(now, edit, len(made) - len(old))
            made += new
            goes[edit.path] = new[-1].path
    section = [edit for edit in edits if edit.path[:3] == (*TUNNEL, NEW)]
    if section:
        number = _number(now, section)
        first = min(section, key=lambda edit: edit.path[-1] != "at")
        for edit in (first, *(edit for edit in section if edit is not first)):
            path = (*TUNNEL, number, *edit.path[3:])
            goes[edit.path] = path
            made.append(Edit(path, edit.value, inserts=edit is first))
    return Placed(tuple(made), goes)


def _of_carpet(path: Path) -> bool:
    """Return whether a path leads to a reading of the carpet that is not in the file yet."""
    return path[:3] == PRESSED and str(path[3]).startswith(NEW)


def _pressing(now: Known, edit: Edit, before: int) -> list[Edit]:
    """Return a reading of the carpet with its weight and its lath; `before` edits make others."""
    carpet = now.build.car.carpet
    also = next((one.also for one in carpet_steps(now) if one.path == edit.path), ())
    number = (0 if carpet is None else len(carpet.pressed)) + before // (1 + len(also))
    return [Edit((*PRESSED, number, *one.path[4:]), one.value) for one in (*also, edit)]


def _number(now: Known, section: list[Edit]) -> int:
    """Return which number a new section gets among those in the file, front to rear."""
    stations = [one.at.value for one in now.build.car.tunnel]
    text = next((edit.value for edit in section if edit.path[-1] == "at"), None)
    try:
        at = along(text or "", now.build.unit).value
    except ValueError:
        return len(stations)  # no place: the file's own reader says what is wrong with it
    return sum(station < at for station in stations)


def moved(held: Iterable[Edit], done: Placed) -> tuple[Edit, ...]:
    """Return held readings as they are asked for once others are in the file."""
    number = next((int(e.path[2]) for e in done.edits if e.inserts), None)
    return tuple(
        replace(edit, path=(*edit.path[:2], int(edit.path[2]) + 1, *edit.path[3:]))
        if number is not None
        and edit.path[:2] == TUNNEL
        and isinstance(edit.path[2], int)
        and edit.path[2] >= number
        else edit
        for edit in held
    )


def refuse_wrong(loaded: Loaded, now: Known, split: Split) -> None:
    """Raise what is wrong with readings that cannot be written yet, and nothing else.

    Raises
    ------
    InputError
        If one of them is no figure of its kind.
    """
    if not split.held:
        return
    whole = placed(now, (*split.ready, *split.held, *split.lacking))
    try:
        parse(edited(loaded.text, whole.edits))
    except InputError as error:
        own = {whole.goes[edit.path]: edit.path for edit in split.held}
        mine = tuple(replace(one, path=own[one.path]) for one in error.faults if one.path in own)
        if mine:
            raise InputError(error.name, mine) from None
