"""One page before it goes to the trimmer: open cuts, what was tried, what is only believed."""

from trimwright.cabin import Cabin
from trimwright.checks import amount
from trimwright.drawing import Column, Element, Line, Row, Setting, Size, Text, table, text_box
from trimwright.findings import Finding
from trimwright.papers.leaf import Leaf, beside_title
from trimwright.papers.tabled import fitted, heading
from trimwright.quantities import shown_sure

ROOM_ROWS = 12
COLUMNS = (
    (Column("", 16.0), 18),
    (Column("what", 60.0), 74),
    (Column("figure", 24.0), 26),
    (Column("sure", 16.0), 18),
    (Column("done or left, and why", 50.0, "line"), 46),
)


def leaves(cabin: Cabin, findings: tuple[Finding, ...], size: Size) -> tuple[Leaf, ...]:
    """Return the page."""
    head, box = heading(size, "Before it goes to the trimmer", _words(cabin))
    open_ones = [f for f in findings if f.lock == "covering" and f.grade in ("stop", "change")]
    believed = [f for f in findings if f.lock == "covering" and f.grade == "good"]
    shown_rows = [_row("open", f, cabin) for f in open_ones[:ROOM_ROWS]]
    left = max(ROOM_ROWS - len(shown_rows), 2)
    shown_rows += [_row("believed", f, cabin) for f in believed[:left]]
    more = len(open_ones) + len(believed) - len(shown_rows)
    drawn: list[Element] = list(head)
    columns = fitted(COLUMNS, box.width)
    body, high = table((box.x, box.y), columns, tuple(shown_rows))
    drawn += body
    if more > 0:
        note = f"and {more} more that stand on the findings sheet."
        drawn.append(Text((box.x, box.y + high + 5.0), note, 2.9))
    drawn += _signatures(size)
    return (Leaf(size, tuple(drawn), "console", "before covering"),)


def _words(cabin: Cabin) -> str:
    """Return what covering freezes and how sure the whole is."""
    found = cabin.outcome
    words = (
        "After covering nothing can be trimmed. What is open below stays open for good; what is"
        " only believed was computed, not tried in the car."
    )
    if found is not None and found.joint is not None:
        words += f" All gaps together: {shown_sure(found.joint.value)} sure."
    words += " Tried in the car: " + (
        f"{len(found.taught.names)} readings." if found and found.taught else "nothing yet."
    )
    return words


def _row(state: str, one: Finding, cabin: Cabin) -> Row:
    """Return one finding that covering would freeze."""
    figure = "" if one.figure is None else amount(one, one.figure, cabin.build.unit)
    what = f"{one.place}: {one.says}"
    if one.remedies and state == "open":
        what += f" » {one.remedies[0].says}"
    return Row((state, what, figure, "" if one.sure is None else shown_sure(one.sure), ""))


def _signatures(size: Size) -> list[Element]:
    """Return the lines to sign on, beside the title block."""
    box = beside_title(size)
    drawn: list[Element] = []
    words, high = text_box(
        (box.x, box.y),
        "Adhesives: open doors, no flame, read the tin. Solvent fumes are heavier than air.",
        box.width,
        Setting(2.9),
    )
    drawn += words
    for number, who in enumerate(("builder, date", "trimmer, date")):
        y = box.y + high + 16.0 + number * 15.0
        drawn.append(Line(((box.x, y), (box.x + box.width, y)), "thin"))
        drawn.append(Text((box.x, y + 3.4), who, 2.6))
    return drawn
