"""A loom over a hinge: how it lies at every opening, how tight it bends, how long it has to be."""

from collections.abc import Callable, Iterator
from functools import lru_cache, partial
from math import atan2, inf, pi, radians, sqrt

import numpy as np
from msgspec import Struct

from trimwright.wiring.swing.elastica import Array, Bent, Ends, NoShapeError, bent, guess
from trimwright.wiring.swing.hinge import Swing

EVERY_DEG = 4.0  # at most, between openings that are looked at
LONGER, LEAST_LONGER, STEPS = 3.0, 1.0005, 28  # lengths tried, times the longest straight way
WITHIN_MM = 0.5
_WINDINGS = (-1, 0, 1)
_NEARLY = 1e-9


class Lead(Struct, frozen=True):
    """How a loom leaves both holes.

    The angle is off the line from the axis through the hole, outwards [deg]: 0 straight away from
    the axis, 90 square to that line and towards the side of the other hole, as closed. None where
    it is free to turn.
    """

    body_deg: float | None = None
    door_deg: float | None = None


class Lying(Struct, frozen=True, eq=False):
    """How a loom lies at one opening.

    Attributes
    ----------
    open_deg : float
        The opening [deg].
    radius_mm : float
        The least radius of its middle line [mm].
    points_mm : ndarray, shape (n, 2), read-only
        Where it goes, seen along the axis, the axis being the origin [mm].
    """

    open_deg: float
    radius_mm: float
    points_mm: Array


@lru_cache(maxsize=512)
def lyings(swing: Swing, lead: Lead, free_mm: float) -> tuple[Lying, ...]:
    """Return how a loom lies from closed to open, each following from the one before.

    It is an elastica without weight, led so that at both ends of the swing together it takes the
    least energy. Where the holes are apart along the axis it climbs evenly from one to the other.

    Parameters
    ----------
    swing : Swing
        The hinge.
    lead : Lead
        How the loom leaves the holes.
    free_mm : float
        Its length between the holes [mm].

    Raises
    ------
    ValueError
        If it is not longer than the longest straight way.
    NoShapeError
        If no shape was found somewhere.
    """
    return tuple(_each(swing, lead, free_mm))


def _each(swing: Swing, lead: Lead, free_mm: float) -> Iterator[Lying]:
    """Yield how a loom lies at one opening after the other."""
    longest = swing.straight_mm(swing.longest_deg)
    if not free_mm > longest:
        raise ValueError(f"free_mm must be above {longest:g}, got {free_mm:g}")
    flat_mm = sqrt(free_mm**2 - swing.along_mm**2)
    winding, shape = _first(swing, lead, flat_mm)
    # a curve on a cylinder that climbs evenly bends by the square of its share in the plane
    share = (flat_mm / free_mm) ** 2
    for open_deg in openings(swing):
        shape = bent(_ends(swing, lead, flat_mm, open_deg, winding), shape.terms)
        points = shape.points * flat_mm + np.array([swing.body_mm, 0.0])
        points.flags.writeable = False
        tight = shape.tightest * share / flat_mm
        yield Lying(open_deg, 1 / tight if tight > _NEARLY else inf, points)


def openings(swing: Swing) -> tuple[float, ...]:
    """Return the openings that are looked at [deg]: evenly, and where the distance turns."""
    count = int(-(-swing.opens_deg // EVERY_DEG))
    even = (swing.opens_deg * number / count for number in range(count + 1))
    return tuple(sorted({round(one, 6) for one in (*even, *swing.turning_deg)}))


def tightest(found: tuple[Lying, ...]) -> Lying:
    """Return where a loom bends the tightest; of equal ones the least opening."""
    return min(found, key=lambda one: (round(one.radius_mm, 6), one.open_deg))


@lru_cache(maxsize=512)
def needed_mm(swing: Swing, lead: Lead, radius_mm: float, slack: float) -> float | None:
    """Return the shortest length at which a loom is nowhere stretched and nowhere bent tighter [mm].

    Parameters
    ----------
    swing, lead : Swing, Lead
        The hinge and how the loom leaves its holes.
    radius_mm : float
        The least radius of its middle line [mm].
    slack : float
        What is to be added to the longest straight way at least, as a share of it.

    Returns
    -------
    float or None
        The length, to half a millimetre up; None where up to three times the longest
        straight way none will do.
    """
    longest = swing.straight_mm(swing.longest_deg)
    first = longest * max(1.0 + slack, LEAST_LONGER)
    lengths = np.geomspace(first, longest * LONGER, STEPS).tolist()
    short = first
    for tried in lengths:
        if bears(swing, lead, radius_mm, tried):
            return _between(short, tried, partial(bears, swing, lead, radius_mm))
        short = tried
    return None


def _between(short: float, enough: float, enough_at: Callable[[float], bool]) -> float:
    """Return a length that bears, no more than a little above one that does not [mm]."""
    while enough - short > WITHIN_MM:
        middle = (short + enough) / 2
        short, enough = (short, middle) if enough_at(middle) else (middle, enough)
    return enough


def bears(swing: Swing, lead: Lead, radius_mm: float, free_mm: float) -> bool:
    """Return whether a loom of a length bends no tighter anywhere in the swing."""
    try:
        return all(one.radius_mm >= radius_mm for one in _each(swing, lead, free_mm))
    except (NoShapeError, ValueError):
        return False


def _first(swing: Swing, lead: Lead, flat_mm: float) -> tuple[int, Bent]:
    """Return by how many turns the loom is led, and how it lies closed."""
    wound = _WINDINGS if None not in (lead.body_deg, lead.door_deg) else (0,)
    found: list[tuple[float, int, Bent]] = []
    for winding in wound:
        both = [
            _least(_ends(swing, lead, flat_mm, one, winding), _outward(swing, one))
            for one in (0.0, swing.opens_deg)
        ]
        if both[0] is not None and both[1] is not None:
            found.append((round(both[0].energy + both[1].energy, 9), winding, both[0]))
    if not found:
        raise NoShapeError("no way to lay the loom was found")
    _, winding, shape = min(found, key=lambda one: (one[0], abs(one[1]), one[1]))
    return winding, shape


def _least(ends: Ends, side: int) -> Bent | None:
    """Return the shape of least energy that is reached from some first guesses; None if none is.

    Of two alike the one that bulges to the given side; free at both ends the other is its mirror.
    """
    found: list[tuple[float, int, Bent]] = []
    free = ends.start is None and ends.end is None
    for order, first in enumerate((side,) if free else (side, -side)):
        try:
            shape = bent(ends, guess(ends, first))
        except NoShapeError:
            continue
        found.append((round(shape.energy, 6), order, shape))
    return min(found, key=lambda one: one[:2])[2] if found else None


def _outward(swing: Swing, open_deg: float) -> int:
    """Return to which side of the way from hole to hole the axis is not."""
    (x0, y0), (x1, y1) = swing.holes(open_deg)
    return 1 if (x1 - x0) * -y0 - (y1 - y0) * -x0 < 0 else -1


def _ends(swing: Swing, lead: Lead, flat_mm: float, open_deg: float, winding: int) -> Ends:
    """Return between what a loom is bent at an opening, for a line of length 1."""
    (x0, y0), (x1, y1) = swing.holes(open_deg)
    chord = ((x1 - x0) / flat_mm, (y1 - y0) / flat_mm)
    turned = swing.turned_rad(open_deg)
    start = None if lead.body_deg is None else radians(lead.body_deg)
    if lead.door_deg is None:
        return Ends(chord, start, None)
    # what leaves the door's hole comes in there the other way
    end = turned - radians(lead.door_deg) + pi + 2 * pi * winding
    if start is not None:
        return Ends(chord, start, end)
    near = atan2(chord[1], chord[0])
    whole = round((swing.turned_rad(0.0) - radians(lead.door_deg) + pi - near) / (2 * pi))
    return Ends(chord, None, end - 2 * pi * whole)
