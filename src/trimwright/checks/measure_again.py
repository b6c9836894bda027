"""Rule 'measure again': the reading that decides, and what it would be worth."""

from trimwright.cabin import Cabin
from trimwright.findings import Finding
from trimwright.fit import Again
from trimwright.quantities import Unit, shown_sure, shown_with_unit


def findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return up to three readings worth taking again, the most worth first."""
    return tuple(_finding(one, cabin.build.unit) for one in cabin.again)


def _finding(one: Again, unit: Unit) -> Finding:
    """Return one reading."""
    worth = one.worth
    return Finding(
        rule="measure again",
        place=one.factor.says,
        grade="look",
        says=f"Measure {one.factor.says} again, to within"
        f" {shown_with_unit(one.factor.again, unit, 'up', step='fine')}: it decides {one.gap}.",
        lock="wood is cut",
        source="shares of the spread by regression on the draws",
        why=(
            (
                f"{shown_sure(min(one.share, 1.0))} of the spread of that gap comes from it;"
                f" about {one.factor.minutes:.0f} minutes."
            ),
            (
                f"If it confirms today's figure, that gap is {shown_sure(worth.confirmed)} sure"
                f" (today {shown_sure(worth.today)})."
            ),
            (
                f"The cut to expect for that gap falls from"
                f" {shown_with_unit(worth.cut_before, unit, 'up', step='fine')} to"
                f" {shown_with_unit(worth.cut_after, unit, 'up', step='fine')};"
                f" {shown_sure(worth.no_cut)} chance that none is needed."
            ),
            "The certainty to expect after the reading is today's: it may go either way.",
        ),
    )
