"""The test-fit sheet: where to probe with the bare console in the car, and a line to write it."""

from trimwright.cabin import Cabin
from trimwright.drawing import Column, Row, Size
from trimwright.fit import GapOutcome
from trimwright.papers.leaf import Leaf
from trimwright.papers.tabled import tabled
from trimwright.papers.wording import place_along
from trimwright.quantities import Unit, shown, shown_with_unit

FEWEST, MOST = 4, 10
COLUMNS = (
    (Column("", 9.0, "figure"), 8),
    (Column("probe", 46.0), 44),
    (Column("where", 44.0), 40),
    (Column("with", 40.0), 34),
    (Column("expected bare", 26.0), 26),
    (Column("reads", 30.0, "line"), 32),
)
WORDS = (
    "Bare console in the car, carpet down, bolts done up as they will stay. Write what you read,"
    " such as 2 or 2 ± 0.5; 'at least 3' where the probe passes freely; 'touches' where it touches."
    " Then: trimwright enter FILE 'probe: reading'. Disconnect the battery before you reach under"
    " the dash; keep hands out from under a console that is not held."
)
CLOSE_MM, WIDE_MM = 3.0, 12.0  # a card, a drill shank, a clay ball; common practice, no source


def probes(cabin: Cabin) -> tuple[GapOutcome, ...]:
    """Return the gaps worth probing: the least settled first, at least 4 and at most 10."""
    found = cabin.bare
    if found is None:
        return ()
    ranked = sorted(found.gaps, key=lambda one: (abs(one.sure.value - 0.5), one.gap.name))
    unsettled = [one for one in ranked if one.high - one.low > 1.0]  # mm
    return tuple((unsettled + [one for one in ranked if one not in unsettled])[:MOST])


def leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return the probes as rows, in the order of the console from front to rear."""
    unit = cabin.build.unit
    rows = tuple(
        _row(number, one, unit)
        for number, one in enumerate(
            sorted(probes(cabin), key=lambda one: (one.at or (1e9, 0.0, 0.0))[0]), start=1
        )
    )
    if not rows:
        return ()
    return tabled(size, ("Test fit", "console", "test-fit sheet"), WORDS, COLUMNS, rows)


def _row(number: int, one: GapOutcome, unit: Unit) -> Row:
    """Return one probe: its place, what to probe with, and what the model expects on bare wood."""
    where = "" if one.at is None else _where(one.at, unit)
    expected = f"{shown(one.low, unit)} to {shown_with_unit(one.high, unit)}"
    return Row((str(number), one.gap.name, where, _probe(one.nominal), expected, ""))


def _where(at: tuple[float, float, float], unit: Unit) -> str:
    """Return a place in the car in words."""
    side = "middle" if abs(at[1]) < 1.0 else ("left" if at[1] < 0 else "right")  # mm
    off = "" if side == "middle" else f"{shown_with_unit(abs(at[1]), unit)} "
    return f"{place_along(at[0], unit)}, {off}{side}, {shown_with_unit(at[2], unit)} up"


def _probe(gap_mm: float) -> str:
    """Return what to probe a gap with."""
    if gap_mm < CLOSE_MM:
        return "folded card, or clay that is pressed flat"
    return "shank of a drill as a pin" if gap_mm < WIDE_MM else "clay ball, then a rule"
