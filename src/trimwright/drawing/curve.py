"""Arcs and curves: their centres, their straight pieces, arcs as curves."""

import math
from collections.abc import Iterator

from trimwright.drawing.element import ArcTo, CurveTo, LineTo, Path, Point

TOLERANCE_MM = 0.005  # how far a straight piece may leave its curve: a fiftieth of the thin line


def arc_centre(start: Point, arc: ArcTo) -> tuple[Point, float, float, float]:
    """Return an arc's centre, radius [mm], start angle and signed sweep [rad], clockwise positive.

    A radius too small to reach is enlarged to half the chord, as in SVG.

    References
    ----------
    SVG 2, section B.2.4, conversion from endpoint to centre parameterization
    """
    (x1, y1), (x2, y2) = start, arc.to
    half = math.hypot(x2 - x1, y2 - y1) / 2
    if half == 0.0:
        return start, arc.radius, 0.0, 0.0
    radius = max(arc.radius, half)
    rise = math.sqrt(max(radius * radius - half * half, 0.0))
    # y is down, so 'to the right of the chord' is (-dy, dx); a short clockwise arc has it there
    side = rise if (arc.way == "clockwise") != arc.longer else -rise
    centre = (
        (x1 + x2) / 2 - (y2 - y1) / (2 * half) * side,
        (y1 + y2) / 2 + (x2 - x1) / (2 * half) * side,
    )
    begin = math.atan2(y1 - centre[1], x1 - centre[0])
    end = math.atan2(y2 - centre[1], x2 - centre[0])
    turn = (end - begin) % math.tau
    return centre, radius, begin, turn if arc.way == "clockwise" else turn - math.tau


def curves_of_arc(start: Point, arc: ArcTo) -> tuple[CurveTo, ...]:
    """Return cubic curves of at most 45 degrees that follow an arc within 5e-6 of its radius.

    References
    ----------
    M. Goldapp, Approximation of circular arcs by cubic polynomials, 1991: handle 4/3 tan(sweep/4)
    """
    (cx, cy), radius, begin, sweep = arc_centre(start, arc)
    count = max(1, math.ceil(abs(sweep) / (math.pi / 4) - 1e-9))
    part = sweep / count
    handle = 4 / 3 * math.tan(part / 4) * radius
    curves = []
    for index in range(count):
        a, b = begin + index * part, begin + (index + 1) * part
        p = (cx + radius * math.cos(a), cy + radius * math.sin(a))
        q = (cx + radius * math.cos(b), cy + radius * math.sin(b))
        first = (p[0] - handle * math.sin(a), p[1] + handle * math.cos(a))
        second = (q[0] + handle * math.sin(b), q[1] - handle * math.cos(b))
        curves.append(CurveTo(first, second, arc.to if index == count - 1 else q))
    return tuple(curves)


def _arc_points(start: Point, arc: ArcTo, tolerance_mm: float) -> Iterator[Point]:
    (cx, cy), radius, begin, sweep = arc_centre(start, arc)
    # a chord over angle t leaves its arc by r (1 - cos(t/2))
    step = 2 * math.acos(max(1 - tolerance_mm / radius, 0.0)) if radius > 0 else math.pi
    count = max(1, math.ceil(abs(sweep) / max(step, 1e-4)))
    for index in range(1, count):
        angle = begin + sweep * index / count
        yield (cx + radius * math.cos(angle), cy + radius * math.sin(angle))
    yield arc.to


def _curve_points(start: Point, curve: CurveTo, tolerance_mm: float) -> Iterator[Point]:
    p, q, r, s = start, curve.first, curve.second, curve.to
    # a chord over 1/n of a cubic leaves it by at most max|second difference| * 6 / (8 n^2)
    bend = max(
        math.hypot(p[0] - 2 * q[0] + r[0], p[1] - 2 * q[1] + r[1]),
        math.hypot(q[0] - 2 * r[0] + s[0], q[1] - 2 * r[1] + s[1]),
    )
    count = max(1, math.ceil(math.sqrt(0.75 * bend / tolerance_mm)))
    for index in range(1, count):
        t = index / count
        u = 1 - t
        w = (u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t)
        yield (
            w[0] * p[0] + w[1] * q[0] + w[2] * r[0] + w[3] * s[0],
            w[0] * p[1] + w[1] * q[1] + w[2] * r[1] + w[3] * s[1],
        )
    yield s


def points_of(path: Path, tolerance_mm: float = TOLERANCE_MM) -> tuple[Point, ...]:
    """Return the corners of a polyline that stays within a tolerance of a path.

    Parameters
    ----------
    path : Path
        Straight pieces, arcs and curves.
    tolerance_mm : float, default 0.005
        How far a straight piece may leave the path [mm].

    Examples
    --------
    >>> half = Path((0.0, 0.0), (ArcTo((2.0, 0.0), 1.0),))
    >>> points = points_of(half, tolerance_mm=0.5)
    >>> [(round(x, 2), round(y, 2)) for x, y in points]
    [(0.0, 0.0), (1.0, -1.0), (2.0, 0.0)]
    """
    points = [path.start]
    for step in path.steps:
        if isinstance(step, LineTo):
            points.append(step.to)
        elif isinstance(step, ArcTo):
            points.extend(_arc_points(points[-1], step, tolerance_mm))
        else:
            points.extend(_curve_points(points[-1], step, tolerance_mm))
    return tuple(points)
