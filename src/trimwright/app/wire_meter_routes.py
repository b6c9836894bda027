"""What the sheet 'wire' asks of a meter: where to read, what is expected, and what was read tells."""

from fastapi import APIRouter
from msgspec import Struct

from trimwright.app.asked import Good
from trimwright.app.wire_answer import fault_said
from trimwright.app.wire_meter_message import LikelyMessage, MeterMessage, ReadingMessage
from trimwright.app.wire_routes import pages_by_name
from trimwright.build import Wiring
from trimwright.quantities import shown_chance, shown_voltage
from trimwright.wiring import (
    MODES,
    Diagnosis,
    Likely,
    MeterTable,
    Probing,
    as_expected,
    chosen,
    diagnosis,
    handles,
    limit_words,
    meter_table,
    position_words,
    probe_words,
)

NEAR_V = 0.005  # what misses by less would be told as nothing
TOLD = 10  # likely faults that are told of one reading
router = APIRouter(prefix="/api/builds/{name}/wire")


class _Sheet(Struct, frozen=True):
    """A wiring's readings: what is expected, which are worth taking, and which were taken [V]."""

    wiring: Wiring
    pages: dict[str, int]
    table: MeterTable
    chosen: frozenset[int]
    read: dict[int, float]


@router.get("/meter")
def meter(good: Good) -> MeterMessage:
    """Return every place to read at, with what was read there and what that speaks of."""
    build = good[1].build
    table = None if build.wiring is None else meter_table(build.wiring, build.unit)
    taken = () if build.wiring is None else build.wiring.readings
    if build.wiring is None or table is None:
        lost = tuple(one.reading for one in taken)
        return MeterMessage(version=good[0].version, readings=(), count=len(taken), lost=lost)
    at = {one.reading: table.place(one.reading) for one in taken}
    read = {n: one.reads.value for one in taken if (n := at[one.reading]) is not None}
    sheet = _Sheet(build.wiring, pages_by_name(build), table, frozenset(chosen(table)), read)
    numbers = sorted(
        range(len(table.probings)), key=lambda n: (MODES.index(table.probings[n].use.mode), n)
    )
    return MeterMessage(
        version=good[0].version,
        readings=tuple(_reading(sheet, n) for n in numbers),
        count=len(taken),
        lost=tuple(name for name, place in at.items() if place is None),
    )


def _reading(sheet: _Sheet, place: int) -> ReadingMessage:
    """Return one place to read at."""
    table = sheet.table
    one = table.probings[place]
    red, black = probe_words(one)
    low, high = float(table.low[place]), float(table.high[place])
    index, text = _taken(sheet.wiring, one.name)
    volts = sheet.read.get(place)
    good = volts is not None and as_expected(table, place, volts)
    told = None if volts is None or good else diagnosis(table, sheet.read, place)
    likely = () if told is None else told.likely
    return ReadingMessage(
        name=one.name,
        of=one.of,
        page=sheet.pages.get(one.of, 0),
        red=red,
        black=black,
        mode=one.use.mode.name,
        put=_put(sheet.wiring, one),
        stands=position_words(one, sheet.wiring),
        expected=limit_words(low, high),
        low_v=low,
        sound_v=float(table.sound[place]),
        high_v=high,
        chosen=place in sheet.chosen,
        reads=text,
        reads_v=volts,
        index=index,
        verdict="" if volts is None else "good" if good else "wrong",
        likely=tuple(_likely(fault, len(sheet.read)) for fault in likely[:TOLD]),
        tied=0 if told is None else told.tied,
        more=max(0, len(likely) - TOLD),
        following=_following(table, told),
        nothing="" if told is None else shown_chance(told.nothing),
        other="" if told is None else shown_chance(told.other),
    )


def _taken(wiring: Wiring, name: str) -> tuple[int | None, str]:
    """Return the item of a reading that was taken, and what was read as typed."""
    for index, one in enumerate(wiring.readings):
        if one.reading == name:
            return index, one.reads.text
    return None, ""


def _put(wiring: Wiring, one: Probing) -> dict[str, str]:
    """Return which switches, doors and units are not at rest for a reading, and how they are put."""
    stands = dict((*one.use.state.facts, *one.use.state.units))
    return {
        name: stands[name] for name, positions in handles(wiring) if stands[name] != positions[0]
    }


def _likely(one: Likely, taken: int) -> LikelyMessage:
    """Return a likely fault, what it would show, and how well it fits all that was read."""
    fits = "fits"
    if one.misses_v >= NEAR_V:
        off = f"{shown_voltage(one.misses_v)} off"
        fits = off if taken == 1 else f"up to {off} in {taken} readings"
    chance, shows = shown_chance(one.chance), shown_voltage(one.shows_v)
    return LikelyMessage(fault=fault_said(one.fault), shows=shows, fits=fits, chance=chance)


def _following(table: MeterTable, told: Diagnosis | None) -> str:
    """Return the reading that parts the likely faults best; nothing where none does."""
    if told is None or told.following is None:
        return ""
    return table.probings[told.following].name
