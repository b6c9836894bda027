"""Rule 'not evaluated': a gap that could not be computed names what it waits for."""

from trimwright.cabin import Cabin
from trimwright.findings import Finding


def findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return one 'look' a gap that misses something."""
    return tuple(
        Finding(
            rule="not evaluated",
            place=gap.gap,
            grade="look",
            says=f"Not checked yet: {gap.gap}.",
            lock="covering",
            missing=gap.missing,
            why=("Nothing is assumed for it; it is not counted in the certainty of the whole.",),
        )
        for gap in cabin.unknown
    )
