"""Rule 'can be made': what in the design cannot be made of sheet."""

from trimwright.cabin import Cabin
from trimwright.findings import Finding


def findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return one stop for each reason the carcass cannot be made."""
    return tuple(
        Finding(
            rule="can be made",
            place=one.key.replace(".", " > "),
            grade="stop",
            says=one.says,
            lock="wood is cut",
            source="geometry of the panels",
        )
        for one in cabin.unbuildable
    )
