"""Second ways to a figure of the tunnel: girths, diagonals, heights, points read twice."""

from typing import Final

import numpy as np
from numpy.typing import NDArray

from trimwright.build import Build, Mark, Section, said
from trimwright.car.curve import Curve
from trimwright.car.half_width import ALIKE
from trimwright.car.reading_sum import Sum
from trimwright.car.section import STEP
from trimwright.car.shape import Unmeasured, floor_height, shape_of
from trimwright.car.slip import Tie
from trimwright.car.spot import Spots
from trimwright.car.touched import shared_points
from trimwright.car.wording import section_words

Floats = NDArray[np.float64]

END: Final = 1.0  # mm: how well the end of a diagonal is placed (sigma); common practice, no source
CARRIED: Final = 3.0  # mm: how well a girth is known where the sides are run on to the floor
UNEVEN: Final = 3.0  # mm: how flat a floor is (sigma); common practice, no source
TWICE: Final = (
    0.3  # mm: how well the gauge finds one point again (sigma); common practice, no source
)
# mm: how far a tunnel's top lies off the straight line between its neighbours, where a bell
# housing or a cross member lifts it (sigma); common practice, no source
TOP_BENDS: Final = 12.0


def ties(build: Build, spots: Spots, sigmas: dict[str, float]) -> tuple[Tie, ...]:
    """Return every second way to a figure.

    Parameters
    ----------
    build : Build
    spots : Spots
        The places touched.
    sigmas : dict
        Standard deviation [mm] of every reading by its key.
    """
    found = [*_girths(build, spots, sigmas), *_diagonals(build, spots, sigmas)]
    found += [*_heights(build, spots, sigmas), *_bends(spots)]
    for section in spots.sections:
        found += _twice(section, spots)
    return tuple(found)


def _girths(build: Build, spots: Spots, sigmas: dict[str, float]) -> list[Tie]:
    """Return each girth as a linear form of the readings around what was read."""
    floor = floor_height(build.car)
    found: list[Tie] = []
    for section in spots.sections:
        if floor is None or section.girth is None:
            continue
        try:
            shape = shape_of(build.car, build.car.tunnel.index(section))
        except Unmeasured:
            continue
        curve = Curve.through(shape.variants(), shape.corners)
        lengths = curve.length(floor.value)
        lower = float(curve.length(floor.value + STEP)[0] - lengths[0]) / STEP
        rise = (lengths[1:] - lengths[0]) / STEP
        parts = tuple((key, 0.0, float(r)) for key, r in zip(shape.keys, rise, strict=True))
        key, reads = said(section, "girth").key, section.girth.value
        sigma = float(np.hypot(sigmas.get(key, 1.0), CARRIED))
        row = spots.row(Sum(0.0, parts).plus(floor, lower))
        words = f"girth at {section_words(build, section)}"
        found.append(Tie(key, words, row, reads, reads - float(lengths[0]), sigma))
    return found


def _diagonals(build: Build, spots: Spots, sigmas: dict[str, float]) -> list[Tie]:
    """Return each diagonal as a linear form of the readings at its two ends."""
    found: list[Tie] = []
    for number, diagonal in enumerate(build.car.diagonals):
        a, b = (_marked(spots, mark) for mark in (diagonal.start, diagonal.end))
        if a is None or b is None:
            continue
        along = spots.places[b] - spots.places[a]
        length = float(np.linalg.norm(along))
        unit = along / length
        row = unit @ (spots.moves[b] - spots.moves[a])
        key, reads = said(diagonal, "length").key, diagonal.length.value
        # the ends' places along and heights are off too, each way, at both ends
        sigma = float(np.hypot(sigmas.get(key, 1.0), END * np.sqrt(2 * (1 - unit[1] ** 2))))
        found.append(Tie(key, f"diagonal {number + 1}", row, reads, reads - length, sigma))
    return found


def _marked(spots: Spots, mark: Mark) -> int | None:
    """Return the number of the place that a mark names."""
    widths = spots.widths
    same = np.abs(spots.places[:, 0] - mark.at.value) < 1
    same &= (widths.side < 0) == (mark.side == "left")
    same &= np.abs(widths.depth - mark.down.value) < ALIKE
    hits = np.flatnonzero(same)
    return int(hits[0]) if len(hits) else None


def _heights(build: Build, spots: Spots, sigmas: dict[str, float]) -> list[Tie]:
    """Return each height above the floor that the string tells as well."""
    car = build.car
    floor = floor_height(car) if car.floor_below_string is not None else None
    found: list[Tie] = []
    for section, top in zip(spots.sections, spots.tops, strict=True):
        height = section.height_above_floor
        if floor is None or height is None or section.top_from != "string" or not top.parts:
            continue
        key, reads = said(section, "height_above_floor").key, height.value
        apart = top.plus(floor, -1)
        sigma = float(np.hypot(sigmas.get(key, 1.0), UNEVEN))
        words = f"height above the floor at {section_words(build, section)}"
        found.append(Tie(key, words, spots.row(apart), reads, reads - apart.value, sigma))
    return found


def _bends(spots: Spots) -> list[Tie]:
    """Return how far each top lies off the line between its neighbours: nothing, more or less."""
    x, found = spots.widths.x, []
    for k in range(1, len(x) - 1):
        before, here, after = spots.tops[k - 1 : k + 2]
        share = float((x[k] - x[k - 1]) / (x[k + 1] - x[k - 1]))
        off = here.plus(before, share - 1).plus(after, -share)
        if before.parts and here.parts and after.parts:
            found.append(Tie("", "", spots.row(off), 0.0, -off.value, TOP_BENDS))
    return found


def _twice(section: Section, spots: Spots) -> list[Tie]:
    """Return how far two bites differ at the points they share: nothing, more or less."""
    return [
        Tie("", "", spots.row(apart), 0.0, -apart.value, TWICE) for apart in shared_points(section)
    ]


__all__ = ["ties"]
