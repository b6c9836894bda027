"""The tag of a gap: its figure where the gap is, its doubt drawn on the same line."""

import math

from msgspec import Struct

from trimwright.drawing.element import Element, Fill, Line, Point, Text
from trimwright.drawing.face import text_width
from trimwright.drawing.mark import GRADE_MM, GradeName, grade_mark
from trimwright.drawing.type_size import NAME_MM, WORD_MM

FEELER_MM, BAR_MM = 1.6, 2.4
BOX_MM, NOTCH_MM = 2.0, 4.2  # heights on the shoulder
FIGURE_MM, UNIT_MM, SAYS_MM = NAME_MM, WORD_MM, WORD_MM
ABOVE_MM, BELOW_MM = 8.0, 6.5  # what mark and figure, and the words, take over and under it
LEAST_SPAN_MM = 4.0  # a doubt of nearly nothing is still drawn to a readable scale


class GapReading(Struct, frozen=True):
    """What is known of a gap [mm]: 5 %, nominal and 95 % readings, and the gap wanted.

    `figure` and `unit` are the nominal as the builder reads it; `says` the line below, as
    `58 % sure · wanted 8`.
    """

    low: float
    nominal: float
    high: float
    wanted: float
    figure: str
    unit: str
    says: str


class Grade(Struct, frozen=True):
    """A grade and the finding's number, none where there is no finding."""

    kind: GradeName
    number: int | None = None


def feeler(at: Point, turn_deg: float, gap_mm: float = FEELER_MM) -> tuple[Element, ...]:
    """Return two short bars either side of a gap; `turn_deg` is the direction across it."""
    angle = math.radians(turn_deg)
    across, along = (math.cos(angle), math.sin(angle)), (-math.sin(angle), math.cos(angle))
    bars = []
    for sign in (-1.0, 1.0):
        x, y = at[0] + sign * across[0] * gap_mm / 2, at[1] + sign * across[1] * gap_mm / 2
        half = BAR_MM / 2
        start = (x - along[0] * half, y - along[1] * half)
        bars.append(Line((start, (x + along[0] * half, y + along[1] * half)), "cut"))
    return tuple(bars)


def shoulder_mm(reading: GapReading) -> float:
    """Return how long a tag's shoulder is [mm]: its words and its scale fit on it."""
    figure = text_width(reading.figure, FIGURE_MM, "count-bold")
    unit = text_width(reading.unit, UNIT_MM, "count")
    says = text_width(reading.says, SAYS_MM, "count")
    return max(GRADE_MM + 4.5 + figure + unit, says + 1.0, 30.0)


def gap_tag(
    reading: GapReading, grade: Grade, gap: Point, shoulder: Point, turn_deg: float = 0.0
) -> tuple[Element, ...]:
    """Return a gap's tag: feeler, leader, shoulder with its scale, mark, figure and certainty.

    Parameters
    ----------
    reading : GapReading
        The figures.
    grade : Grade
        The mark and its number.
    gap : Point
        Where the gap is [mm].
    shoulder : Point
        Left end of the level shoulder [mm]; it runs to the right for `shoulder_mm`.
    turn_deg : float, default 0.0
        Direction across the gap, clockwise from level [degrees].

    Raises
    ------
    ValueError
        If the readings are not in order.
    """
    if not reading.low <= reading.nominal <= reading.high:
        raise ValueError(
            f"low, nominal, high must be in order, got "
            f"{reading.low:g}, {reading.nominal:g}, {reading.high:g}"
        )
    x, y = shoulder
    length = shoulder_mm(reading)
    figure_at = (x + GRADE_MM + 2.0, y - 2.6)
    width = text_width(reading.figure, FIGURE_MM, "count-bold")
    return (
        *feeler(gap, turn_deg),
        Line((gap, *_foot(gap, shoulder, length)), "thin"),
        Line((shoulder, (x + length, y)), "thin"),
        *_scale(reading, shoulder, length),
        *grade_mark(grade.kind, grade.number, (x + GRADE_MM / 2 + 0.3, y - 4.6)),
        Text(figure_at, reading.figure, FIGURE_MM, "count-bold"),
        Text((figure_at[0] + width + 1.0, figure_at[1]), reading.unit, UNIT_MM),
        Text((x, y + 4.9), reading.says, SAYS_MM),
    )


def _foot(gap: Point, shoulder: Point, length: float) -> tuple[Point, ...]:
    """Return where a leader ends: the nearer end of the shoulder, round the words if it must."""
    x, y = shoulder
    joint = shoulder if gap[0] <= x + length / 2 else (x + length, y)
    if not x < gap[0] < x + length:
        return (joint,)
    return ((joint[0], y + (BELOW_MM if gap[1] > y else -ABOVE_MM)), joint)


def _scale(reading: GapReading, shoulder: Point, length: float) -> tuple[Element, ...]:
    """Return the doubt on the shoulder: a box, hatched where short, solid where it clears."""
    (x, y), half = shoulder, BOX_MM / 2
    least, most = min(reading.low, reading.wanted), max(reading.high, reading.wanted)
    middle, span = (least + most) / 2, max(most - least, LEAST_SPAN_MM)
    inset = 2.0

    def place(gap_mm: float) -> float:
        return x + length / 2 + (gap_mm - middle) / span * (length - 2 * inset)

    def box(start: float, end: float) -> tuple[Point, ...]:
        a, b = place(start), place(end)
        return ((a, y - half), (b, y - half), (b, y + half), (a, y + half))

    drawn: list[Element] = []
    whole = box(reading.low, reading.high)
    drawn.append(Fill(whole, tone="paper"))
    short_to = min(max(reading.wanted, reading.low), reading.high)
    if short_to > reading.low:
        drawn.append(Fill(box(reading.low, short_to), hatch="waste"))
    if short_to < reading.high:
        drawn.append(Fill(box(short_to, reading.high), tone="ink"))
    drawn.append(Line(whole, "thin", closed=True))
    at = place(reading.nominal)
    drawn.append(Line(((at, y - half - 0.6), (at, y + half + 0.6)), "thin"))
    notch = place(reading.wanted)
    drawn.append(Line(((notch, y - NOTCH_MM / 2), (notch, y + NOTCH_MM / 2)), "cut"))
    return tuple(drawn)
