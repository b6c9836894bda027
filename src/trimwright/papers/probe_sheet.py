"""The test-fit sheet: where to probe with the bare console in the car, and a line to write it."""

from string import ascii_uppercase

import numpy as np

from trimwright.cabin import Cabin
from trimwright.drawing import (
    LEAD_MM,
    WORD_MM,
    Box,
    Circle,
    Column,
    Element,
    Line,
    Point,
    Row,
    Setting,
    Size,
    Text,
    row_height,
    table,
    text_box,
)
from trimwright.fit import GapOutcome, WorthProbing
from trimwright.papers.leaf import Leaf
from trimwright.papers.tabled import GAP_MM, fitted, heading, tabled
from trimwright.papers.wording import place_along
from trimwright.parts import Carcass
from trimwright.quantities import Unit, shown, shown_with_unit

MOST = 10
COLUMNS = (
    (Column("", 9.0, "figure"), 8),
    (Column("probe", 46.0), 44),
    (Column("where", 44.0), 40),
    (Column("with", 40.0), 34),
    (Column("expected bare", 26.0), 26),
    (Column("reads", 30.0, "line"), 32),
)
FREE = (
    (Column("", 9.0, "figure"), 8),
    (Column("edge and place, as it is entered", 60.0), 62),
    (Column("with", 40.0), 36),
    (Column("expected bare", 30.0), 30),
    (Column("settles most of", 36.0), 36),
    (Column("reads", 30.0, "line"), 26),
)
ELSE = (
    (Column("edge: left wall, deck, ...", 60.0, "line"), 50),
    (Column("place along: behind, ahead", 50.0, "line"), 48),
    (Column("touches or comes near", 50.0, "line"), 46),
    (Column("how much", 30.0, "line"), 40),
)
WORDS = (
    "Bare console in the car, carpet down, bolts done up as they will stay. Write what you read,"
    " such as 2 or 2 ± 0.5; 'at least 3' where the probe passes freely; 'touches' where it touches."
    " Then, before anything more is cut: trimwright enter FILE 'probe: reading'. Disconnect the battery before you reach under"
    " the dash; keep hands out from under a console that is not held."
)
FREE_WORDS = (
    "A reading at any place along an edge teaches as well. Tape the place along the bare wood from"
    " the datum. The places below settle most of what is in doubt, the first one most; the plan"
    " shows them by letter, its front to the left. Below 0 is expected where wood is sunk into the carpet: write 'touches'."
)
ELSE_WORDS = (
    "Where else it touches or comes near. Entered as: trimwright enter FILE 'right wall at {}"
    " behind: touches the carpet', or 'left wall to seat at {}'."
)
EXAMPLES: dict[Unit, tuple[str, str]] = {
    "mm": ("420", "580 behind: 12"),
    "in": ("16", "23 behind: 1/2"),
}
CLOSE_MM, WIDE_MM = 3.0, 12.0  # a card, a drill shank, a clay ball; common practice, no source
PLAN_MM = 46.0  # most height of the plan
RING_MM = 2.4
MOST_BLANK = 8


def probes(cabin: Cabin) -> tuple[GapOutcome, ...]:
    """Return the gaps worth probing: the least settled first, at most 10."""
    found = cabin.bare
    if found is None:
        return ()
    ranked = sorted(found.gaps, key=lambda one: (abs(one.sure.value - 0.5), one.gap.name))
    unsettled = [one for one in ranked if one.high - one.low > 1.0]  # mm
    return tuple((unsettled + [one for one in ranked if one not in unsettled])[:MOST])


def leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return the probes as rows, in the order of the console from front to rear; free places."""
    unit = cabin.build.unit
    rows = tuple(
        _row(number, one, unit)
        for number, one in enumerate(
            sorted(probes(cabin), key=lambda one: (one.at or (1e9, 0.0, 0.0))[0]), start=1
        )
    )
    if not rows:
        return ()
    gaps = tabled(
        size, cabin.build, ("Test fit", "console", "test-fit sheet"), WORDS, COLUMNS, rows
    )
    return (*gaps, _free_places(cabin, size))


def _free_places(cabin: Cabin, size: Size) -> Leaf:
    """Return the page of free places: a plan, the places worth probing, lines for others."""
    drawn, box = heading(size, cabin.build, "Test fit, free places", FREE_WORDS)
    elements, y = list(drawn), box.y
    if cabin.carcass is not None:
        plan, high = _plan(cabin.carcass, cabin.probes, box)
        elements += plan
        y += high + GAP_MM
    rows = tuple(
        _free_row(letter, one, cabin.build.unit)
        for letter, one in zip(ascii_uppercase, cabin.probes, strict=False)
    )
    if rows:
        listed, high = table((box.x, y), fitted(FREE, box.width), rows)
        elements += listed
        y += high + 2 * GAP_MM
    words, high = text_box(
        (box.x, y), ELSE_WORDS.format(*EXAMPLES[cabin.build.unit]), box.width, Setting(LEAD_MM)
    )
    elements += words
    y += high + GAP_MM / 2
    columns, blank = fitted(ELSE, box.width), Row(("",) * len(ELSE))
    room = box.bottom - y - row_height(columns, blank)  # the headings take no more than a row
    count = min(MOST_BLANK, int(room / row_height(columns, blank)))
    lines, _ = table((box.x, y), columns, (blank,) * count)
    return Leaf(size, (*elements, *lines), "console", "test-fit sheet", "free places")


def _plan(
    carcass: Carcass, places: tuple[WorthProbing, ...], box: Box
) -> tuple[list[Element], float]:
    """Return the console seen from above, front to the left, with the places by letter."""
    outlines = [panel.outer_points()[:, :2] for panel in carcass.panels]
    lines = [edge.outer[:, :2] for edge in carcass.lower_edges]
    low = np.min([one.min(axis=0) for one in (*outlines, *lines)], axis=0)
    high = np.max([one.max(axis=0) for one in (*outlines, *lines)], axis=0)
    rim = 2 * RING_MM + 2.0
    wide, tall = high - low
    scale = min((box.width - 2 * rim) / wide, (PLAN_MM - 2 * rim) / tall)

    def at(x: float, y: float) -> tuple[float, float]:
        # right of the car is up the page, as it is where one sits and looks ahead to the left
        return box.x + rim + scale * (x - low[0]), box.y + rim + scale * (high[1] - y)

    lettered = list(zip(ascii_uppercase, places, strict=False))
    drawn: list[Element] = [
        Line(tuple(at(*point) for point in one.tolist()), "thin", closed=True) for one in outlines
    ]
    drawn += [Line(tuple(at(*point) for point in one.tolist()), "visible") for one in lines]
    for right in (True, False):
        edge = at(low[0], high[1])[1] - rim / 2 if right else at(low[0], low[1])[1] + rim / 2
        some = [(at(*p.at[:2]), letter) for letter, p in lettered if (p.at[1] >= 0) == right]
        drawn += rings(sorted(some), edge)
        behind = (at(high[0], 0.0)[0] + 1.0, edge + 0.36 * WORD_MM)
        drawn.append(Text(behind, "right" if right else "left", WORD_MM, "say"))
    return drawn, scale * tall + 2 * rim


def rings(places: list[tuple[Point, str]], y: float) -> list[Element]:
    """Return dots at places with their letters in rings beside the console, none on another."""
    drawn, last = list[Element](), -1e9
    for dot, letter in places:
        last = max(dot[0], last + 2 * RING_MM + 1.0)
        foot = y + RING_MM if dot[1] > y else y - RING_MM
        drawn += [
            Circle(dot, 0.6, None, "ink"),
            Line((dot, (last, foot)), "thin"),
            Circle((last, y), RING_MM, "thin"),
            Text((last, y + 0.36 * WORD_MM), letter, WORD_MM, anchor="middle"),
        ]
    return drawn


def _free_row(letter: str, one: WorthProbing, unit: Unit) -> Row:
    """Return one free place: its words, what to probe with, what to expect, what it settles."""
    expected = f"{shown(one.low, unit)} to {shown_with_unit(one.high, unit)}"
    probe = probe_tool((one.low + one.high) / 2)
    return Row((letter, one.words, probe, expected, one.settles, ""))


def _row(number: int, one: GapOutcome, unit: Unit) -> Row:
    """Return one probe: its place, what to probe with, and what the model expects on bare wood."""
    where = "" if one.at is None else whereabouts(one.at, unit)
    expected = f"{shown(one.low, unit)} to {shown_with_unit(one.high, unit)}"
    return Row((str(number), one.gap.name, where, probe_tool(one.nominal), expected, ""))


def whereabouts(at: tuple[float, float, float], unit: Unit) -> str:
    """Return a place in the car in words.

    Examples
    --------
    >>> whereabouts((0.0, 117.4, -20.6), "mm")
    'at datum, 117.5 mm right, 20.5 mm down'
    """
    side = "middle" if abs(at[1]) < 1.0 else ("left" if at[1] < 0 else "right")  # mm
    off = "" if side == "middle" else f"{shown_with_unit(abs(at[1]), unit)} "
    height = f"{shown_with_unit(abs(at[2]), unit)} {'down' if at[2] < 0 else 'up'}"
    return f"{place_along(at[0], unit)}, {off}{side}, {height}"


def probe_tool(gap_mm: float) -> str:
    """Return what to probe a gap with."""
    if gap_mm < CLOSE_MM:
        return "folded card, or clay that is pressed flat"
    return "shank of a drill as a pin" if gap_mm < WIDE_MM else "clay ball, then a rule"
