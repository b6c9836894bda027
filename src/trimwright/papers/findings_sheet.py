"""The findings sheet: the slip, printed, with boxes to tick."""

from trimwright.build import assumed
from trimwright.cabin import Cabin
from trimwright.checks import amount
from trimwright.drawing import Column, Row, Size, grade_mark
from trimwright.findings import LOCKS, Finding, counts, lock_heading
from trimwright.papers.leaf import Leaf
from trimwright.papers.tabled import tabled
from trimwright.quantities import shown_sure

COLUMNS = (
    (Column("", 12.0, "picture"), 8),
    (Column("where", 40.0), 36),
    (Column("what", 60.0), 74),
    (Column("figure, limit", 26.0), 30),
    (Column("sure", 18.0), 18),
    (Column("done", 10.0, "tick"), 10),
)
MARK_MM = 6.0
PASSED = "Checked, with room to spare"
UNWRITTEN = "Nobody has written why it stays."


def leaves(cabin: Cabin, findings: tuple[Finding, ...], size: Size) -> tuple[Leaf, ...]:
    """Return the sheet: what needs a hand by lock and number, then what was checked."""
    count = counts(findings)
    words = ", ".join(f"{n} {grade}" for grade, n in count.items()) + ". "
    words += (
        "Numbers are those of the drawings. Every figure is computed from your readings and their"
        " doubts with all covers on; nothing here says that a part complies with a rule of the road."
    )
    open_ones = tuple(enumerate((one for one in findings if one.grade != "good"), start=1))
    rows: list[Row] = []
    for lock in LOCKS:
        some = [_row(cabin, number, one) for number, one in open_ones if one.lock == lock]
        over = Row((), over=lock_heading(lock, cabin.build.locks))
        rows += [over, *some] if some else []
    passed = [_row(cabin, None, one) for one in findings if one.grade == "good"]
    rows += [Row((), over=PASSED), *passed] if passed else []
    names = ("Findings", "console", "findings sheet")
    return (
        *tabled(size, cabin.build, names, words, COLUMNS, tuple(rows)),
        *_assumed(cabin, size),
    )


def _row(cabin: Cabin, number: int | None, one: Finding) -> Row:
    """Return one finding as a row: sentence, first remedies, what is missing or stays as it is."""
    unit = cabin.build.unit
    what = [one.says, *(f"» {remedy.says}" for remedy in one.remedies[:2])]
    if one.missing:
        what.append("Missing: " + "; ".join(one.missing) + ".")
    if unanswered(cabin, one):
        what.append(UNWRITTEN)
    figure = "" if one.figure is None else amount(one, one.figure, unit)
    if one.limit is not None:
        figure += f"; {amount(one, one.limit, unit)}"
    mark = grade_mark(one.grade, number, (MARK_MM / 2, MARK_MM / 2))
    where = f"{one.place} ({one.zone})" if one.zone else one.place
    sure = "" if one.sure is None else shown_sure(one.sure)
    return Row(("", where, "\n".join(what), figure, sure, ""), mark, (MARK_MM, MARK_MM))


def unanswered(cabin: Cabin, one: Finding) -> bool:
    """Return whether a stop went under its lock without a written reason."""
    reasons = {left.finding.lower() for left in cabin.build.left_as_is}
    locked = one.lock in cabin.build.locks
    return locked and one.grade == "stop" and one.place.lower() not in reasons


def _path(key: str) -> str:
    """Return a key as the file is read, from the top down.

    Examples
    --------
    >>> _path("car.dash.0.by")
    'car > dash > entry 1 > by'
    """
    return " > ".join(f"entry {int(k) + 1}" if k.isdigit() else k for k in key.split("."))


def _assumed(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return the list of every default in use, empty when nothing is assumed."""
    found = assumed(cabin.build)
    if not found:
        return ()
    rows = tuple(Row((one.says, one.text, _path(one.key), "")) for one in found)
    columns = (
        (Column("assumed", 60.0), 60),
        (Column("taken as", 40.0), 30),
        (Column("write it under", 60.0), 50),
        (Column("measured", 30.0, "line"), 36),
    )
    words = "Nobody wrote these. Each is a figure in use until you write what you know better."
    names = ("Assumed", "console", "assumed")
    return tabled(size, cabin.build, names, words, columns, rows)
