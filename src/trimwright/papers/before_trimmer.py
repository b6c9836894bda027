"""One page before it goes to the trimmer: open cuts, what was tried, what is only believed."""

from trimwright.cabin import Cabin
from trimwright.checks import amount
from trimwright.drawing import (
    LABEL_MM,
    WORD_MM,
    Box,
    Column,
    Element,
    Line,
    Row,
    Setting,
    Size,
    Text,
    head_height,
    row_height,
    table,
    text_box,
)
from trimwright.findings import Finding, Lock, lock_heading
from trimwright.papers.findings_sheet import UNWRITTEN, unanswered
from trimwright.papers.leaf import Leaf
from trimwright.papers.tabled import fitted, heading
from trimwright.papers.worth_bars import worth_bars
from trimwright.quantities import shown_sure

COVERING: Lock = "covering"
FOOT_MM = 34.0  # what to mind and the lines to sign on
COLUMNS = (
    (Column("", 16.0), 18),
    (Column("what", 60.0), 78),
    (Column("figure", 24.0), 24),
    (Column("sure", 16.0), 18),
    (Column("done or left, and why", 50.0, "line"), 44),
)
AHEAD = (
    "After covering nothing can be trimmed. What is open below stays open for good; what is only"
    " believed was computed, not tried in the car."
)
BEHIND = (
    "Covering is locked already: nothing below can be trimmed any more. What was open stays open;"
    " what is only believed was computed, not tried in the car."
)
NOTHING = (
    "No gap was found that covering freezes; the findings sheet says what could not be checked."
)
MIND = "Adhesives: open doors, no flame, read the tin. Solvent fumes are heavier than air."


def leaves(cabin: Cabin, findings: tuple[Finding, ...], size: Size) -> tuple[Leaf, ...]:
    """Return the page."""
    head, box = heading(size, cabin.build, "Before it goes to the trimmer", _words(cabin))
    columns, rows = fitted(COLUMNS, box.width), _rows(cabin, findings)
    worth = worth_bars(cabin, COVERING, (box.x, box.y), box.width)[1]
    fits, left = 0, box.height - FOOT_MM - worth - head_height(columns)
    while fits < len(rows) and (left := left - row_height(columns, rows[fits])) >= 0:
        fits += 1
    body, high = table((box.x, box.y), columns, rows[:fits])
    drawn: list[Element] = [*head, *body]
    if not rows:
        drawn.append(Text((box.x, box.y + high + 4.5), NOTHING, WORD_MM))
    elif fits < len(rows):
        note = f"and {len(rows) - fits} more that stand on the findings sheet."
        drawn.append(Text((box.x, box.y + high + 4.5), note, WORD_MM))
    drawn += worth_bars(cabin, COVERING, (box.x, box.bottom - FOOT_MM - worth + 4.0), box.width)[0]
    foot = Box(box.x, box.bottom - FOOT_MM + 8.0, box.width, FOOT_MM - 8.0)
    return (Leaf(size, (*drawn, *_signatures(foot)), "console", "before covering"),)


def _words(cabin: Cabin) -> str:
    """Return what covering freezes, or has frozen, and how sure the whole is."""
    found, locked = cabin.outcome, cabin.build.locks
    words = f"{lock_heading(COVERING, locked)}. {BEHIND if COVERING in locked else AHEAD}"
    if found is not None and found.joint is not None:
        words += f" All gaps together: {shown_sure(found.joint.value)} sure."
    tried = "none yet"
    if cabin.build.test_fit:
        used = len(found.taught.names) if found and found.taught else 0
        tried = f"{len(cabin.build.test_fit)}, used here: {used}"
    return f"{words} Readings tried in the car: {tried}."


def _rows(cabin: Cabin, findings: tuple[Finding, ...]) -> tuple[Row, ...]:
    """Return what covering freezes: what is open first, then what is only believed."""
    frozen = [one for one in findings if one.lock == COVERING]
    rows = [_row("open", one, cabin) for one in frozen if one.grade in ("stop", "change")]
    rows += [_row("believed", one, cabin) for one in frozen if one.grade == "good"]
    return tuple(rows)


def _row(state: str, one: Finding, cabin: Cabin) -> Row:
    """Return one finding that covering would freeze."""
    figure = "" if one.figure is None else amount(one, one.figure, cabin.build.unit)
    what = f"{one.place}: {one.says}"
    if one.remedies and state == "open":
        what += f" » {one.remedies[0].says}"
    if unanswered(cabin, one):
        what += f" {UNWRITTEN}"
    return Row((state, what, figure, "" if one.sure is None else shown_sure(one.sure), ""))


def _signatures(box: Box) -> list[Element]:
    """Return what to mind and the lines to sign on, side by side."""
    drawn: list[Element] = [*text_box((box.x, box.y), MIND, box.width, Setting(WORD_MM))[0]]
    wide, foot = box.width / 2 - 5.0, box.bottom - 5.0
    for x, who in ((box.x, "builder, date"), (box.right - wide, "trimmer, date")):
        drawn.append(Line(((x, foot), (x + wide, foot)), "thin"))
        drawn.append(Text((x, foot + 3.4), who, LABEL_MM))
    return drawn
