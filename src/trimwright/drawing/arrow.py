"""Arrows: dimensions, grain, bevels."""

import math
from typing import Literal

from trimwright.drawing.element import Anchor, Element, Fill, Line, Point, Text
from trimwright.drawing.face import text_width
from trimwright.drawing.type_size import LABEL_MM, LEAD_MM, WORD_MM

HEAD_MM = 3.0
QUARTER = 90.0
START: Anchor = "start"
MIDDLE: Anchor = "middle"
LEVEL = 0.7  # a direction that leans more to the side than up or down
SLIM, STOUT = 0.2, 0.45  # width to length of a head: dimension 1:5, others
GAP_MM, PAST_MM, RISE_MM = 1.0, 1.5, 0.9  # extension lines begin, end; figures stand above


def _along(a: Point, b: Point) -> tuple[Point, float]:
    """Return the unit vector from a to b and the distance [mm]."""
    length = math.hypot(b[0] - a[0], b[1] - a[1])
    if length == 0.0:
        raise ValueError(f"the two ends must differ, got {a} twice")
    return ((b[0] - a[0]) / length, (b[1] - a[1]) / length), length


def _shifted(point: Point, way: Point, by: float) -> Point:
    return (point[0] + way[0] * by, point[1] + way[1] * by)


def head(
    tip: Point, way: Point, length_mm: float = HEAD_MM, kind: Literal["slim", "stout"] = "slim"
) -> Fill:
    """Return a filled arrowhead whose tip points along a unit vector.

    Examples
    --------
    >>> head((10.0, 0.0), (1.0, 0.0), 5.0).points
    ((10.0, 0.0), (5.0, 0.5), (5.0, -0.5))
    """
    half = length_mm * (SLIM if kind == "slim" else STOUT) / 2
    back = _shifted(tip, way, -length_mm)
    side = (-way[1], way[0])
    return Fill((tip, _shifted(back, side, half), _shifted(back, side, -half)), tone="ink")


def _upright(way: Point) -> tuple[float, float]:
    """Return the turn of words along a line, readable from below or the right, and its sign."""
    turn = math.degrees(math.atan2(way[1], way[0]))
    if -QUARTER <= turn < QUARTER:
        return turn, 1.0
    return turn - math.copysign(2 * QUARTER, turn), -1.0


def dimension(
    a: Point, b: Point, offset_mm: float, words: str, size_mm: float = LABEL_MM
) -> tuple[Element, ...]:
    """Return a dimension: extension lines, the line with its heads, the figure above it.

    Parameters
    ----------
    a, b : Point
        What is measured, from and to [mm].
    offset_mm : float
        How far away the line stands [mm]; above 0 is to the left when going from a to b.
    words : str
        The figure, without its unit: that stands in the title block.
    size_mm : float, default 2.6
        Size of the figure [mm].

    Raises
    ------
    ValueError
        If the two ends are the same.

    References
    ----------
    ISO 129-1:2018 (extension lines, figures above the line, read from below or the right)
    """
    way, length = _along(a, b)
    side = (way[1], -way[0])
    sign = math.copysign(1.0, offset_mm)
    p, q = _shifted(a, side, offset_mm), _shifted(b, side, offset_mm)
    drawn: list[Element] = []
    if abs(offset_mm) > GAP_MM:
        drawn.extend(
            Line((_shifted(foot, side, sign * GAP_MM), _shifted(top, side, sign * PAST_MM)), "thin")
            for foot, top in ((a, p), (b, q))
        )
    width = text_width(words, size_mm, "count")
    inside = length >= max(2 * HEAD_MM + 1.0, width + 1.0)
    turn, reads = _upright(way)
    lift = (math.sin(math.radians(turn)) * RISE_MM, -math.cos(math.radians(turn)) * RISE_MM)
    if inside:
        drawn += [Line((p, q), "thin"), head(p, (-way[0], -way[1])), head(q, way)]
        middle, anchor = _shifted(p, way, length / 2), MIDDLE
    else:
        # too short for heads and figure: heads from outside, the figure beyond b
        end = _shifted(q, way, HEAD_MM + 2.0 + width)
        drawn += [Line((_shifted(p, way, -2 * HEAD_MM), end), "thin")]
        drawn += [head(p, way), head(q, (-way[0], -way[1]))]
        middle = _shifted(q, way, HEAD_MM + 1.0 + (0.0 if reads > 0 else width))
        anchor = START
    at = (middle[0] + lift[0], middle[1] + lift[1])
    return (*drawn, Text(at, words, size_mm, "count", anchor, turn))


def grain_arrow(
    middle: Point, length_mm: float = 40.0, turn_deg: float = 0.0, words: str = "grain"
) -> tuple[Element, ...]:
    """Return the line with two heads that the wood's grain runs along, its word above it."""
    angle = math.radians(turn_deg)
    way = (math.cos(angle), math.sin(angle))
    p, q = _shifted(middle, way, -length_mm / 2), _shifted(middle, way, length_mm / 2)
    turn, _ = _upright(way)
    rise = math.radians(turn)
    at = (middle[0] + math.sin(rise) * 1.5, middle[1] - math.cos(rise) * 1.5)
    back = (-way[0], -way[1])
    heads = (head(p, back, 4.0, "stout"), head(q, way, 4.0, "stout"))
    return (Line((p, q), "thin"), *heads, Text(at, words, WORD_MM, anchor="middle", turn_deg=turn))


def bevel_arrow(
    edge: Point, from_deg: float, words: str, length_mm: float = 15.0
) -> tuple[Element, ...]:
    """Return a bevel's arrow: a filled head on the short edge, an open triangle at its tail.

    Parameters
    ----------
    edge : Point
        Where on the edge the bevel is given; the head ends there [mm].
    from_deg : float
        The direction the arrow comes from, clockwise from the right of the page [degrees].
    words : str
        The angle, as `24°`, set beside the triangle.
    length_mm : float, default 15.0
        From the edge to the triangle's far corner [mm].
    """
    angle = math.radians(from_deg)
    out = (math.cos(angle), math.sin(angle))
    tail = _shifted(edge, out, length_mm - 3.8)
    side = (-out[1], out[0])
    corners = (
        _shifted(tail, side, 2.2),
        _shifted(tail, side, -2.2),
        _shifted(edge, out, length_mm),
    )
    tip = corners[2]
    at: Point
    anchor: Anchor
    # beside the triangle, and clear of its tip and of the arrow's own line
    if out[0] < -LEVEL:
        at, anchor = (tip[0] - 1.2, tip[1] + 1.2), "end"
    elif out[0] > LEVEL:
        at, anchor = (tip[0] + 1.2, tip[1] + 1.2), "start"
    else:
        at, anchor = (tail[0] + 3.4, tail[1] + 0.2), "start"
    return (
        head(edge, (-out[0], -out[1]), 4.0, "stout"),
        Line((_shifted(edge, out, 3.8), tail), "thin"),
        Line(corners, "thin", closed=True),
        Text(at, words, LEAD_MM, "count-bold", anchor),
    )
