"""The wire list: one row a wire to cut, grouped by current path, with a box to tick."""

from trimwright.cabin import Cabin
from trimwright.drawing import Column, Row, Size
from trimwright.papers.leaf import Leaf
from trimwright.papers.tabled import tabled
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

NAMES = ("Wire list", "wiring", "wire list")
COLUMNS = (
    (Column("wire", 10.0), 10),
    (Column("from", 44.0), 44),
    (Column("to", 44.0), 44),
    (Column("size, colour", 22.0), 22),
    (Column("cut", 24.0, "figure"), 24),
    (Column("way", 32.0), 32),
    (Column("done", 10.0, "tick"), 10),
)


def leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return every wire as a row; none without a wiring."""
    found = cabin.wiring
    if found is None or not found.loom.wires:
        return ()
    made, unit = made_of(found), cabin.build.unit
    rows = (*_paths(found, made, unit), *_links(found), *_totals(found, made, unit))
    return tabled(size, cabin.build, NAMES, _words(found, made, unit), COLUMNS, rows)


def _words(found: WiringOutcome, made: dict[str, MadeOf], unit: Unit) -> str:
    """Return what stands over the list."""
    tail = shown_with_unit(found.wiring.tail.value, unit)
    slack, per = (
        (f"{found.wiring.slack.value:g} mm", "metre")
        if unit == "mm"
        else (f"{found.wiring.slack.value / 1000 * 12:.2g} in", "foot")
    )
    words = [
        (
            f"Lengths are to cut: the way along the trunks, {slack} of slack a {per} and {tail} at each"
            " end to strip and crimp, rounded up."
        )
    ]
    if any(own.chosen for own in made.values()):
        words.append(f"{CHOSEN_MEANS}.")
    if key := colour_key(found):
        words.append(f"Colours, base then stripe: {key}.")
    return " ".join(words)


def _paths(found: WiringOutcome, made: dict[str, MadeOf], unit: Unit) -> list[Row]:
    """Return the wires under the numbers and names of their paths."""
    rows: list[Row] = []
    for number, path in enumerate(found.wiring.paths):
        some = [one for one in found.loom.wires if one.path == number]
        if some:
            rows.append(Row((), over=f"{number + 1} · {path.name}"))
            rows += [_row(one, found, made, unit) for one in some]
    return rows


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


def _links(found: WiringOutcome) -> list[Row]:
    """Return what is joined inside boxes, so that nobody looks for a wire."""
    if not found.loom.links:
        return []
    rows = [Row((), over="Joined inside their box: no wire to cut")]
    for one in found.loom.links:
        place = place_words(one.start)
        rows.append(
            Row(("", short_end(one.start), short_end(one.end), "", "", f"inside {place}", ""))
        )
    return rows


def _totals(found: WiringOutcome, made: dict[str, MadeOf], unit: Unit) -> list[Row]:
    """Return how much wire of each size that comes to."""
    by_size: dict[tuple[float, str], list[Wire]] = {}
    for one in found.loom.wires:
        own = made[one.name]
        by_size.setdefault((own.area_mm2, size_words(own).removesuffix(CHOSEN)), []).append(one)
    every = _total(list(found.loom.wires), "all wires", unit)
    return [
        Row((), over="Together"),
        *(_total(some, size, unit) for (_, size), some in sorted(by_size.items())),
        every,
    ]


def _total(some: list[Wire], size: str, unit: Unit) -> Row:
    """Return the sum of some wires."""
    total = sum(one.cut_mm for one in some if one.cut_mm is not None)
    unknown = sum(1 for one in some if one.cut_mm is None)
    count = f"{len(some)} wire{'s' if len(some) > 1 else ''}"
    more = f"and {unknown} of no known length" if unknown else ""
    return Row(("", size, count, "", total_words(total, unit), more, ""), face="count-bold")
