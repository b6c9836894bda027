"""Rule 'noise': two devices joined by a signal lead share their ground nearly enough."""

from trimwright.build import Signal
from trimwright.findings import Edit, Finding, Remedy
from trimwright.quantities import Unit, shown_voltage
from trimwright.wiring import Supply, WiringOutcome


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each signal lead."""
    del unit
    if found.electrics is None:
        return ()
    return tuple(_finding(found, signal) for signal in found.wiring.signals)


def _finding(found: WiringOutcome, signal: Signal) -> Finding:
    """Return how far apart the grounds of two devices are."""
    place = f"noise on {signal.name}"
    apart = offsets(found, signal)
    if not apart:
        says = f"Not checked: {signal.start} and {signal.end} are never on together."
        missing = (f"a state in which {signal.start} and {signal.end} are both on",)
        return Finding("noise", place, "look", says, "carpet", missing=missing)
    mode, volts = max(apart.items(), key=lambda one: one[1])
    limit = signal.disturbed.value
    good = volts <= limit
    says = (
        f"The grounds of {signal.start} and {signal.end} stand at most {shown_voltage(volts)} apart."
        if good
        else f"{_upper(signal.end)} will whine: the grounds of {signal.start} and {signal.end} stand"
        f" {shown_voltage(volts)} apart ({mode})."
    )
    return Finding(
        rule="noise",
        place=place,
        grade="good" if good else "change",
        says=says,
        lock="carpet",
        figure=volts,
        limit=limit,
        margin=limit - volts,
        measure="V",
        remedies=() if good else _remedies(found, signal),
        source="what you wrote, or 50 mV; common practice, no source",
        why=(
            (
                "What else flows through one device's ground wire lifts that device above the other,"
                " and the lead between them hears it."
            ),
            *(f"{name}: {shown_voltage(value)}" for name, value in apart.items()),
        ),
    )


def offsets(found: WiringOutcome, signal: Signal) -> dict[str, float]:
    """Return how far apart the grounds of both ends stand in each mode [V], at the worst."""
    electrics = found.electrics
    if electrics is None:
        return {}
    told: dict[str, float] = {}
    solved = electrics.solved
    minus = {}
    for supply in electrics.supplies:
        name = supply.use.consumer.name
        if name in (signal.start, signal.end):
            minus[name] = _ground_node(supply, solved.circuit.ends, solved.circuit.element(name))
    if len(minus) < 2:  # noqa: PLR2004  both ends
        return {}
    for number, row in enumerate(electrics.rows):
        if {signal.start, signal.end} <= row.on:
            one, other = (solved.voltages[number, minus[n]] for n in (signal.start, signal.end))
            apart = abs(float(one - other))
            if apart == apart:  # noqa: PLR0124  not a NaN
                told[row.mode.name] = max(told.get(row.mode.name, 0.0), apart)
    return told


def _ground_node(supply: Supply, ends: object, place: int) -> int:
    """Return the node at a load's minus side."""
    del supply
    return int(ends[place][1])  # type: ignore[index]


def _remedies(found: WiringOutcome, signal: Signal) -> tuple[Remedy, ...]:
    """Return the ground of the one that sends brought to where the other's is."""
    ends = {}
    for number, path in enumerate(found.wiring.paths):
        for name in (signal.start, signal.end):
            if name in path.goes and path.goes.index(name) + 1 < len(path.goes):
                ends[name] = (number, path)
    if len(ends) < 2:  # noqa: PLR2004  both ends
        return ()
    (number, path), (_, other) = ends[signal.start], ends[signal.end]
    after = path.goes.index(signal.start) + 1
    goes = (*path.goes[:after], other.goes[-1])
    if other.goes[-1] == path.goes[-1]:
        return (Remedy(f"Give {signal.start} and {signal.end} one ground wire together."),)
    edits = (
        Edit(("wiring", "paths", number, "goes"), None),
        *(Edit(("wiring", "paths", number, "goes", n), one) for n, one in enumerate(goes)),
    )
    return (Remedy(f"Ground {signal.start} at {other.goes[-1]}, where {signal.end} is.", edits),)


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]
