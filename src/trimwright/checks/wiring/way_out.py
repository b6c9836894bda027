"""Rule 'way out': what opens a way out opens by hand too."""

from trimwright.findings import Finding, Remedy
from trimwright.quantities import Unit
from trimwright.wiring import WiringOutcome


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each load that unlatches a way out."""
    del unit
    return tuple(
        Finding(
            rule="way out",
            place=f"way out by the {load.opens}",
            grade="good" if load.by_hand else "stop",
            says=(
                f"The {load.opens} opens without power: {load.by_hand}."
                if load.by_hand
                else f"With a flat battery the {load.opens} cannot be opened: nothing works"
                f" {load.name} by hand."
            ),
            lock="carpet",
            remedies=()
            if load.by_hand
            else (Remedy(f"Fit a cord or cable to the {load.opens} lock and write where it is."),),
            source="people must get out when the battery is dead; common practice, no source",
            why=("Try it with the battery disconnected, from inside, in the dark.",),
        )
        for load in found.wiring.loads
        if load.opens
    )
