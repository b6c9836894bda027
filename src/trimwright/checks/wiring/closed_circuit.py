"""Rule 'closed circuit': what a path leads to has a feed on one side and ground on the other."""

from trimwright.build import Relay, by_name
from trimwright.checks.wiring.words import sentence
from trimwright.findings import Finding, Remedy
from trimwright.quantities import Unit
from trimwright.wiring import Dead, WiringOutcome, dead, with_ground

RULE, LOCK = "closed circuit", "carpet"
WHY = (
    "Looked at with every wire whole and every contact closed. What comes through another load or"
    " coil is no feed and no ground."
)


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each coil, and each load that a path leads to, that never works."""
    told = dead(found)
    names = {one.name for one in told}
    spare = [one.name for one in found.idle if one.is_coil and one.name not in names]
    return (
        *(_finding(found, one, unit) for one in told),
        *(Finding(RULE, f"{n} never works", "look", f"No path leads to {n}.", LOCK) for n in spare),
    )


def _finding(found: WiringOutcome, one: Dead, unit: Unit) -> Finding:
    """Return what one load or coil lacks."""
    grounded = with_ground(found.wiring, one, unit)
    remedies: tuple[Remedy, ...] = ()
    if grounded is not None:
        stud, edits = grounded
        remedies = (Remedy(f"Join {one.end} to {stud}.", edits),)
    elif one.through:
        also = f"Give {one.name} a {' and a '.join(one.lacks)} of its own, not through"
        remedies = (Remedy(f"{also} {one.through[0]}."),)
    says = f"{_subject(found, one.name)} never works: {_reason(one)}."
    return Finding(
        RULE, f"{one.name} never works", "change", says, LOCK, remedies=remedies, why=(WHY,)
    )


def _subject(found: WiringOutcome, name: str) -> str:
    """Return what is spoken of: a load, or a relay's coil."""
    coil = isinstance(by_name(found.wiring).get(name), Relay)
    return f"The coil of {name}" if coil else sentence(name)


def _reason(one: Dead) -> str:
    """Return in words what is lacking."""
    if not one.lacks:
        return "feed and ground lead to it, but never in one position of key and switches"
    if one.through:
        return f"it has its {' and its '.join(one.lacks)} only through {' and '.join(one.through)}"
    if one.lacks == ("ground",):
        return f"nothing leads from {one.end} to ground"
    if one.lacks == ("feed",):
        return "no feed leads to it"
    return "neither a feed nor ground leads to it"
