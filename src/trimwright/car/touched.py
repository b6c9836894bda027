"""The points of a section as sums of its readings, whichever way it was written."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from trimwright.build import BitePoint, Nails, Section
from trimwright.car.bite import joined
from trimwright.car.nail import below_nails
from trimwright.car.reading_sum import Place, Sum, computed, read

Floats = NDArray[np.float64]

SHOULDER_SHARE = 0.2  # of the height: how far the shoulder lies below the top, if not read
SHOULDER = (0.35, 0.65, 0.85, 1.0)  # shares of the shoulder's half width; drop goes with the cube
SIDE = (0.25, 0.5, 0.75, 1.0)  # shares of the straight side
TOP_APART = 5.0  # mm: a point nearer the middle than this is the top
TOP_APART = 5.0  # mm: a point nearer the middle than this is the top


def places_of(section: Section, top: Sum) -> list[Place]:
    """Return a section's points from left to right, whichever way it was written.

    None where nothing was read across it; `top` is the height of its top.
    """
    if section.bites:
        return _bite_places(section, top)
    if section.nails:
        return _nail_places(section.nails, top)
    if section.points:
        own = [
            (read(point, "off_middle"), top.plus(read(point, "down"), -1))
            for point in section.points
        ]
        return _with_top(own, top)
    if section.rows:
        return _row_places(section, top)
    if section.width_at_shoulder and section.width_at_floor and section.height_above_floor:
        return _width_places(section, top)
    return []


def _row_places(section: Section, top: Sum) -> list[Place]:
    rows = sorted(section.rows, key=lambda row: row.down.value)
    right = [(read(row, "right"), top.plus(read(row, "down"), -1)) for row in rows if row.right]
    left = [
        (Sum().plus(read(row, "left"), -1), top.plus(read(row, "down"), -1))
        for row in reversed(rows)
        if row.left
    ]
    return [*left, (Sum(), top), *right]


def _with_top(places: list[Place], top: Sum) -> list[Place]:
    """Return the points with the top among them, unless one of them is the top."""
    if any(abs(y.value) < TOP_APART for y, _ in places):
        return places
    left = [place for place in places if place[0].value < 0]
    return [*left, (Sum(), top), *places[len(left) :]]


def _width_places(section: Section, top: Sum) -> list[Place]:
    """Return a smooth section from three widths and heights; its shoulder is assumed.

    From the top the half section falls with the cube of the distance to the shoulder, then runs
    straight to the floor.
    """
    shoulder, floor = read(section, "width_at_shoulder"), read(section, "width_at_floor")
    height = read(section, "height_above_floor")
    drop = Sum(0.0, ((f"assumed:shoulder {section.key}", SHOULDER_SHARE * height.value, 1.0),))
    right: list[Place] = [
        (Sum().plus(shoulder, share / 2), top.plus(drop, -(share**3))) for share in SHOULDER
    ]
    for share in SIDE:
        y = Sum().plus(shoulder, (1 - share) / 2).plus(floor, share / 2)
        right.append((y, top.plus(drop, share - 1).plus(height, -share)))
    left = [(Sum().plus(y, -1), z) for y, z in reversed(right)]
    return [*left, (Sum(), top), *right]


def _nail_places(nails: Nails, top: Sum) -> list[Place]:
    shared = [read(nails, "apart"), *(read(nails.middle, name) for name in ("left", "right"))]

    def from_middle(values: Floats) -> Floats:
        apart, *lengths = values
        mark, point = below_nails(apart, *lengths[:2]), below_nails(apart, *lengths[2:])
        return np.subtract(point, mark)

    found = []
    for point in nails.points:
        own = [read(point, name) for name in ("left", "right")]
        across, down = computed(from_middle, [*shared, *own])
        found.append((across, top.plus(down, -1)))
    return _with_top(found, top)


def _bite_points(section: Section) -> tuple[list[BitePoint], list[Sum]]:
    """Return all points of all bites, and their readings: across, then down, of each."""
    points = [point for bite in section.bites for point in bite.points]
    return points, [read(one, name) for one in points for name in ("off_middle", "down")]


def _bites_at(
    section: Section, values: Sequence[float] | Floats
) -> list[list[tuple[str, float, float]]]:
    """Return the bites as letters and places, with their readings as given."""
    pairs = iter(np.asarray(values).reshape(-1, 2))
    found = []
    for bite in section.bites:
        own = [(point.letter, *next(pairs)) for point in bite.points]
        found.append([(letter, float(y), -float(down)) for letter, y, down in own])
    return found


def _bite_places(section: Section, top: Sum) -> list[Place]:
    points, readings = _bite_points(section)
    kept = joined(_bites_at(section, [one.value for one in readings])).kept

    def places(values: Floats) -> Floats:
        return joined(_bites_at(section, values)).points.reshape(-1)

    sums = computed(places, readings)
    found = [
        (sums[2 * number], top.plus(sums[2 * number + 1]))
        for number in range(len(points))
        if kept[number]
    ]
    return _with_top(found, top)


def shared_points(section: Section) -> tuple[Sum, ...]:
    """Return how far bites differ at each point they share, across and up, as sums of readings."""
    if not section.bites:
        return ()

    def apart(values: Floats) -> Floats:
        return joined(_bites_at(section, values)).apart.reshape(-1)

    return computed(apart, _bite_points(section)[1])
