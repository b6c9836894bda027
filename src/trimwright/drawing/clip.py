"""Cutting lines and areas along a convex outline."""

import math
from functools import lru_cache
from itertools import pairwise

from trimwright.drawing.element import Point

Window = tuple[Point, ...]  # a convex outline, corners in order, either way round


def _area2(window: Window) -> float:
    pairs = zip(window, (*window[1:], window[0]), strict=True)
    return sum(p[0] * q[1] - q[0] * p[1] for p, q in pairs)


@lru_cache(maxsize=64)  # the same window for every line of a drawing
def _sides(window: Window) -> tuple[tuple[Point, Point], ...]:
    """Return the edges, each as a point and an inward normal of unit length."""
    sign = 1.0 if _area2(window) > 0 else -1.0
    sides = []
    for p, q in zip(window, (*window[1:], window[0]), strict=True):
        length = math.hypot(q[0] - p[0], q[1] - p[1])
        if length > 0:
            normal = (-sign * (q[1] - p[1]) / length, sign * (q[0] - p[0]) / length)
            sides.append((p, normal))
    return tuple(sides)


def inside(points: tuple[Point, ...], window: Window, slack_mm: float = 1e-9) -> bool:
    """Return whether all points lie in a convex window."""
    return all(
        (x - p[0]) * n[0] + (y - p[1]) * n[1] >= -slack_mm
        for p, n in _sides(window)
        for x, y in points
    )


def outside(points: tuple[Point, ...], window: Window) -> bool:
    """Return whether one side of the window has all the points beyond it."""
    return any(
        all((x - p[0]) * n[0] + (y - p[1]) * n[1] < 0 for x, y in points) for p, n in _sides(window)
    )


def _span(p: Point, q: Point, sides: tuple[tuple[Point, Point], ...]) -> tuple[float, float] | None:
    """Return the share of the piece p-q that lies inside, from and to [Cyrus and Beck 1978]."""
    low, high = 0.0, 1.0
    for corner, n in sides:
        here = (p[0] - corner[0]) * n[0] + (p[1] - corner[1]) * n[1]
        gain = (q[0] - p[0]) * n[0] + (q[1] - p[1]) * n[1]
        if gain == 0.0:
            if here < 0:
                return None
        elif gain > 0:
            low = max(low, -here / gain)
        else:
            high = min(high, -here / gain)
    return (low, high) if low < high else None


def cut_line(points: tuple[Point, ...], window: Window) -> list[tuple[tuple[Point, ...], float]]:
    """Return the runs of a polyline inside a convex window, each with where it begins [mm].

    Parameters
    ----------
    points : tuple of Point
        The polyline; repeat the first point to close it.
    window : tuple of Point
        A convex outline.

    References
    ----------
    M. Cyrus, J. Beck, Generalized two- and three-dimensional clipping, 1978

    Examples
    --------
    >>> square = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
    >>> cut_line(((-1.0, 1.0), (5.0, 1.0)), square)
    [(((0.0, 1.0), (2.0, 1.0)), 1.0)]
    """
    sides = _sides(window)
    runs: list[tuple[list[Point], float]] = []
    joined, gone = False, 0.0
    for p, q in pairwise(points):
        length = math.hypot(q[0] - p[0], q[1] - p[1])
        span = _span(p, q, sides)
        if span is None:
            joined = False
        else:
            low, high = span
            ends = [(p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])) for t in span]
            if low == 0.0:
                ends[0] = p
            if high == 1.0:
                ends[1] = q
            if joined and low == 0.0:
                runs[-1][0].append(ends[1])
            else:
                runs.append((ends, gone + low * length))
            joined = high == 1.0
        gone += length
    return [(tuple(run), start) for run, start in runs]


def cut_area(points: tuple[Point, ...], window: Window) -> tuple[Point, ...]:
    """Return an area's outline inside a convex window; empty when nothing is left.

    An outline that leaves and comes back keeps a seam of no width along the window.

    References
    ----------
    I. Sutherland, G. Hodgman, Reentrant polygon clipping, 1974
    """
    left = list(points)
    for corner, n in _sides(window):
        source, left = left, []
        for p, q in zip(source, source[1:] + source[:1], strict=True):
            here = (p[0] - corner[0]) * n[0] + (p[1] - corner[1]) * n[1]
            there = (q[0] - corner[0]) * n[0] + (q[1] - corner[1]) * n[1]
            if here >= 0:
                left.append(p)
            if (here >= 0) != (there >= 0):
                t = here / (here - there)
                left.append((p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])))
    return tuple(left) if len(left) >= 3 else ()  # noqa: PLR2004  three corners make an area
