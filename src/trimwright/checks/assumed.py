"""Rule 'assumed': every default in use is named, with where to write what is known better."""

from trimwright.build import assumed
from trimwright.cabin import Cabin
from trimwright.findings import Finding


def findings(cabin: Cabin) -> tuple[Finding, ...]:
    """Return one 'look' that lists every default in use, and every shape taken for granted."""
    defaults = [f"{one.key}: {one.text} ({one.says})" for one in assumed(cabin.build)]
    shapes = [
        f"{one.says}: nobody read it; ± {max(one.doubt.minus, one.doubt.plus):g} is allowed for it"
        for one in cabin.ledger.factors
        if one.key.startswith("assumed:")
    ]
    found = (*shapes, *defaults)
    if not found:
        return ()
    return (
        Finding(
            rule="assumed",
            place="what nobody wrote",
            grade="look",
            says=f"{len(found)} figures are assumed; see why for the list.",
            lock="wood is cut",
            why=found,
        ),
    )
