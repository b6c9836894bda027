"""Rule 'loose end': what a wire comes to leads on."""

from trimwright.build import Fuse, by_name
from trimwright.checks.wiring.words import sentence
from trimwright.findings import Finding, Grade
from trimwright.quantities import Unit
from trimwright.wiring import LooseEnd, WiringOutcome, loose_ends, single_ends

RULE, LOCK = "loose end", "carpet"


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each terminal, joint and cavity that leads nowhere."""
    del unit
    return (
        *(_loose(found, one) for one in loose_ends(found)),
        *(_single(one) for one in single_ends(found)),
    )


def _loose(found: WiringOutcome, one: LooseEnd) -> Finding:
    """Return that nothing is wired to the other side of a fuse, switch or relay."""
    spare = isinstance(by_name(found.wiring).get(one.device), Fuse)
    grade: Grade = "look" if spare else "change"
    by = ", ".join(one.wires) or "the feed beside it"
    others = " and ".join(one.others)
    says = (
        f"{sentence(one.terminal)} leads nowhere: {by} comes to it, nothing goes on from {others}."
    )
    return Finding(RULE, f"loose end at {one.terminal}", grade, says, LOCK)


def _single(one: LooseEnd) -> Finding:
    """Return that a joint or cavity has one wire only."""
    says = f"{sentence(one.terminal.removesuffix(' joint'))} leads nowhere: only {one.wires[0]} comes to it."
    return Finding(
        RULE, f"loose end at {one.terminal.removesuffix(' joint')}", "change", says, LOCK
    )
