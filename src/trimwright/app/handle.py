"""What of the console can be dragged on a drawing, and what a drag writes into the file."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Literal

import numpy as np
from msgspec import Struct

from trimwright.build import Loaded, written
from trimwright.cabin import Cabin
from trimwright.findings import Edit
from trimwright.papers import FieldPath, Rest, place_along
from trimwright.quantities import Unit, shown_with_unit

Counted = Literal["length", "along", "across"]
Way = tuple[float, float]
REAR: Way = (1.0, 0.0)
UP: Way = (0.0, 1.0)
DOWN: Way = (0.0, -1.0)
STEP_MM: Mapping[Unit, float] = {"mm": 0.5, "in": 25.4 / 32}  # finest mark on a shop rule
WHOLE_MM: Mapping[Unit, float] = {"mm": 5.0, "in": 25.4 / 4}  # where whole steps are asked for
NOTHING_MM = 1e-6
SAME_MM = 0.5  # points of deck and widths this near an end of the console go with it
WAYS: Mapping[Counted, tuple[str, str]] = {
    "length": ("", ""),
    "along": (" ahead", " behind"),
    "across": (" left", " right"),
}
NOWHERE: Mapping[Counted, str] = {"length": "", "along": "at datum", "across": "on middle"}


class Pull(Struct, frozen=True):
    """One figure that a handle moves: its field, what it is [mm], its way across and up the view."""

    path: FieldPath
    counted: Counted
    now_mm: float
    way: Way


class Handle(Struct, frozen=True):
    """Something to drag: its name, the view and the place on it [mm, across and up], its pulls."""

    name: str
    view: Literal["side", "plan"]
    at: tuple[float, float]
    pulls: tuple[Pull, ...]


class NoHandleError(ValueError):
    """A field that no handle of this build moves."""


def handles(loaded: Loaded, one: Cabin, rest: Rest) -> tuple[Handle, ...]:
    """Return every handle of a build whose figures stand in its file.

    Parameters
    ----------
    loaded : Loaded
        The build with its text: what is not written there has no handle.
    one : Cabin
        Of that build.
    rest : Rest
        Where the console comes to rest: handles stand on what is drawn.
    """
    if one.carcass is None or not one.carcass.panels:
        return ()
    there = set(written(loaded.text))
    found = (*_ends(one, rest), *_deck(one, rest), *_inside(one, rest), *_widths(one))
    kept = []
    for handle in found:
        pulls = tuple(pull for pull in handle.pulls if pull.path in there)
        if pulls:
            kept.append(Handle(handle.name, handle.view, handle.at, pulls))
    return tuple(kept)


def dragged(
    found: Iterable[Handle], moves: Mapping[FieldPath, float], unit: Unit, *, whole: bool = False
) -> tuple[Edit, ...]:
    """Return the edits that a drag writes: every figure that moves, on a mark of the rule.

    Parameters
    ----------
    found : iterable of Handle
        Those of the build.
    moves : mapping of path to float
        By how much each figure goes up [mm].
    unit : {'mm', 'in'}
        The file's.
    whole : bool, default False
        Steps of 5 mm or 1/4 in instead of the rule's finest.

    Raises
    ------
    NoHandleError
        If no handle moves one of these fields.
    """
    pulls = {pull.path: pull for handle in found for pull in handle.pulls}
    step = (WHOLE_MM if whole else STEP_MM)[unit]
    edits = []
    for path, by_mm in moves.items():
        if path not in pulls:
            raise NoHandleError("Nothing on the drawing can be dragged there.")
        pull = pulls[path]
        if abs(by_mm) < 0.5 * step:
            continue  # what hardly moves keeps what is written
        place = step * round((pull.now_mm + by_mm) / step)
        edits.append(Edit(path, _typed(place, pull.counted, unit)))
    return tuple(edits)


def _typed(place_mm: float, counted: Counted, unit: Unit) -> str:
    """Return a figure as the file has it: with its way in words.

    Examples
    --------
    >>> _typed(-62.5, "along", "mm"), _typed(9.525, "length", "in"), _typed(0.0, "across", "mm")
    ('62.5 mm ahead', '3/8 in', 'on middle')
    """
    if abs(place_mm) < NOTHING_MM and counted != "length":
        return NOWHERE[counted]
    size = place_mm if counted == "length" else abs(place_mm)
    return f"{shown_with_unit(size, unit, step='fine')}{WAYS[counted][place_mm > 0]}"


def _ends(one: Cabin, rest: Rest) -> Iterator[Handle]:
    """Give the two ends; deck points and widths that stand there go with them."""
    console, carcass = one.build.console, one.carcass
    if console is None or carcass is None:
        return
    groups = (
        ("deck", [point.at.value for point in console.deck]),
        ("widths", [width.at.value for width in console.widths]),
    )
    for name, key, end in (("front end", "from", console.start), ("rear end", "to", console.end)):
        x = end.value
        paths: list[FieldPath] = [("console", key)]
        for group, spots in groups:
            near = [k for k, spot in enumerate(spots) if abs(spot - x) < SAME_MM]
            paths += [("console", group, k, "at") for k in near]
        top = _top(one, rest, x)
        yield Handle(
            name, "side", (x, 0.5 * top), tuple(Pull(path, "along", x, REAR) for path in paths)
        )


def _deck(one: Cabin, rest: Rest) -> Iterator[Handle]:
    """Give the points of the deck: up and down, and along where they are not at an end."""
    console, unit = one.build.console, one.build.unit
    if console is None:
        return
    ends = (console.start.value, console.end.value)
    middle = 0.5 * sum(ends)
    if console.deck_height is not None:
        pull = Pull(("console", "deck height"), "length", console.deck_height.value, UP)
        yield Handle("deck", "side", (middle, _top(one, rest, middle)), (pull,))
        return
    for k, point in enumerate(console.deck):
        x, path = point.at.value, ("console", "deck", k)
        pulls = [Pull((*path, "height"), "length", point.height.value, UP)]
        if all(abs(x - end) >= SAME_MM for end in ends):
            pulls.append(Pull((*path, "at"), "along", x, REAR))
        name = f"deck, {place_along(x, unit)}"
        yield Handle(name, "side", (x, _top(one, rest, x)), tuple(pulls))


def _inside(one: Cabin, rest: Rest) -> Iterator[Handle]:
    """Give bulkheads on the side view, openings and bolts on the plan."""
    console = one.build.console
    if console is None:
        return
    for k, bulkhead in enumerate(console.bulkheads):
        x = bulkhead.at.value
        pull = Pull(("console", "bulkheads", k, "at"), "along", x, REAR)
        yield Handle(f"bulkhead {bulkhead.name}", "side", (x, 0.6 * _top(one, rest, x)), (pull,))
    for k, opening in enumerate(console.openings):
        name, off = f"opening {opening.name}", opening.off_middle.value
        yield _loose(name, ("console", "openings", k), opening.at.value, off)
    for k, bolt in enumerate(console.held_by):
        name, off = f"bolt {k + 1}, {bolt.bolt}", bolt.off_middle.value
        yield _loose(name, ("console", "held by", k), bolt.at.value, off)


def _loose(name: str, path: FieldPath, x_mm: float, y_mm: float) -> Handle:
    """Return the handle of something on the plan that goes both ways."""
    along = Pull((*path, "at"), "along", x_mm, REAR)
    across = Pull((*path, "off middle"), "across", y_mm, UP)
    return Handle(name, "plan", (x_mm, y_mm), (along, across))


def _widths(one: Cabin) -> Iterator[Handle]:
    """Give the walls on the plan, where their distance from the middle is written."""
    console, carcass, unit = one.build.console, one.carcass, one.build.unit
    if console is None or carcass is None:
        return
    ends = (console.start.value, console.end.value)
    for k, width in enumerate(console.widths):
        x = width.at.value
        for side, half, way in (("left", width.left, DOWN), ("right", width.right, UP)):
            path = ("console", "widths", k)
            pulls = [Pull((*path, side), "length", half.value, way)]
            if all(abs(x - end) >= SAME_MM for end in ends):
                pulls.append(Pull((*path, "at"), "along", x, REAR))
            y = half.value if side == "right" else -half.value
            yield Handle(f"{side} wall, {place_along(x, unit)}", "plan", (x, y), tuple(pulls))
    if console.width is not None:
        x, half_mm = 0.5 * sum(ends), 0.5 * console.width.value
        for side, sign in (("left", -1.0), ("right", 1.0)):
            # the width is the sum of both sides: a wall's way counts twice
            pull = Pull(("console", "width"), "length", 2 * half_mm, (0.0, 2.0 * sign))
            yield Handle(f"{side} wall", "plan", (x, sign * half_mm), (pull,))


def _top(one: Cabin, rest: Rest, x_mm: float) -> float:
    """Return how high the deck lies at a place with the console at rest [mm]."""
    carcass = one.carcass
    if carcass is None:
        raise ValueError("a handle needs a console")
    x = np.array([x_mm])
    return float(carcass.deck_top(x)[0] + rest.up(x)[0])
