"""The squares and rules by which a builder sees whether the printer kept to size."""

from typing import Literal

from trimwright.drawing.element import Element, Group, Line, Point, Text
from trimwright.drawing.flat import flat
from trimwright.drawing.type_size import LABEL_MM

METRIC_MM = 100.0
INCH_MM = 101.6  # 4 in; 1 in is 25.4 mm exactly [ISO 80000-3:2019, annex; since 1959]
RULE_WORDS = "check: 100 mm and 4 in"
TICK_MM, LONG_TICK_MM, EVERY_MM = 3.0, 5.0, 10.0


def _square(at: Point, side_mm: float) -> Line:
    x, y = at
    corners = ((x, y), (x + side_mm, y), (x + side_mm, y + side_mm), (x, y + side_mm))
    return Line(corners, "saw", closed=True, layer="check")


def check_rule(at: Point, way: Literal["across", "down"]) -> tuple[Element, ...]:
    """Return a rule of 4 in with a tick at 100 mm, and words that say so; 4 mm wide.

    Examples
    --------
    >>> rule, *ticks, words = check_rule((0.0, 0.0), "down")
    >>> rule.points[1], len(ticks), words.words
    ((0.0, 101.6), 3, 'check: 100 mm and 4 in')
    """
    down = way == "down"
    said = Text((INCH_MM + 2.0, 1.0), RULE_WORDS, LABEL_MM, layer="check")
    ends = [((place, -1.6), (place, 1.6)) for place in (0.0, METRIC_MM, INCH_MM)]
    lines = tuple(
        Line(points, "thin", layer="check") for points in (((0.0, 0.0), (INCH_MM, 0.0)), *ends)
    )
    return flat((Group((*lines, said), move=at, turn_deg=90.0 if down else 0.0),))


def check_squares(at: Point) -> tuple[Element, ...]:
    """Return squares of 100 mm and 4 in that share their top left corner, with 10 mm ticks.

    Examples
    --------
    >>> inner, outer, *ticks = check_squares((0.0, 0.0))
    >>> inner.points[2], outer.points[2], len(ticks)
    ((100.0, 100.0), (101.6, 101.6), 18)
    """
    x, y = at
    ticks: list[Element] = []
    count = round(METRIC_MM / EVERY_MM)
    for index in range(1, count):
        place = index * EVERY_MM
        long = LONG_TICK_MM if 2 * index == count else TICK_MM
        ticks.append(Line(((x + place, y), (x + place, y + long)), "thin", layer="check"))
        ticks.append(Line(((x, y + place), (x + long, y + place)), "thin", layer="check"))
    return (_square(at, METRIC_MM), _square(at, INCH_MM), *ticks)
