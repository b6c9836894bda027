"""The meter sheet: the readings worth taking before the console closes, and what a wrong one means."""

import math

from trimwright.cabin import Cabin
from trimwright.drawing import (
    LABEL_MM,
    Anchor,
    Circle,
    Column,
    Element,
    Fill,
    Line,
    Point,
    Row,
    Size,
    Text,
)
from trimwright.papers.leaf import Leaf
from trimwright.papers.tabled import tabled
from trimwright.wiring import (
    MODES,
    MeterTable,
    Probing,
    WiringOutcome,
    chosen,
    fault_words,
    faults_words,
    limit_words,
    meter_table,
    position_words,
    probe_words,
    unseen,
    wrong_readings,
)

WIDE_MM, HIGH_MM = 56.0, 25.0
WIRE_Y, BAR_Y, BAR_MM = 9.0, 19.0, 2.4
STEP_MM = 7.0  # from symbol to symbol at most
COLUMNS = (
    (Column("", WIDE_MM + 2.0, "picture"), WIDE_MM + 4.0),
    (Column("reading, probes", 36.0), 38),
    (Column("positions", 28.0), 30),
    (Column("read", 14.0, "line"), 14),
    (Column("a wrong one most likely means", 48.0), 54),
)
TOLD, GROUPS = 4, 2  # likely faults named, voltages told, a row
WORDS = (
    "Put the meter on volts before it touches anything; take rings and watch off; out of gear, hands"
    " clear of what may turn; disconnect the battery before any wire is moved. These readings together"
    " see every single fault that stops a load. Expected: solved with the battery between 12.2 and 12.8 V and all resistances of the way,"
    " and all of the loads, 20 % lower or higher; the box is that range, its tick the figure with all"
    " as written. Enter what you read in the place wire, or write it into the build file in the words"
    " of the row."
)


def leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return every chosen reading as a row; nothing where no voltage can be computed."""
    found = cabin.wiring
    table = None if found is None else meter_table(found.wiring, cabin.build.unit)
    if found is None or table is None:
        return ()
    numbers = sorted(chosen(table), key=lambda n: _order(table.probings[n]))
    rows = tuple(_row(found, table, n, numbers) for n in numbers)
    if not rows:
        return ()
    names = ("Meter sheet", "wiring", "meter sheet")
    words = WORDS + _left_out(found, table, numbers)
    return tabled(size, cabin.build, names, words, COLUMNS, rows)


def _order(one: Probing) -> int:
    """Return how a builder goes through the readings: from key out to the engine running."""
    return MODES.index(one.use.mode)


def _left_out(found: WiringOutcome, table: MeterTable, numbers: list[int]) -> str:
    """Return what the sheet does not see, in words."""
    missed = "; ".join(fault_words(one) for one in unseen(table, numbers))
    read = {one.of for one in table.probings}
    loads = ", ".join(one.name for one in found.wiring.loads if one.name not in read)
    told = f" No reading sees: {missed}." if missed else ""
    return f"{told} Not computed, so not on this sheet: {loads}." if loads else told


def _row(found: WiringOutcome, table: MeterTable, place: int, numbers: list[int]) -> Row:
    """Return one reading."""
    one = table.probings[place]
    low, high = float(table.low[place]), float(table.high[place])
    red, black = probe_words(one)
    probes = f"{one.name}\nred on {red}\nblack on {black}\nexpected {limit_words(low, high)}"
    positions = "\n".join(position_words(one, found.wiring))
    cells = ("", probes, positions, "", _meaning(table, place, numbers))
    drawn = (*_way(found, one), *_bar(low, float(table.sound[place]), high))
    return Row(cells, drawn, (WIDE_MM, HIGH_MM))


def _meaning(table: MeterTable, place: int, numbers: list[int]) -> str:
    """Return what a wrong reading most likely means: first what no other row would show as well."""
    moved = wrong_readings(table)
    own = [n for n in range(len(table.faults)) if moved[n, place]]
    alone = [n for n in own if not any(moved[n, other] for other in numbers if other != place)]
    lines = []
    groups = sorted(
        {_shows(table, n, place) for n in alone},
        key=lambda text: (-sum(_shows(table, n, place) == text for n in alone), text),
    )
    for text in groups[:GROUPS]:
        words = faults_words(table.faults[n] for n in alone if _shows(table, n, place) == text)
        more = f"; {len(words) - TOLD} more" if len(words) > TOLD else ""
        lines.append(f"{text}: {'; '.join(words[:TOLD])}{more}.")
    if len(own) > len(alone):
        lines.append("Other rows wrong too: something they share with this one.")
    return "\n".join(lines)


def _shows(table: MeterTable, fault: int, place: int) -> str:
    """Return what a fault shows at a place, in words."""
    return f"{round(float(table.faulted[fault, place]), 1) + 0.0:g} V"


def _way(found: WiringOutcome, one: Probing) -> tuple[Element, ...]:
    """Return the current's way from feed to ground, with the places of both probes."""
    fuses = {fuse.name for fuse in found.wiring.fuses}
    wires = {wire.name for wire in found.loom.wires}
    to = [name for name in one.use.path.to if name not in wires]
    back = [name for name in one.use.path.back if name not in wires]
    parts = [*to, "", *back]
    step = min(STEP_MM, (WIDE_MM - 12.0) / len(parts))
    end = 6.0 + step * len(parts)
    drawn: list[Element] = [Circle((3.0, WIRE_Y), 0.8), Line(((3.8, WIRE_Y), (6.0, WIRE_Y)))]
    for number, name in enumerate(parts):
        x = 6.0 + step * number
        sort = "load" if not name else "fuse" if name in fuses else "contact"
        drawn += _symbol(sort, x, step)
    drawn += [Line(((end, WIRE_Y), (end + 3.0, WIRE_Y))), *_ground((end + 3.0, WIRE_Y))]
    before, after = 6.0 + step * len(to), 6.0 + step * (len(to) + 1)
    black = after if one.kind == "load" else end + 2.0
    drawn += [*_probe(before, "red", "end"), *_probe(black, "black", "start")]
    return tuple(drawn)


def _symbol(sort: str, x: float, step: float) -> list[Element]:
    """Return one symbol of the way, from its left end."""
    a, b, middle = x + step * 0.2, x + step * 0.8, x + step / 2
    ends: list[Element] = [
        Line(((x, WIRE_Y), (a, WIRE_Y))),
        Line(((b, WIRE_Y), (x + step, WIRE_Y))),
    ]
    if sort == "fuse":
        box = ((a, WIRE_Y - 0.9), (b, WIRE_Y - 0.9), (b, WIRE_Y + 0.9), (a, WIRE_Y + 0.9))
        return [*ends, Line(box, "visible", closed=True), Line(((a, WIRE_Y), (b, WIRE_Y)))]
    if sort == "load":
        radius = (b - a) / 2
        turn = radius / math.sqrt(2)
        cross = [
            Line(((middle - turn, WIRE_Y - s * turn), (middle + turn, WIRE_Y + s * turn)))
            for s in (-1, 1)
        ]
        return [*ends, Circle((middle, WIRE_Y), radius, "visible"), *cross]
    return [*ends, Line(((a, WIRE_Y), (b, WIRE_Y - 1.6)), "visible"), Circle((b, WIRE_Y), 0.4)]


def _ground(at: Point) -> list[Element]:
    """Return the sign of the body."""
    x, y = at
    down: list[Element] = [Line((at, (x, y + 1.5)))]
    return down + [
        Line(((x - half, y + low), (x + half, y + low)), "visible")
        for half, low in ((2.0, 1.5), (1.2, 2.3), (0.5, 3.1))
    ]


def _probe(x: float, word: str, anchor: Anchor) -> list[Element]:
    """Return a probe's tip on the wire, with its colour in words."""
    tip = ((x, WIRE_Y - 0.3), (x - 0.8, WIRE_Y - 2.8), (x + 0.8, WIRE_Y - 2.8))
    at = (x + (0.6 if anchor == "end" else -0.6), WIRE_Y - 5.2)
    stem = Line(((x, WIRE_Y - 2.8), (x, WIRE_Y - 4.8)), "visible")
    return [Fill(tip, tone="ink"), stem, Text(at, word, LABEL_MM, "count", anchor)]


def _bar(low: float, sound: float, high: float) -> tuple[Element, ...]:
    """Return the expected range on a scale of volts, hatched, with a tick at what is solved."""
    least, most = min(0.0, math.floor(low)), max(1.0, math.ceil(high / 5) * 5)

    def at(volts: float) -> float:
        return 3.0 + (volts - least) / (most - least) * (WIDE_MM - 6.0)

    a, b, half = at(low), at(high), BAR_MM / 2
    box = ((a, BAR_Y - half), (b, BAR_Y - half), (b, BAR_Y + half), (a, BAR_Y + half))
    marks = [Line(((at(volts), BAR_Y - 1.0), (at(volts), BAR_Y + 1.0))) for volts in (least, most)]
    ends: tuple[tuple[float, str, Anchor], ...] = (
        (at(least), f"{least:g}", "start"),
        (at(most), f"{most:g} V", "end"),
    )
    words = [Text((x, BAR_Y + 4.6), text, LABEL_MM, "count", side) for x, text, side in ends]
    return (
        Line(((at(least), BAR_Y), (at(most), BAR_Y))),
        Fill(box, hatch="waste"),
        Line(box, "thin", closed=True),
        Line(((at(sound), BAR_Y - half - 0.8), (at(sound), BAR_Y + half + 0.8)), "cut"),
        *marks,
        *words,
    )
