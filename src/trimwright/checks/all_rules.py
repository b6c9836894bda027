"""All rules, in the order of the sheet."""

from msgspec.structs import replace

from trimwright.build import LeftAsIs
from trimwright.cabin import Cabin
from trimwright.checks import (
    all_together,
    assumed,
    clearance,
    drilling,
    measure_again,
    not_evaluated,
    resting,
    slip,
    tried_in_car,
    unbuildable,
    wiring,
)
from trimwright.findings import Finding, sorted_findings

RULES = (
    unbuildable,
    slip,
    clearance,
    all_together,
    resting,
    not_evaluated,
    measure_again,
    tried_in_car,
    drilling,
    wiring,
    assumed,
)


def all_findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return what every rule has to say, by what locks first, then by grade.

    What the builder has decided to live with keeps its grade and carries his reason.
    """
    reasons = {one.finding.lower(): one.because for one in cabin.build.left_as_is}
    made = [one for rule in RULES for one in rule.findings(cabin)]
    places = {one.place.lower() for one in made}
    made += [_lost(one) for one in cabin.build.left_as_is if one.finding.lower() not in places]
    found = sorted_findings(made)
    return tuple(_answered(one, reasons.get(one.place.lower())) for one in found)


def _answered(one: Finding, reason: str | None) -> Finding:
    """Return a finding with the builder's reason for leaving it as it is."""
    if reason is None or one.grade == "good":
        return one
    return replace(one, says=f"{one.says} Left as it is: {reason}.")


def _lost(left: LeftAsIs) -> Finding:
    """Return that a reason was written for a finding that is not on the sheet."""
    return Finding(
        rule="left as is",
        place=left.finding,
        grade="look",
        says=f"A reason is written for this, and no finding is called so: {left.because}.",
        lock="covering",
        why=("Findings are named by the words of their place, as the sheet prints them.",),
    )
