"""Rule 'battery': parked, forgotten or idling, it still starts the engine."""

from collections.abc import Iterator
from math import ceil, floor, isfinite

import numpy as np

from trimwright.findings import Finding, Remedy
from trimwright.quantities import Unit, shown_current
from trimwright.wiring import (
    HELPING,
    Row,
    Span,
    Store,
    WiringOutcome,
    idle_minutes,
    share_left_in_cold,
    share_that_leaves_no_start,
    standby_days,
)

LOCK = "refit"
AGED = Span(0.7, 1.0)  # of its capacity that age has left; common practice, no source
USABLE = 0.5  # that may go at best; common practice, no source
FREEZING_C = 0.0
FEW_HOURS = 3.0  # told in minutes
PRESSED = " pressed"  # of a fact such as 'brake pressed'
SOURCE = "share whose loss usually means no start [parked-car-bulletin]; what you want of it"
SECONDS_A_DAY, SECONDS_A_MINUTE = 86_400.0, 60.0
MINUTES_A_DAY, MINUTES_AN_HOUR = 1440.0, 60.0
DOUBTS = (
    "Counted with what age (70 to 100 %) and cold (0 °C or warm) have left of its capacity, of"
    " which 40 to 50 % may go before it no longer starts; told is the worse end."
)


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return how long it stands, what must not be forgotten, and how long it idles."""
    del unit
    battery = found.wiring.battery
    if found.electrics is None or battery is None:
        return ()
    if battery.holds is None:
        says = "Not checked: nobody has said what the battery holds."
        return (
            Finding("battery", "parked", "look", says, LOCK, missing=("what the battery holds",)),
        )
    store = Store(
        battery.holds.value,
        Span(share_that_leaves_no_start(), USABLE),
        AGED,
        Span(share_left_in_cold(FREEZING_C), 1.0),
    )
    return (_parked(found, store), *_forgotten(found, store), *_idling(found, store))


def _drain_a(found: WiringOutcome) -> tuple[float, tuple[str, ...]]:
    """Return what is drawn with the key out and all at rest [A], and by what."""
    electrics = found.electrics
    names = tuple(load.name for load in found.wiring.loads if load.asleep is not None)
    drain = sum(load.asleep.value for load in found.wiring.loads if load.asleep is not None)
    if electrics is None:
        return drain, names
    own = found.wiring.loads
    for number, row in enumerate(electrics.rows):
        rests = all(value in ("rest", "no", "out", "stopped") for _, value in row.state.facts)
        wakes = {(unit.name, unit.states[0]) for unit in found.wiring.units}
        if row.mode.key == "out" and rests and wakes >= {*row.state.units}:
            drawn = _drawn_a(found, number)
            on = tuple(load.name for load in own if load.name in row.on)
            return drain + drawn, (*names, *on)
    return drain, names


def _brief(found: WiringOutcome) -> set[str]:
    """Return the consumers that are on for a short time only."""
    return {use.consumer.name for use in found.uses if use.consumer.on_for_s is not None}


def _drawn_a(found: WiringOutcome, row: int) -> float:
    """Return what the battery gives in a state [A]; 0 where it is charged."""
    if found.electrics is None:
        return 0.0
    solved = found.electrics.solved
    both = [solved.circuit.element(name) for name in ("battery", HELPING)]
    amps = float(np.nansum(solved.currents[row, both]))
    return max(0.0, -amps)


def _parked(found: WiringOutcome, store: Store) -> Finding:
    """Return for how many days it may stand."""
    battery = found.wiring.battery
    wanted = 0.0 if battery is None else battery.parked_for.value / SECONDS_A_DAY
    drain, names = _drain_a(found)
    if drain <= 0:
        says = "Not checked: nobody has said what sleeps on the battery."
        missing = ("what each device takes asleep",)
        return Finding("battery", "parked", "look", says, LOCK, missing=missing)
    days = standby_days(store, Span(drain, drain)).low
    good = days >= wanted
    by = ", ".join(names)
    says = (
        f"Parked, it starts after {days:.0f} days: {shown_current(drain)} is drawn ({by})."
        if good
        else f"Parked, it may not start after {days:.0f} days: {shown_current(drain)} is drawn ({by})."
    )
    return Finding(
        rule="battery",
        place="parked",
        grade="good" if good else "change",
        says=says,
        lock=LOCK,
        figure=days,
        limit=wanted,
        margin=days - wanted,
        measure="days",
        remedies=()
        if good
        else (Remedy("Feed what draws most with the key, or part it by hand."),),
        source=SOURCE,
        why=(DOUBTS,),
    )


def _forgotten(found: WiringOutcome, store: Store) -> Iterator[Finding]:
    """Yield how long it lasts with one thing left on and the engine still, the worst of each mode."""
    electrics, battery = found.electrics, found.wiring.battery
    if electrics is None or battery is None:
        return
    worst: dict[str, tuple[float, Row]] = {}
    brief = _brief(found)
    for number, row in enumerate(electrics.rows):
        if row.crowd or row.mode.engine != "stopped" or row.on & brief or _is_held(found, row):
            continue
        drawn = _drawn_a(found, number)
        if drawn > 0:
            old = worst.get(row.mode.name)
            if old is None or drawn > old[0]:
                worst[row.mode.name] = (drawn, row)
    for mode, (drawn, row) in worst.items():
        left_on = _left_on(found, store, mode, (drawn, row.on))
        waits = _uncounted(found, {mode})
        if waits and left_on.grade == "good":
            says = f"Not told how long it lasts with {mode}: not all loads are counted."
            yield Finding("battery", left_on.place, "look", says, LOCK, missing=waits)
        else:
            yield left_on


def _uncounted(found: WiringOutcome, modes: set[str]) -> tuple[str, ...]:
    """Return what nobody has said of the loads that can be on in some modes."""
    unsaid = (use for use in found.uses if use.consumer.current_a is None)
    return tuple(
        dict.fromkeys(f"what {use.consumer.name} takes" for use in unsaid if use.mode.name in modes)
    )


def _left_on(
    found: WiringOutcome, store: Store, mode: str, told: tuple[float, frozenset[str]]
) -> Finding:
    """Return for how long it starts with some loads on, by what they draw [A] and their names."""
    drawn, names = told
    battery = found.wiring.battery
    wanted = 0.0 if battery is None else battery.left_on_for.value / SECONDS_A_MINUTE
    minutes = MINUTES_A_DAY * standby_days(store, Span(drawn, drawn)).low
    good = minutes >= wanted
    on = ", ".join(sorted(names & {load.name for load in found.wiring.loads}))
    after = f"{_lasts(minutes)} ({shown_current(drawn)})"
    says = (
        f"Forgotten with {mode} and {on} on, it starts after {after}."
        if good
        else f"Forgotten with {mode} and {on} on, it may not start after {after}."
    )
    return Finding(
        rule="battery",
        place=f"forgotten, {mode}",
        grade="good" if good else "change",
        says=says,
        lock=LOCK,
        figure=minutes,
        limit=wanted,
        margin=minutes - wanted,
        measure="minutes",
        remedies=() if good else (_remembered(store, wanted / minutes),),
        source=SOURCE,
        why=(DOUBTS,),
    )


def _remembered(store: Store, times: float) -> Remedy:
    """Return what helps against forgetting, with a battery that lasts so many times as long."""
    return Remedy(
        "Feed what draws most through a relay that only the running alternator pulls in, or fit a"
        f" buzzer; by itself a battery of {ceil(store.capacity_ah * times):g} Ah would last."
    )


def _is_held(found: WiringOutcome, row: Row) -> bool:
    """Return whether a state lasts only as long as a hand or a foot presses something."""
    held = {one.name for one in found.wiring.switches if one.action == "momentary"}
    return any(
        value not in ("rest", "no") and (name in held or name.endswith(PRESSED))
        for name, value in row.state.facts
    )


def _lasts(minutes: float) -> str:
    """Return a time in words, in hours where it is long, rounded down."""
    hours = minutes / MINUTES_AN_HOUR
    return f"{floor(minutes)} minutes" if hours < FEW_HOURS else f"{floor(hours)} hours"


def _idling(found: WiringOutcome, store: Store) -> Iterator[Finding]:
    """Yield how long it may idle hot with all on that lasts."""
    electrics, battery = found.electrics, found.wiring.battery
    own = found.wiring.alternator
    if electrics is None or battery is None or own is None or own.at_idle is None:
        return
    brief = _brief(found)
    drawn = max(
        (
            _drawn_a(found, number)
            for number, row in enumerate(electrics.rows)
            if row.mode.supply == "idle" and not (row.on & brief)
        ),
        default=0.0,
    )
    wanted = battery.idles_for.value / SECONDS_A_MINUTE
    place = "idling hot with all on"
    waits = _uncounted(found, {use.mode.name for use in found.uses if use.mode.supply == "idle"})
    if waits:
        says = "Not told how long it may idle: not all loads are counted."
        yield Finding("battery", place, "look", says, LOCK, missing=waits)
        return
    if drawn <= 0:
        says = "At hot idle the alternator gives as much as is on."
        yield Finding("battery", place, "good", says, LOCK, source=SOURCE)
        return
    minutes = idle_minutes(store, Span(drawn, drawn), Span(0.0, 0.0)).low
    good = not isfinite(minutes) or minutes >= wanted
    says = (
        f"At hot idle with all on the battery gives {shown_current(drawn)}: after"
        f" {minutes:.0f} minutes it may not start again."
    )
    yield Finding(
        rule="battery",
        place=place,
        grade="good" if good else "change",
        says=says,
        lock=LOCK,
        figure=minutes,
        limit=wanted,
        margin=minutes - wanted,
        measure="minutes",
        remedies=()
        if good
        else (Remedy("Switch some of it off at idle, or fit a larger alternator."),),
        source=SOURCE,
        why=(DOUBTS,),
    )
