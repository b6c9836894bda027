"""What is cut off a panel: trims made on the design, and cuts that a finding still asks for."""

from functools import lru_cache
from typing import Any, Literal

import numpy as np
from msgspec import Struct

from trimwright.build import Build
from trimwright.cabin import Cabin, cabin
from trimwright.drawing import Point
from trimwright.parts import Carcass, Panel, Waste, waste
from trimwright.quantities import Quantity, shown_with_unit

Outline = tuple[Point, ...]

# every place in the build that holds wood taken off the design, in the order of the file
TRIMS: tuple[tuple[str, str], ...] = (
    ("trims", "nose_lower_by"),
    ("trims", "front_shorter_by"),
    ("trims", "left_in_by"),
    ("trims", "right_in_by"),
    ("scribe", "deeper_by"),
)


class Taken(Struct, frozen=True, eq=False):
    """Wood off one panel, in the panel's axes: rings with what stays inside them, and the words."""

    state: Literal["waste", "open"]
    words: str
    areas: tuple[tuple[Outline, tuple[Outline, ...]], ...]


class _Change(Struct, frozen=True, eq=False):
    """What one trim or cut takes off all panels: the carcass on its other side, and the wood."""

    words: str
    other: Carcass
    wood: tuple[Waste, ...]


def taken(found: Cabin, panel: Panel) -> tuple[Taken, ...]:
    """Return what was trimmed off a panel's outer face, then what is still to be cut off it."""
    return (*_trimmed(found, panel), *_asked(found, panel))


def _trimmed(found: Cabin, panel: Panel) -> list[Taken]:
    """Return the trims of the design that touch the panel."""
    made: list[Taken] = []
    for trim in _trims(found):
        rings = []
        for piece in trim.wood:
            if piece.panel == panel.name and piece.face == "outer":
                old = trim.other.panel(panel.name).frame
                rings += [_here(old.placed(np.array(ring)), panel) for ring in piece.polygons]
        if rings:
            made.append(Taken("waste", trim.words, tuple((ring, ()) for ring in rings)))
    return made


@lru_cache(maxsize=4)  # the same for every panel
def _trims(found: Cabin) -> tuple[_Change, ...]:
    """Return the trims that the design has, each with the carcass before it was made."""
    console, unit = found.build.console, found.build.unit
    made: list[_Change] = []
    for part, name in TRIMS:
        amount = getattr(getattr(console, part), name).value
        before = None if amount <= 0 else cabin(_without(found.build, part, name)).carcass
        if before is None or found.carcass is None or before.unbuildable:
            continue
        words = f"cut away {shown_with_unit(amount, unit, 'up', step='fine')} before covering"
        made.append(_Change(words, before, waste(before, found.carcass)))
    return tuple(made)


def _here(points: Any, panel: Panel) -> Outline:  # noqa: ANN401  an array of points
    """Return points of the car in a panel's axes."""
    return tuple((float(u), float(v)) for u, v in panel.frame.flat(points))


def _without(build: Build, part: str, name: str) -> Build:
    """Return a build with one trim not made."""
    console = build.console
    if console is None:
        raise ValueError("build must have a console, got none")
    entry = getattr(console, part).model_copy(update={name: Quantity(0.0)})
    return build.model_copy(update={"console": console.model_copy(update={part: entry})})


def _asked(found: Cabin, panel: Panel) -> list[Taken]:
    """Return the cuts of the least cut that touch the panel."""
    made = []
    for cut in _cuts(found):
        areas: list[tuple[Outline, tuple[Outline, ...]]] = [
            (ring, ())
            for piece in cut.wood
            if piece.panel == panel.name and piece.face == "outer"
            for ring in piece.polygons
        ]
        areas += _opened(panel, cut.other.panel(panel.name))
        if areas:
            made.append(Taken("open", cut.words, tuple(areas)))
    return made


@lru_cache(maxsize=4)  # the same for every panel
def _cuts(found: Cabin) -> tuple[_Change, ...]:
    """Return the cuts of the least cut, each with the carcass after it."""
    plan = found.plan
    if plan is None or found.carcass is None:
        return ()
    made = []
    for cut, amount in plan.cuts:
        after = cabin(cut.applied(found.build, amount)).carcass
        if after is None or after.unbuildable:
            continue
        shown = shown_with_unit(amount, found.build.unit, "up", step="fine")
        words = f"open: {cut.verb.format(shown)}"
        made.append(_Change(words, after, waste(found.carcass, after)))
    return tuple(made)


def _opened(panel: Panel, after: Panel) -> list[tuple[Outline, tuple[Outline, ...]]]:
    """Return rings round the holes that become larger."""
    old = {hole.name: hole for hole in panel.holes}
    return [
        (hole.outline, (old[hole.name].outline,))
        for hole in after.holes
        if hole.name in old and (hole.long, hole.wide) != (old[hole.name].long, old[hole.name].wide)
    ]
