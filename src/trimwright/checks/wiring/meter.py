"""Rule 'meter': what a meter read in the wiring is what is expected there, or which fault it tells of."""

from trimwright.build import MeterReading
from trimwright.checks.wiring.words import sentence
from trimwright.findings import Finding, Remedy
from trimwright.quantities import Unit, shown_voltage
from trimwright.wiring import (
    EXPLAINED_V,
    Diagnosis,
    MeterTable,
    WiringOutcome,
    as_expected,
    diagnosis,
    faults_words,
    meter_table,
)

RULE, LOCK = "meter", "carpet"
TOLD = 8  # likely faults that are listed
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


def _likely(told: Diagnosis) -> str:
    """Return the likeliest faults in words."""
    if not told.likely or told.likely[0].misses_v > EXPLAINED_V:
        return "no single fault explains it"
    words = faults_words(one.fault for one in told.likely[: told.tied])
    more = f" and {len(words) - 3} more" if len(words) > 3 else ""  # noqa: PLR2004  a line's worth
    return f"most likely {'; '.join(words[:3])}{more}"


def _following(told: Diagnosis, table: MeterTable) -> tuple[Remedy, ...]:
    """Return the reading to take next, where one parts the likely faults."""
    if told.following is None:
        return ()
    return (Remedy(f"Read next: {table.probings[told.following].name}. It parts these best."),)


def _why(told: Diagnosis) -> tuple[str, ...]:
    """Return the ranked faults, and what cannot be told."""
    tied = faults_words(one.fault for one in told.likely[: told.tied])
    found = [
        f"With {words} it would show {shown_voltage(one.shows_v)}."
        for one in told.likely[told.tied : told.tied + TOLD]
        for words in faults_words([one.fault])
    ]
    if told.tied > 1:
        found.insert(0, f"Cannot be told apart by this reading: {'; '.join(tied)}.")
    if told.unsolved:
        found.append(f"{told.unsolved} faults could not be solved here, and are not ranked.")
    return tuple(found)
