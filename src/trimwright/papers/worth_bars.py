"""What is worth doing before a lock, as paired bars to one scale: what it takes and what it saves."""

from trimwright.cabin import Cabin
from trimwright.checks import Test, hours_told, redoing_h, worth_before
from trimwright.drawing import (
    LABEL_MM,
    WORD_MM,
    Box,
    Element,
    Fill,
    Line,
    Point,
    Setting,
    Text,
    text_box,
)
from trimwright.findings import Lock

ROW_MM, BAR_MM = 9.0, 2.6
HEAD_MM = 2 * WORD_MM + 3.0
WORDS_SHARE, FIGURE_MM = 0.52, 16.0  # of the width, for what to do; of a row, for its hours


def worth_bars(cabin: Cabin, lock: Lock, at: Point, wide_mm: float) -> tuple[list[Element], float]:
    """Return the bars from their top left corner, and the height they take [mm].

    Nothing where nobody wrote what doing it again takes, or nothing is to be tested.
    """
    redoing, tests = redoing_h(cabin, lock), worth_before(cabin, lock)
    if redoing is None or not tests:
        return [], 0.0
    longest = max(hours for one in tests for hours in (one.takes_h or 0.0, one.saves_h or 0.0))
    head = (
        "Worth doing first, the most hours saved on average first. Hatched: what it takes."
        f" Solid: what it saves of the {hours_told(redoing)} that doing it again takes."
    )
    drawn: list[Element] = [*text_box(at, head, wide_mm, Setting(WORD_MM))[0]]
    high = HEAD_MM
    for one in tests:
        below, more = _row(one, Box(at[0], at[1] + high, wide_mm, ROW_MM), longest)
        drawn, high = drawn + below, high + more
    return drawn, high


def _row(one: Test, row: Box, longest: float) -> tuple[list[Element], float]:
    """Return one test, what to do and its two bars, and the height it takes [mm]."""
    wide = row.width * WORDS_SHARE
    says = f"{one.place}: {one.says}" if one.place else one.says
    words, high = text_box((row.x, row.y), says, wide - 3.0, Setting(LABEL_MM))
    drawn: list[Element] = [*words]
    left, room = row.x + wide, row.width - wide - FIGURE_MM
    for y, hours, solid in ((row.y, one.takes_h, False), (row.y + 3.6, one.saves_h, True)):
        bar = Box(left, y, room * (hours or 0.0) / longest if longest else 0.0, BAR_MM)
        drawn += _bar(bar, solid=solid)
        told = hours_told(hours) or "not written"
        drawn.append(Text((row.right, y + BAR_MM), told, LABEL_MM, anchor="end"))
    return drawn, max(row.height, high + 2.0)


def _bar(bar: Box, *, solid: bool) -> list[Element]:
    """Return a bar on the line that all begin at; of no length, that line alone."""
    foot = Line(((bar.x, bar.y), (bar.x, bar.bottom)), "thin")
    if bar.width <= 0:
        return [foot]
    if solid:
        return [foot, Fill(bar.corners, tone="ink")]
    return [Fill(bar.corners, hatch="ply"), Line(bar.corners, "thin", closed=True)]
