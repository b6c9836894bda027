"""Rule 'ratings': what is written of sources and devices can be together."""

from collections.abc import Iterator
from math import isfinite

from trimwright.checks.wiring.words import sentence
from trimwright.findings import Finding, Grade, Measure, Remedy
from trimwright.quantities import Unit, shown_current, shown_voltage
from trimwright.wiring import WiringOutcome, inside_ohm, opening_s

RULE, LOCK = "ratings", "carpet"
SOURCE = "what is written of them, by Ohm's law"
STARTS_V = 9.6  # that a 12 V battery should keep under the starter; common practice, no source


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each pair of figures that cannot be, or cannot work, together."""
    del unit
    return (
        *_cut_outs(found),
        *_charging(found),
        *_starting(found),
        *_fuses(found),
        *_coils(found),
    )


def _wrong(
    place: str, grade: Grade, says: str, told: tuple[float, float, Measure], remedy: str
) -> Finding:
    """Return a finding of a figure, the limit that it misses, and their measure."""
    figure, limit, measure = told
    return Finding(
        rule=RULE,
        place=place,
        grade=grade,
        says=says,
        lock=LOCK,
        figure=figure,
        limit=limit,
        margin=-abs(limit - figure),
        measure=measure,
        remedies=(Remedy(remedy),),
        source=SOURCE,
    )


def _cut_outs(found: WiringOutcome) -> Iterator[Finding]:
    """Yield the loads that stop working at more volts than there are."""
    battery, alternator = found.wiring.battery, found.wiring.alternator
    if battery is None:
        return
    still = battery.volts.value
    most = still if alternator is None else max(still, alternator.holds.value)
    for load in found.wiring.loads:
        if load.cuts_out is None or load.cuts_out.value < still:
            continue
        least = load.cuts_out.value
        place, name = f"cut-out of {load.name}", sentence(load.name)
        wants = f"it cuts out below {shown_voltage(least)}"
        if least >= most:
            says = (
                f"{name} never works: {wants}, and nothing gives more than {shown_voltage(most)}."
            )
            yield _wrong(
                place, "stop", says, (least, most, "V"), f"Look up where {load.name} cuts out."
            )
        else:
            says = (
                f"{name} works with the engine running only: {wants}, the battery stands at"
                f" {shown_voltage(still)}."
            )
            remedy = Remedy(f"Leave it if that is wanted; else look up where {load.name} cuts out.")
            yield Finding(RULE, place, "look", says, LOCK, remedies=(remedy,), source=SOURCE)


def _charging(found: WiringOutcome) -> Iterator[Finding]:
    """Yield that the alternator does not stand above the battery."""
    battery, alternator = found.wiring.battery, found.wiring.alternator
    if battery is None or alternator is None or alternator.holds.value > battery.volts.value:
        return
    holds, still = alternator.holds.value, battery.volts.value
    says = (
        f"The alternator never charges: it holds {shown_voltage(holds)}, the battery stands at"
        f" {shown_voltage(still)} by itself."
    )
    remedy = "Measure both with the engine still and running."
    yield _wrong("charging", "stop", says, (holds, still, "V"), remedy)


def _starting(found: WiringOutcome) -> Iterator[Finding]:
    """Yield that the starter gets too little: its current lowers the battery's volts too far."""
    battery, inside = found.wiring.battery, inside_ohm(found.wiring)
    if battery is None or inside is None:
        return
    volts, takes = battery.volts.value, battery.starter_takes.value
    starter = volts / takes
    left, least = volts * starter / (starter + inside), STARTS_V * volts / 12.6
    if left >= least:
        return
    says = (
        f"The starter gets too little: {shown_current(takes)} through {1000 * inside:.3g} mohm inside"
        f" the battery leaves it {shown_voltage(left)} of {shown_voltage(volts)}."
    )
    remedy = "Fit a battery of more cranking current, or measure what the starter takes."
    yield _wrong("starting", "change", says, (left, least, "V"), remedy)


def _fuses(found: WiringOutcome) -> Iterator[Finding]:
    """Yield the fuses that no source here could open."""
    battery, alternator = found.wiring.battery, found.wiring.alternator
    inside = inside_ohm(found.wiring)
    if battery is None or inside is None:
        return
    most = battery.volts.value / inside + (0.0 if alternator is None else alternator.gives.value)
    for fuse in found.wiring.fuses:
        if isfinite(opening_s(fuse, most)):
            continue
        says = (
            f"{sentence(fuse.name)} of {fuse.rated.text} never opens: battery and alternator give no more"
            f" than {shown_current(most)} into a dead short."
        )
        remedy = f"Take a smaller fuse for {fuse.name}, by the wire that it looks after."
        yield _wrong(f"rating of {fuse.name}", "stop", says, (fuse.rated.value, most, "A"), remedy)


def _coils(found: WiringOutcome) -> Iterator[Finding]:
    """Yield the relays whose coil takes as much as their contact carries."""
    battery = found.wiring.battery
    volts = 12.6 if battery is None else battery.volts.value
    for relay in found.wiring.relays:
        takes, carries = volts / relay.coil.value, relay.carries.value
        if takes < carries:
            continue
        says = (
            f"{sentence(relay.name)} gains nothing: its coil of {relay.coil.text} takes"
            f" {shown_current(takes)}, its contact carries {shown_current(carries)}."
        )
        remedy = f"Measure the coil of {relay.name} between 85 and 86; about 90 ohm is usual."
        yield _wrong(f"coil of {relay.name}", "stop", says, (takes, carries, "A"), remedy)
