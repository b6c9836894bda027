"""Rule 'circuits': every load has a circuit; one that has none is offered a whole one."""

from trimwright.build import Load
from trimwright.checks.wiring.words import sentence
from trimwright.findings import Finding, Remedy
from trimwright.quantities import Unit
from trimwright.wiring import NoCircuitError, Proposal, WiringOutcome, proposal, unwired

RULE, LOCK = "circuits", "carpet"
SOURCE = "fuse, switch and relay as sold; colours by feed: common practice, no source"
WHY = (
    (
        "The fuse is the smallest as sold that bears what lasts, at the voltage where that is most, and"
        " what is written of its start; the switch's contacts are asked for by the kind of load, and"
        " where no switch bears it a relay does."
    ),
    "Sizes of wire are left unwritten: they are then chosen as thin as will do.",
    (
        "A feed, fuse place, ground point or way that is not there yet is made up: move it to where it"
        " is in your car."
    ),
)


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each load without a circuit, and one for all of them."""
    loads = unwired(found.wiring)
    known = tuple(load for load in loads if load.power is not None or load.current is not None)
    told = tuple(circuit_of(found, load, unit) for load in loads)
    return (*told, _together(found, known, unit)) if len(known) > 1 else told


def circuit_of(found: WiringOutcome, load: Load, unit: Unit) -> Finding:
    """Return that a load that no path leads to has no circuit, and the one it may have."""
    place = f"{load.name} never works"
    says = f"{sentence(load.name)} has no circuit: no path leads to it."
    if load.power is None and load.current is None:
        missing = (f"what {load.name} takes",)
        return Finding(RULE, place, "look", says, LOCK, missing=missing)
    remedy, why = _remedy(found, (load,), f"Wire {load.name}", unit)
    return Finding(
        RULE, place, "change", says, LOCK, remedies=remedy, source=SOURCE, why=(*WHY, *why)
    )


def _together(found: WiringOutcome, loads: tuple[Load, ...], unit: Unit) -> Finding:
    """Return that loads have no circuits, and how all of them may have one."""
    names = ", ".join(load.name for load in loads)
    says = f"{len(loads)} loads have no circuit: {names}."
    remedy, why = _remedy(found, loads, f"Wire all {len(loads)} loads", unit)
    place = "loads without a circuit"
    return Finding(
        RULE, place, "change", says, LOCK, remedies=remedy, source=SOURCE, why=(*WHY, *why)
    )


def _remedy(
    found: WiringOutcome, loads: tuple[Load, ...], act: str, unit: Unit
) -> tuple[tuple[Remedy, ...], tuple[str, ...]]:
    """Return the circuits that were tried and work, or why there are none."""
    try:
        own = proposal(found.wiring, loads, unit)
    except NoCircuitError as error:
        return (), (f"No circuit is offered: {error}.",)
    if own.idle:
        return (), (f"No circuit is offered: {own.idle[0]} would not work as its switch is fed.",)
    unsaid = [
        f"Nobody has said what {load.name} takes while it starts: its fuse bears what lasts."
        for load in loads
        if load.kind in ("motor", "lamp") and load.starts_with is None
    ]
    return (Remedy(f"{act}: {_added(found, own)}.", own.edits),), tuple(unsaid)


def _added(found: WiringOutcome, own: Proposal) -> str:
    """Return in words what is added."""
    told = []
    for group, one, many in (
        ("feeds", "feed", "feeds"),
        ("fuses", "fuse", "fuses"),
        ("switches", "switch", "switches"),
        ("relays", "relay", "relays"),
        ("grounds", "ground point", "ground points"),
        ("paths", "path", "paths"),
    ):
        count = len(getattr(own.wiring, group)) - len(getattr(found.wiring, group))
        new = getattr(own.wiring, group)[-count:] if count else ()
        rated = ", ".join(item.rated.text for item in new if group == "fuses")
        if count:
            told.append(f"{count} {one if count == 1 else many}{f' ({rated})' if rated else ''}")
    return ", ".join(told)
