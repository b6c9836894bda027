"""All rules, in the order of the sheet."""

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
    test_fit,
    unbuildable,
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
    test_fit,
    drilling,
    assumed,
)


def all_findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return what every rule has to say, by what locks first, then by grade."""
    return sorted_findings(one for rule in RULES for one in rule.findings(cabin))
