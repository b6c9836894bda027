"""Rule 'sneak': with a ground point lost, no load runs by a way that nobody wired for it."""

from trimwright.findings import Finding, Remedy
from trimwright.quantities import Unit, shown_voltage
from trimwright.wiring import Sneak, WiringOutcome, sneaks, state_words

RULE, LOCK = "sneak", "carpet"
WHY = (
    "Each ground point is lost in turn, with the car as each load needs it and relays settled anew;"
    " a load that then gets more than 10 % of the feed's voltage though it is off, or gets it the"
    " other way round, is told."
)


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each load and ground point that current sneaks by."""
    return tuple(_finding(one) for one in sneaks(found.wiring, unit))


def _finding(one: Sneak) -> Finding:
    """Return what sneaks through one load."""
    volts = shown_voltage(abs(one.volts))
    how = "runs backwards" if one.backwards else "runs though it is off"
    way = f" Its current comes through {' and '.join(one.through)}." if one.through else ""
    state = ", ".join(state_words(one.row.state)) or "all at rest"
    says = f"With {one.ground} lost {one.load} {how}: it gets {volts} ({state}).{way}"
    return Finding(
        rule=RULE,
        place=f"{one.load} with {one.ground} lost",
        grade="look",
        says=says,
        lock=LOCK,
        figure=abs(one.volts),
        measure="V",
        remedies=(Remedy(f"Give {one.load} a ground of its own, or a second wire to the body."),),
        source="the network solved without that ground",
        why=(WHY,),
    )
