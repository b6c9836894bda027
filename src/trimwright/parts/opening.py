"""The outline of a hole with round corners."""

import numpy as np

from trimwright.parts.frame import Array
from trimwright.parts.panel import Hole, Outline

ROUNDING = 1e-9  # mm
QUARTERS = np.array(((1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)))  # u, v of each
OUTLINE_STEPS = 24  # chords a quarter turn: within 0.014 mm on a 25 mm corner


def hole_outline(
    centre: tuple[float, float], long_mm: float, wide_mm: float, corner_mm: float
) -> Outline:
    """Return a rectangle with round corners, counter-clockwise.

    Parameters
    ----------
    centre : (u, v)
        Middle of the hole [mm].
    long_mm, wide_mm, corner_mm : float
        Along u, along v, radius of the corners [mm]; half of both sides makes a circle.

    Returns
    -------
    tuple of (u, v)
        Corners [mm]; arcs are drawn with `OUTLINE_STEPS` chords a quarter.

    Examples
    --------
    >>> hole_outline((0.0, 0.0), 20.0, 10.0, 0.0)
    ((10.0, 5.0), (-10.0, 5.0), (-10.0, -5.0), (10.0, -5.0))
    """
    half = np.array((long_mm / 2 - corner_mm, wide_mm / 2 - corner_mm))
    steps = OUTLINE_STEPS if corner_mm > 0 else 0
    quarter = np.arange(4)[:, None]
    turn = np.pi / 2 * (quarter + np.arange(steps + 1) / max(steps, 1))
    round_off = corner_mm * np.stack([np.cos(turn), np.sin(turn)], axis=-1)
    around = (np.array(centre) + QUARTERS[:, None] * half + round_off).reshape(-1, 2)
    apart = np.hypot(*(around - np.roll(around, 1, axis=0)).T) > ROUNDING
    apart[0] = True  # the last is left out where it is the first
    kept = around[apart]
    if np.hypot(*(kept[0] - kept[-1])) <= ROUNDING:
        kept = kept[:-1]
    return tuple((u, v) for u, v in kept.tolist())


def hole_sides(hole: Hole) -> tuple[Array, Array]:
    """Return the two sides of a hole that face lower and higher v.

    Parameters
    ----------
    hole : Hole
        With an outline as `hole_outline` makes it.

    Returns
    -------
    low, high : ndarray, shape (2, n, 2)
        Points with u rising, the same at both levels [mm].
    """
    points = np.array(hole.outline)
    sides = []
    for sign in (-1.0, 1.0):
        part = points[sign * (points[:, 1] - hole.centre[1]) >= -ROUNDING]
        part = part[np.argsort(part[:, 0], kind="stable")]
        sides.append(np.stack([part, part]))
    return sides[0], sides[1]
