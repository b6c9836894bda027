"""The wire list: one row a wire to cut, grouped by current path, with a box to tick."""

from msgspec.structs import replace

from trimwright.cabin import Cabin
from trimwright.drawing import Column, Row, Size
from trimwright.papers.leaf import Leaf
from trimwright.papers.tabled import Table, flowed, numbered
from trimwright.papers.wiring.wording import (
    CHOSEN,
    CHOSEN_MEANS,
    IN_WORDS,
    colour_key,
    colour_words,
    cut_words,
    place_words,
    short_end,
    size_words,
    total_words,
    way_words,
)
from trimwright.quantities import Unit, shown_with_unit
from trimwright.wiring import End, MadeOf, Wire, WiringOutcome, crimp, made_of

MM_IN_A_PER_CENT = 10.0  # of a metre
NAMES = ("wiring", "wire list")
COLUMNS = (
    (Column("wire", 10.0), 10),
    (Column("from", 44.0), 44),
    (Column("to", 44.0), 44),
    (Column("size, colour", 22.0), 22),
    (Column("cut", 24.0, "figure"), 24),
    (Column("way", 32.0), 32),
    (Column("done", 10.0, "tick"), 10),
)
LINK_COLUMNS = (
    (Column("inside", 36.0), 36),
    (Column("from", 36.0), 36),
    (Column("to", 114.0), 114),
)
TOTAL_COLUMNS = (
    (Column("size", 62.0), 62),
    (Column("wires", 24.0, "figure"), 24),
    (Column("to cut", 30.0, "figure"), 30),
    (Column("", 70.0), 70),
)


def leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return every wire as a row; none without a wiring."""
    found = cabin.wiring
    if found is None or not found.loom.wires:
        return ()
    made, unit = made_of(found), cabin.build.unit
    tables = (
        Table("Wire list", _words(found, made, unit), COLUMNS, _paths(found, made, unit)),
        Table("Joined inside a box", "No wire to cut.", LINK_COLUMNS, _links(found)),
        Table("Together", "", TOTAL_COLUMNS, _totals(found, made, unit)),
    )
    return numbered(size, NAMES, flowed(size, cabin.build, tables))


def _words(found: WiringOutcome, made: dict[str, MadeOf], unit: Unit) -> str:
    """Return what stands over the list."""
    tail = shown_with_unit(found.wiring.tail.value, unit)
    slack = found.wiring.slack.value / MM_IN_A_PER_CENT
    words = [
        (
            f"Lengths are to cut: the way along the trunks, {slack:.3g} % of slack and {tail} at each"
            " end to strip and crimp, rounded up."
        )
    ]
    if any(own.chosen for own in made.values()):
        words.append(f"{CHOSEN_MEANS}.")
    if key := colour_key(found):
        words.append(f"Colours, base then stripe: {key}.")
    return " ".join(words)


def _paths(found: WiringOutcome, made: dict[str, MadeOf], unit: Unit) -> tuple[Row, ...]:
    """Return the wires under the numbers and names of their paths."""
    rows: list[Row] = []
    for number, path in enumerate(found.wiring.paths):
        some = [one for one in found.loom.wires if one.path == number]
        if some:
            rows.append(Row((), over=f"{number + 1} · {path.name}"))
            rows += [_row(one, found, made, unit) for one in some]
    return tuple(rows)


def _row(one: Wire, found: WiringOutcome, made: dict[str, MadeOf], unit: Unit) -> Row:
    """Return one wire."""
    return Row(
        (
            wire_number(one),
            _end(one.start, found),
            _end(one.end, found),
            f"{size_words(made[one.name])}\n{colour_words(one.colour)}",
            cut_words(one, unit),
            way_words(one, found),
            "",
        )
    )


def wire_number(one: Wire) -> str:
    """Return a wire's number in the list: its path's, and its own in it."""
    return f"{one.path + 1}.{one.name.rsplit(' ', 1)[1]}"


def _end(end: End, found: WiringOutcome) -> str:
    """Return an end: device and terminal, its place, what is crimped on."""
    return f"{short_end(end)}\n{place_words(end)}, {IN_WORDS[crimp(end, found.wiring)]}"


def _links(found: WiringOutcome) -> tuple[Row, ...]:
    """Return what is joined inside boxes, so that nobody looks for a wire."""
    told: dict[tuple[str, str], list[str]] = {}
    for one in found.loom.links:
        told.setdefault((place_words(one.start), short_end(one.start)), []).append(
            short_end(one.end)
        )
    return tuple(Row((place, start, ", ".join(ends))) for (place, start), ends in told.items())


def _totals(found: WiringOutcome, made: dict[str, MadeOf], unit: Unit) -> tuple[Row, ...]:
    """Return how much wire of each size that comes to."""
    by_size: dict[tuple[float, str], list[Wire]] = {}
    for one in found.loom.wires:
        own = made[one.name]
        by_size.setdefault((own.area_mm2, size_words(own).removesuffix(CHOSEN)), []).append(one)
    sizes = (_total(some, size, unit) for (_, size), some in sorted(by_size.items()))
    every = _total(list(found.loom.wires), "all wires", unit)
    return (*sizes, replace(every, face="count-bold"))


def _total(some: list[Wire], size: str, unit: Unit) -> Row:
    """Return the sum of some wires."""
    total = sum(one.cut_mm for one in some if one.cut_mm is not None)
    unknown = sum(1 for one in some if one.cut_mm is None)
    more = f"and {unknown} of no known length" if unknown else ""
    return Row((size, f"{len(some)}", total_words(total, unit), more))
