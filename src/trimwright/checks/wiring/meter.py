"""Rule 'meter': what a meter read in the wiring is what is expected there, or which fault it tells of."""

from collections.abc import Iterable

from trimwright.build import MeterReading
from trimwright.checks.wiring.words import sentence
from trimwright.findings import Finding, Remedy
from trimwright.quantities import Unit, shown_chance, shown_voltage
from trimwright.wiring import (
    Diagnosis,
    Likely,
    MeterTable,
    WiringOutcome,
    as_expected,
    diagnosis,
    faults_told,
    meter_table,
)

RULE, LOCK = "meter", "carpet"
TOLD = 8  # likely faults that are listed
ODDS = (
    "By how often such faults come (common practice, no source), and by all that was read, which"
    " lies within 0.5 V of what a fault would show 19 times in 20."
)
SOURCE = "the network solved with each single fault; a bad crimp is taken as 0.5 ohm"
LIMITS = (
    "Expected between what the network gives with the battery at 12.2 to 12.8 V and all resistances"
    " of the way, and all of the loads, 20 % lower or higher."
)


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each reading that was taken."""
    taken = found.wiring.readings
    if not taken:
        return ()
    table = meter_table(found.wiring, unit)
    read: dict[int, float] = {}
    for one in taken:
        place = None if table is None else table.place(one.reading)
        if place is not None:
            read[place] = one.reads.value
    return tuple(_finding(one, table, read) for one in taken)


def _finding(one: MeterReading, table: MeterTable | None, read: dict[int, float]) -> Finding:
    """Return what one reading tells."""
    place = None if table is None else table.place(one.reading)
    where = f"meter at {one.reading}"
    if table is None or place is None:
        says = f"No voltage is expected for {one.reading}: nothing is solved there."
        missing = ("the battery, what the load takes, or a state in which it works that way",)
        return Finding(RULE, where, "look", says, LOCK, missing=missing)
    volts, low, high = one.reads.value, float(table.low[place]), float(table.high[place])
    good = as_expected(table, place, volts)
    limits = f"{shown_voltage(low)} to {shown_voltage(high)} expected"
    told = None if good else diagnosis(table, read, place)
    says = f"{sentence(one.reading)} reads {shown_voltage(volts)}, {limits}"
    return Finding(
        rule=RULE,
        place=where,
        grade="good" if good else "change",
        says=f"{says}." if told is None else f"{says}: {_likely(told)}.",
        lock=LOCK,
        figure=volts,
        limit=low if volts < low else high,
        margin=min(volts - low, high - volts),
        measure="V",
        remedies=() if told is None else _following(told, table),
        source=SOURCE,
        why=(LIMITS,) if told is None else (LIMITS, *_why(told)),
    )


def _grouped(told: Iterable[Likely]) -> list[tuple[str, float]]:
    """Return faults in words, the wires of one path together, and their chances, likeliest first."""
    chance = {one.fault: one.chance for one in told}
    found = [(words, sum(chance[one] for one in own)) for words, own in faults_told(chance)]
    return sorted(found, key=lambda one: -round(one[1], 6))


def _likely(told: Diagnosis) -> str:
    """Return the likeliest faults in words, each with its chance."""
    if not told.likely:
        return "no single fault explains it"
    found = _grouped(told.likely[: told.tied])
    words = [f"{words} ({shown_chance(min(1.0, chance))})" for words, chance in found]
    more = f" and {len(words) - 3} more" if len(words) > 3 else ""  # noqa: PLR2004  a line's worth
    return f"most likely {'; '.join(words[:3])}{more}"


def _following(told: Diagnosis, table: MeterTable) -> tuple[Remedy, ...]:
    """Return the reading to take next, where one parts the likely faults."""
    if told.following is None:
        return ()
    return (Remedy(f"Read next: {table.probings[told.following].name}. It parts these best."),)


def _why(told: Diagnosis) -> tuple[str, ...]:
    """Return the ranked faults, and what cannot be told."""
    found = [
        f"With {words} it would show {shown_voltage(one.shows_v)}."
        for one in told.likely[told.tied : told.tied + TOLD]
        for words, _ in faults_told([one.fault])
    ]
    if told.tied > 1:
        tied = "; ".join(
            f"{words}, {shown_chance(min(1.0, chance))}"
            for words, chance in _grouped(told.likely[: told.tied])
        )
        found.insert(0, f"Cannot be told apart by what was read: {tied}.")
    found.append(
        f"That it is nothing at all: {shown_chance(told.nothing)}; something that is not in this"
        f" list: {shown_chance(told.other)}. {ODDS}"
    )
    if told.unsolved:
        found.append(f"{told.unsolved} faults could not be solved here, and are not ranked.")
    return tuple(found)
