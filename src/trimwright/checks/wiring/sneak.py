"""Rule 'sneak': with a ground point lost, nothing runs or pulls in by a way nobody wired for it."""

from trimwright.checks.wiring.words import sentence
from trimwright.findings import Finding, Remedy
from trimwright.quantities import Unit, shown_voltage
from trimwright.wiring import Sneak, WiringOutcome, sneaks, state_words

RULE, LOCK = "sneak", "carpet"
WHY = (
    "Each ground point is lost in turn, with the car as each load needs it and relays settled anew;"
    " a load that then gets more than 10 % of the feed's voltage though it is off, or gets it the"
    " other way round, is told. A relay pulls in where 8 V reach its coil, by whatever way, and drops"
    " out below 1 V (common data of 12 V relays, from memory of ISO 7588-1)."
)


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each load and ground point that current sneaks by."""
    return tuple(_finding(one) for one in sneaks(found.wiring, unit))


def _finding(one: Sneak) -> Finding:
    """Return what sneaks through one load, or what one relay does then."""
    says = _load_says(one) if one.relay == "" else _relay_says(one)
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


def _state(one: Sneak) -> str:
    """Return how the car stands, in words."""
    return ", ".join(state_words(one.row.state)) or "all at rest"


def _load_says(one: Sneak) -> str:
    """Return what one load does."""
    volts = shown_voltage(abs(one.volts))
    how = "runs backwards" if one.backwards else "runs though it is off"
    way = f" Its current comes through {' and '.join(one.through)}." if one.through else ""
    return f"With {one.ground} lost {one.load} {how}: it gets {volts} ({_state(one)}).{way}"


def _relay_says(one: Sneak) -> str:
    """Return what one relay does, and which loads run or stop because of it."""
    volts, begins = shown_voltage(abs(one.volts)), f"With {one.ground} lost {one.load}"
    if one.relay == "chatters":
        return f"{begins} chatters: its coil gets {volts} until it moves, then no more ({_state(one)})."
    does, runs = ("off", "run") if one.relay == "pulls in" else ("on", "stop")
    then = f" {sentence(' and '.join(one.runs))} then {runs}{'s' * (len(one.runs) == 1)}."
    says = f"{begins} {one.relay} though it is {does}: its coil gets {volts} ({_state(one)})."
    return says + (then if one.runs else "")
