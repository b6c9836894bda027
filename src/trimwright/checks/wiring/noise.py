"""Rule 'noise': two devices joined by a signal lead share their ground nearly enough."""

from collections.abc import Iterator

import numpy as np

from trimwright.build import Signal, WirePath, Wiring
from trimwright.checks.wiring.words import sentence, waits_for
from trimwright.findings import Edit, Finding, Remedy
from trimwright.quantities import Unit, shown_voltage, wire_size
from trimwright.wiring import Electrics, WiringOutcome, combination, electrics

STOUT = {"mm": "6 mm2", "in": "10 AWG"}  # the thickest that a ground lead of a device is tried in
PARTED = "1 V"  # that a lead bears with an isolating transformer in it; common practice, no source


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each signal lead."""
    own = found.electrics
    if own is None:
        return ()
    return tuple(_finding(found, own, n, unit) for n in range(len(found.wiring.signals)))


def _finding(found: WiringOutcome, own: Electrics, number: int, unit: Unit) -> Finding:
    """Return how far apart the grounds of two devices are."""
    wiring, signal = found.wiring, found.wiring.signals[number]
    place, apart = f"noise on {signal.name}", offsets(own, signal)
    if not apart:
        says = f"Not checked: {signal.start} and {signal.end} are never on together."
        missing = (f"a state in which {signal.start} and {signal.end} are both on",)
        return Finding("noise", place, "look", says, "carpet", missing=missing)
    mode, (volts, state) = max(apart.items(), key=lambda one: one[1][0])
    limit = signal.disturbed.value
    good = volts <= limit
    both = f"{signal.start} and {signal.end}"
    ground = _ground_way(found, signal)
    waits = waits_for(found, ground, ground) if good else ()
    if waits:
        says = f"Not told how far apart the grounds of {both} stand."
        return Finding("noise", place, "look", says, "carpet", missing=waits)
    says = (
        f"The grounds of {both} stand at most {shown_voltage(volts)} apart."
        if good
        else f"{sentence(signal.end)} will whine: the grounds of {both} stand"
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
        remedies=() if good else tuple(_remedies(wiring, number, unit)),
        source="what you wrote, or 50 mV; common practice, no source",
        why=(
            (
                "What else flows through one device's ground wire lifts that device above the other,"
                " and the lead between them hears it."
            ),
            combination(own, state, signal.start, signal.end),
            *(f"{name}: {shown_voltage(value)}" for name, (value, _) in apart.items()),
        ),
    )


def _ground_way(found: WiringOutcome, signal: Signal) -> frozenset[str]:
    """Return what lies between either device and the body."""
    uses = [use for use in found.uses if use.consumer.name in (signal.start, signal.end)]
    return frozenset(name for use in uses for name in use.path.back)


def offsets(own: Electrics, signal: Signal) -> dict[str, tuple[float, int]]:
    """Return how far apart the grounds of both ends stand in each mode at worst [V], and where."""
    solved = own.solved
    names = {one.name: n for n, one in enumerate(solved.circuit.elements)}
    if signal.start not in names or signal.end not in names:
        return {}
    minus = [solved.circuit.ends[names[name]][1] for name in (signal.start, signal.end)]
    told: dict[str, tuple[float, int]] = {}
    for number, row in enumerate(own.rows):
        if {signal.start, signal.end} <= row.on:
            apart = abs(
                float(solved.voltages[number, minus[0]] - solved.voltages[number, minus[1]])
            )
            if np.isfinite(apart) and apart > told.get(row.mode.name, (-1.0, 0))[0]:
                told[row.mode.name] = (apart, number)
    return told


def _remedies(wiring: Wiring, number: int, unit: Unit) -> Iterator[Remedy]:
    """Yield a ground moved, if that was tried and cures it, and a lead that is parted."""
    signal = wiring.signals[number]
    yield from _moved(wiring, signal, unit)
    edit = Edit(("wiring", "signals", number, "disturbed by"), PARTED)
    yield Remedy(
        f"Part {signal.name} with an isolating transformer, which bears {PARTED}.", (edit,)
    )


def _moved(wiring: Wiring, signal: Signal, unit: Unit) -> Iterator[Remedy]:
    """Yield the sender's ground at the hearer's ground point, as it is or stouter, if that does."""
    own, other = (_grounded(wiring, name) for name in (signal.start, signal.end))
    if own is None or other is None:
        return
    (number, path), stud = own, other[1].goes[-1]
    goes = (*path.goes[: path.goes.index(signal.start) + 1], stud)
    for size in dict.fromkeys((path.size.text if path.size else STOUT[unit], STOUT[unit])):
        changed = path.model_copy(update={"goes": goes, "size": wire_size(size)})
        paths = (*wiring.paths[:number], changed, *wiring.paths[number + 1 :])
        tried = electrics(wiring.model_copy(update={"paths": paths}), unit)
        apart = {} if tried is None else offsets(tried, signal)
        if max((volts for volts, _ in apart.values()), default=1.0) > signal.disturbed.value:
            continue
        edits = (
            Edit(("wiring", "paths", number, "size"), size),
            Edit(("wiring", "paths", number, "goes"), None),
            *(Edit(("wiring", "paths", number, "goes", n), one) for n, one in enumerate(goes)),
        )
        says = f"Ground {signal.start} at {stud}, where {signal.end} is, in {size}."
        yield Remedy(says.replace("mm2", "mm²"), edits)
        return


def _grounded(wiring: Wiring, name: str) -> tuple[int, WirePath] | None:
    """Return the path that goes through a load and on to ground."""
    for number, path in enumerate(wiring.paths):
        if name in path.goes[:-1]:
            return number, path
    return None
