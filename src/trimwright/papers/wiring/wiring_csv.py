"""Wires and what to buy as comma-separated values, for a spreadsheet: units in the headings."""

from math import inf

from trimwright.build import Wiring
from trimwright.cabin import Cabin
from trimwright.papers.csv_list import as_csv, cell_of_length, cell_of_words
from trimwright.papers.wiring.buying_list import Lot, lots
from trimwright.papers.wiring.priced import sums
from trimwright.papers.wiring.wire_list import wire_number
from trimwright.papers.wiring.wording import IN_WORDS, way_words
from trimwright.wiring import End, Warmest, WiringOutcome, crimp, dies_with, made_of, shorted


def wire_list_csv(cabin: Cabin) -> bytes:
    """Return every wire to cut as a row, in the order of the wire list.

    Raises
    ------
    ValueError
        If there is no wiring.

    References
    ----------
    RFC 4180
    """
    found, unit = _wiring(cabin), cabin.build.unit
    made = made_of(found)
    ends = ("device", "terminal", "place", "crimp")
    head = [
        *("number", "path"),
        *(f"{way} {name}" for way in ("from", "to") for name in ends),
        *("size", "size chosen here", "colour", f"cut [{unit}]", "waits for", "way"),
    ]
    rows = [head]
    for one in found.loom.wires:
        own = made[one.name]
        rows.append(
            [
                wire_number(one),
                cell_of_words(found.wiring.paths[one.path].name),
                *_end(one.start, found.wiring),
                *_end(one.end, found.wiring),
                *(cell_of_words(own.bought), "yes" if own.chosen else "no", one.colour or ""),
                *(cell_of_length(one.cut_mm, unit), cell_of_words(one.missing)),
                cell_of_words(way_words(one, found)),
            ]
        )
    return as_csv(rows)


def buying_csv(cabin: Cabin) -> bytes:
    """Return everything to buy as a row, in the order of the buying list.

    Raises
    ------
    ValueError
        If there is no wiring.

    References
    ----------
    RFC 4180
    """
    found, unit = _wiring(cabin), cabin.build.unit
    rows = [["what", "which", "how many", "of", "for", "each", "together"]]
    for heading, some in lots(found, unit):
        rows += [_lot(heading, one, found.wiring) for one in some]
    return as_csv(rows)


def rubbed_csv(cabin: Cabin) -> bytes:
    """Return what a short of every wire does as a row, in the order of the wire list.

    A time that may never end is empty, as is what nobody knows.

    Raises
    ------
    ValueError
        If there is no wiring.

    References
    ----------
    RFC 4180
    """
    found, unit = _wiring(cabin), cabin.build.unit
    head = ["number", "path", "wire", "least [A]", "most [A]", "opens", "may open before it"]
    head += ["soonest [s]", "latest [s]", "warmest", "warmest [degC]", "bears [degC]"]
    rows = [[*head, "goes dead with it", "works by itself"]]
    for wire, rub in zip(found.loom.wires, shorted(found.wiring, unit), strict=False):
        hot = rub.warmest
        dead = dict.fromkeys(load for name in rub.fuses for load in dies_with(found, name))
        named = (found.wiring.paths[wire.path].name, wire.name)
        rows.append(
            [
                wire_number(wire),
                *(cell_of_words(text) for text in named),
                *(f"{amps:.1f}" for amps in (rub.least_a, rub.most_a)),
                *(cell_of_words(", ".join(some)) for some in (rub.fuses, rub.also)),
                *("" if s == inf else f"{s:.3g}" for s in (rub.soonest_s, rub.latest_s)),
                *(("", "", "") if hot is None else (cell_of_words(hot.wire), *_degrees(hot))),
                *(cell_of_words(", ".join(some)) for some in (dead, rub.loads)),
            ]
        )
    return as_csv(rows)


def _degrees(hot: Warmest) -> tuple[str, str]:
    """Return how warm a wire gets and what it bears, as cells."""
    return f"{hot.celsius:.0f}", f"{hot.bears_c:.0f}"


def _lot(heading: str, one: Lot, wiring: Wiring) -> list[str]:
    """Return one thing to buy."""
    words = (heading, one.what, f"{one.count}", one.per, one.use)
    costs = sums(one.what, one.count, wiring.prices)
    return [*(cell_of_words(text) for text in words), *costs]


def _end(end: End, wiring: Wiring) -> tuple[str, ...]:
    """Return an end of a wire as cells."""
    words = (end.device, end.terminal, end.place or "", IN_WORDS[crimp(end, wiring)])
    return tuple(cell_of_words(text) for text in words)


def _wiring(cabin: Cabin) -> WiringOutcome:
    """Return what is computed of a cabin's wiring."""
    found = cabin.wiring
    if found is None:
        raise ValueError("cabin must have a wiring, got none")
    return found
