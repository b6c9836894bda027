"""Where on a panel there is most room to write."""

import math

import numpy as np
from numpy.typing import NDArray

from trimwright.drawing import Point

Floats = NDArray[np.float64]
STEP_MM, DENSE_MM = 8.0, 4.0


def clear_place(
    rings: tuple[tuple[Point, ...], ...], half_mm: tuple[float, float]
) -> tuple[Point, float]:
    """Return the middle of the place inside rings that is farthest from all lines, and how far.

    Parameters
    ----------
    rings : tuple of tuple of Point
        An outline and its holes, even-odd, in any axes [mm].
    half_mm : tuple of float
        Half width and height of what shall stand there: distances count in these [mm].

    Examples
    --------
    >>> clear_place((((0.0, 0.0), (160.0, 0.0), (160.0, 80.0), (0.0, 80.0)),), (40.0, 20.0))
    ((80.0, 40.0), 2.0)
    """
    edges = np.concatenate([_dense(ring) for ring in rings])
    low, high = edges.min(axis=0), edges.max(axis=0)
    grid = [
        np.linspace(low[k], high[k], max(3, 2 * math.ceil((high[k] - low[k]) / STEP_MM / 2) + 1))
        for k in (0, 1)
    ]
    x, y = (part.ravel() for part in np.meshgrid(*grid))
    # across and along are apart from each other: a column of the grid has one distance to a point
    across, along = (np.abs(grid[k][:, None] - edges[None, :, k]) / half_mm[k] for k in (0, 1))
    room = np.concatenate([np.maximum(across, row).min(axis=1) for row in along])
    room = np.where(_inside(rings, x, y), room.round(6), -1.0)
    # of equal places the one nearest to the middle, so that rounding decides nothing
    middle = (low + high) / 2
    off = np.hypot(x - middle[0], y - middle[1]).round(6)
    best = int(np.lexsort((off, -room))[0])
    return (float(x[best]), float(y[best])), float(room[best])


def _dense(ring: tuple[Point, ...]) -> Floats:
    """Return points along a ring, no farther apart than `DENSE_MM`."""
    found = []
    for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
        count = max(1, math.ceil(math.dist(p, q) / DENSE_MM))
        share = np.arange(count)[:, None] / count
        found.append(np.array(p) + share * (np.array(q) - np.array(p)))
    return np.concatenate(found)


def _inside(rings: tuple[tuple[Point, ...], ...], x: Floats, y: Floats) -> NDArray[np.bool_]:
    """Return which points lie inside rings, even-odd."""
    odd = np.zeros(len(x), dtype=bool)
    for ring in rings:
        for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
            if p[1] == q[1]:
                continue
            crosses = (p[1] <= y) != (q[1] <= y)
            odd ^= crosses & (x < p[0] + (y - p[1]) / (q[1] - p[1]) * (q[0] - p[0]))
    return odd
