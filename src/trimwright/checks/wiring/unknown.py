"""Rule 'wiring known': what could not be computed, and what it waits for."""

from collections.abc import Iterator

from trimwright.findings import Finding
from trimwright.quantities import Unit
from trimwright.wiring import UNPLACED_MM, WiringOutcome, sold

RULE, LOCK = "wiring known", "carpet"


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return a 'look' for whatever is missing, a 'stop' where the voltage collapses."""
    del unit
    return (
        *_unsolved(found),
        *_sources(found),
        *_loads(found),
        *_sizes(found),
        *_lengths(found),
    )


def _unsolved(found: WiringOutcome) -> Iterator[Finding]:
    """Yield the states in which the voltage collapses, or that could not be solved."""
    own = found.electrics
    if own is None:
        return
    names = [one.name for one in own.solved.circuit.elements]
    told: set[str] = set()
    for number, row in enumerate(own.rows):
        fallen = [n for n, falls in zip(names, own.solved.collapsed[number], strict=True) if falls]
        place = f"voltage, {row.mode.name}"
        if fallen and place not in told:
            told.add(place)
            says = f"The voltage collapses ({row.mode.name}): {fallen[0]} asks more than comes."
            yield Finding(RULE, place, "stop", says, LOCK)
        elif own.solved.failed[number] and place not in told:
            told.add(place)
            missing = (f"a solution of the network ({row.mode.name})",)
            says = "What flows then could not be computed: its currents count nowhere."
            yield Finding(RULE, place, "look", says, LOCK, missing=missing)


def _sources(found: WiringOutcome) -> Iterator[Finding]:
    """Yield that no voltage can be computed, where the battery is not known."""
    if found.electrics is None and found.uses:
        missing = ("the battery: its cranking current, or its inner resistance",)
        says = "No voltage or current is computed: what feeds the network is not known."
        yield Finding(RULE, "battery", "look", says, LOCK, missing=missing)
    own = found.wiring.alternator
    if own is not None and own.at_idle is None:
        missing = ("what the alternator gives hot and idling",)
        says = "Idling is reckoned with the alternator's full current, which it will not give."
        yield Finding(RULE, "alternator at idle", "look", says, LOCK, missing=missing)


def _loads(found: WiringOutcome) -> Iterator[Finding]:
    """Yield the loads that are left out of the network."""
    for load in found.wiring.loads:
        if load.power is None and load.current is None:
            says = f"{load.name[:1].upper()}{load.name[1:]} is left out: nobody has said what it takes."
            missing = (f"what {load.name} takes",)
            yield Finding(RULE, f"{load.name}, what it takes", "look", says, LOCK, missing=missing)


def _sizes(found: WiringOutcome) -> Iterator[Finding]:
    """Yield the written sizes that no table of wires has."""
    for path in found.wiring.paths:
        if path.size is not None and sold(path.size) is None:
            says = f"{path.size.text} of {path.name} is in no table of wires here: not checked."
            missing = (f"what {path.size.text} wire carries",)
            place = f"size of {path.name}"
            yield Finding(RULE, place, "look", says, LOCK, missing=missing)


def _lengths(found: WiringOutcome) -> Iterator[Finding]:
    """Yield the wires whose length is taken for now."""
    waiting: dict[str, list[str]] = {}
    for wire in found.loom.wires:
        if wire.missing:
            waiting.setdefault(wire.missing, []).append(wire.name)
    for missing, names in waiting.items():
        says = (
            f"{len(names)} {'wire is' if len(names) == 1 else 'wires are'} taken as"
            f" {UNPLACED_MM / 1000:g} m: {', '.join(names[:3])}{' and more' if len(names) > 3 else ''}."  # noqa: PLR2004  a line's worth
        )
        yield Finding(RULE, missing, "look", says, LOCK, missing=(missing,))
