"""Gap tags in strips beside a view, in the order of the gaps along it."""

import math

from msgspec import Struct

from trimwright.drawing import Box, Element, GapReading, Grade, Point, gap_tag
from trimwright.findings import Finding
from trimwright.quantities import Unit, shown, shown_sure

PITCH_MM, FIGURE_UP_MM = 46.0, 9.0


class Spot(Struct, frozen=True):
    """A finding with its number, where its gap is on the page, and the direction across it."""

    number: int
    finding: Finding
    at: Point
    turn_deg: float


def spot(number: int, finding: Finding, ends: tuple[Point, Point]) -> Spot:
    """Return a finding's spot from both ends of its gap on the page."""
    (x0, y0), (x1, y1) = ends
    level = math.hypot(x1 - x0, y1 - y0) < 1e-9  # noqa: PLR2004  seen end on
    turn = 90.0 if level else math.degrees(math.atan2(y1 - y0, x1 - x0))
    return Spot(number, finding, ((x0 + x1) / 2, (y0 + y1) / 2), turn)


def strip(
    spots: tuple[Spot, ...], box: Box, unit: Unit
) -> tuple[tuple[Element, ...], tuple[Spot, ...]]:
    """Return the tags that fit into a strip, left to right as their gaps lie, and what is left.

    The first spots, which are the worst, have the room.
    """
    columns = int(box.width // PITCH_MM)
    fits, left = spots[:columns], spots[columns:]
    pitch = box.width / max(columns, 1)
    drawn: list[Element] = []
    ordered = sorted(fits, key=lambda one: (one.at[0], one.number))
    wanted = [int((one.at[0] - box.x) // pitch) for one in ordered]
    for one, column in zip(ordered, near_columns(wanted, columns), strict=True):
        shoulder = (box.x + column * pitch, box.y + FIGURE_UP_MM)
        grade = Grade(one.finding.grade, one.number)
        drawn += gap_tag(_reading(one.finding, unit), grade, one.at, shoulder, one.turn_deg)
    return tuple(drawn), left


def near_columns(wanted: list[int], count: int) -> list[int]:
    """Return a column of its own for each place, in their order, near the one it would have.

    Examples
    --------
    >>> near_columns([0, 0, 3], 4), near_columns([3, 3], 4), near_columns([-2, 9], 4)
    ([0, 1, 3], [2, 3], [0, 3])
    """
    found, last = list[int](), -1
    for one in wanted:
        last = max(last + 1, one)
        found.append(last)
    most = count
    for place in reversed(range(len(found))):
        most = min(most - 1, found[place])
        found[place] = most
    return found


def _reading(one: Finding, unit: Unit) -> GapReading:
    """Return the figures of a finding as a tag shows them."""
    figure, limit = one.figure or 0.0, one.limit or 0.0
    low, high = figure, figure
    if one.low is not None and one.high is not None:
        low, high = min(one.low, figure), max(one.high, figure)
    most = one.margin is not None and (one.margin > 0) != (figure > limit)
    sure = "" if one.sure is None else f"{shown_sure(one.sure)} sure · "
    says = f"{sure}{'at most' if most else 'wanted'} {shown(limit, unit)}"
    if most:  # what clears lies below: the scale runs the other way
        low, figure_at, high, limit = -high, -figure, -low, -limit
    else:
        figure_at = figure
    return GapReading(low, figure_at, high, limit, shown(figure, unit), unit, says)
