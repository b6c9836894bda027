"""The buying list: wire, what is crimped on, fuses, relays, plugs, wrap, cables."""

from collections.abc import Sequence

from msgspec import Struct

from trimwright.build import Price
from trimwright.cabin import Cabin
from trimwright.drawing import Column, Row, Size
from trimwright.papers.leaf import Leaf
from trimwright.papers.tabled import tabled
from trimwright.papers.wiring.priced import summed, sums
from trimwright.papers.wiring.wording import (
    NO_SIZE,
    colour_key,
    colour_words,
    named,
    short_end,
    total_words,
)
from trimwright.quantities import Unit, shown_current, shown_with_unit
from trimwright.wiring import (
    SPARE_SHARE,
    Bundling,
    Buying,
    Crimp,
    Shared,
    WiringOutcome,
    buying,
)

NAMES = ("To buy", "wiring", "buying list")
COLUMNS = (
    (Column("what", 62.0), 62),
    (Column("how many", 18.0, "figure"), 18),
    (Column("", 12.0), 12),
    (Column("for", 60.0), 60),
    (Column("each", 11.0, "figure"), 11),
    (Column("together", 13.0, "figure"), 14),
    (Column("got", 7.0, "tick"), 7),
)
SOLD_BY: dict[Unit, str] = {"mm": "m", "in": "ft"}
CRIMPED: dict[Crimp, str] = {
    "ring": "Ring terminal",
    "blade": "Push-on blade terminal",
    "contact": "Contact of a plug",
    "as the load asks": "Crimp terminal",
}
CRIMPED_FOR: dict[Crimp, str] = {
    "ring": "battery, feeds, grounds: bore by the stud",
    "blade": "fuse holders, switches, relays",
    "contact": "pins for one half, sockets for the other: as the plug asks",
    "as the load asks": "loads: look at each before buying",
}


MOST_NAMED = 12  # wires at one joint


class Lot(Struct, frozen=True):
    """One thing to buy: what, how many, of which measure, and what it is for."""

    what: str
    count: int
    per: str
    use: str


def leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return everything to buy as rows; none without a wiring."""
    found = cabin.wiring
    if found is None or not found.loom.wires:
        return ()
    unit = cabin.build.unit
    rows: list[Row] = []
    every = lots(found, unit)
    for heading, some in every:
        rows.append(Row((), over=heading))
        rows += [Row(_cells(one, found.wiring.prices)) for one in some]
    whole, colours = "metres" if unit == "mm" else "feet", colour_key(found)
    words = f"Wire has {100 * SPARE_SHARE:g} % to spare and is rounded up to whole {whole}."
    words += f" Colours, base then stripe: {colours}." if colours else ""
    words += summed(
        [(one.what, one.count) for _, some in every for one in some], found.wiring.prices
    )
    return tabled(size, cabin.build, NAMES, words, COLUMNS, tuple(rows))


def _cells(one: Lot, prices: Sequence[Price]) -> tuple[str, ...]:
    """Return the cells of one thing, those of its price left to be filled in where none is known."""
    costs = sums(one.what, one.count, prices)
    return (one.what, f"{one.count}", one.per, one.use, *costs, "")


def lots(found: WiringOutcome, unit: Unit) -> tuple[tuple[str, tuple[Lot, ...]], ...]:
    """Return headings with the things under them, empty ones left out."""
    own = buying(found, unit)
    every = (
        ("Wire", _wires(own, unit)),
        ("Terminals", _crimps(own)),
        ("Joints", tuple(_joint(one) for one in own.joints)),
        ("Several wires on one terminal", tuple(_shared(one) for one in own.shared)),
        ("Fuses", _fuses(own)),
        ("Relays", _relays(own)),
        ("Plugs", _plugs(own)),
        ("Wrap, for bundles of two wires and more", tuple(_wrap(b, unit) for b in own.wraps)),
        ("Cables bought with their plugs on", _cables(own, unit)),
    )
    return tuple((heading, some) for heading, some in every if some)


def _size(size: str) -> str:
    return size.replace("mm2", "mm²") or NO_SIZE


def _wires(own: Buying, unit: Unit) -> tuple[Lot, ...]:
    """Return wire by size and colour."""
    found = []
    for one in own.wires:
        pieces = (
            f"{one.pieces} wire{'s' if one.pieces > 1 else ''}, {total_words(one.cut_mm, unit)}"
        )
        more = f", and {one.unknown} of no known length" if one.unknown else ""
        what = f"{_size(one.size)}, {colour_words(one.colour)}"
        found.append(Lot(what, one.lengths, SOLD_BY[unit], f"{pieces} to cut{more}"))
    return tuple(found)


def _crimps(own: Buying) -> tuple[Lot, ...]:
    """Return what is crimped on."""
    return tuple(
        Lot(f"{CRIMPED[one.crimp]} for {_size(one.size)}", one.count, "", CRIMPED_FOR[one.crimp])
        for one in own.crimps
    )


def _joint(one: Shared) -> Lot:
    """Return a joint of wires."""
    count = len(one.wires)
    what = f"Crimp joint for {count} wires, with glued heat shrink"
    return Lot(what, 1, "", f"{short_end(one.end)}: {named(one.wires, MOST_NAMED)}")


def _shared(one: Shared) -> Lot:
    """Return a terminal that several wires end at."""
    what = f"Joint or double crimp for {len(one.wires)} wires"
    return Lot(what, 1, "", f"{short_end(one.end)}: {named(one.wires, MOST_NAMED)}")


def _fuses(own: Buying) -> tuple[Lot, ...]:
    """Return fuses with their spares."""
    return tuple(
        Lot(
            f"{one.type.capitalize()} fuse of {shown_current(one.rated_a)}",
            one.count + one.spare,
            "",
            f"{one.count} in use, {one.spare} to spare",
        )
        for one in own.fuses
    )


def _relays(own: Buying) -> tuple[Lot, ...]:
    """Return relays by what guards their coils."""
    guarded = {"none": "no coil guard"}
    return tuple(
        Lot(
            f"Relay for {shown_current(carries)} on 87,"
            f" {guarded.get(guard, f'{guard} across the coil')}",
            count,
            "",
            "with its socket",
        )
        for guard, carries, count in own.relays
    )


def _plugs(own: Buying) -> tuple[Lot, ...]:
    """Return plugs, each with both halves."""
    found = []
    for one in own.plugs:
        rated = "" if one.carries is None else f", {shown_current(one.carries.value)} a cavity"
        what = f"Plug of {one.cavities.value:g} cavities{rated}"
        found.append(Lot(what, 1, "", f"{one.name}: both halves, seals, blanks"))
    return tuple(found)


def _wrap(one: Bundling, unit: Unit) -> Lot:
    """Return the wrap or sleeve of one trunk."""
    if one.bundle is None:
        raise ValueError(f"one must have a bundle, got trunk {one.number}")
    thick = shown_with_unit(one.bundle.bare_mm, unit, "up")
    long = shown_with_unit(one.long_mm, unit, "up")
    thicker = f", thicker by {len(one.unknown)} more" if one.unknown else ""
    what = f"Tape or sleeve round {thick}{thicker}, {long} long"
    return Lot(what, 1, "", f"{one.trunk.start} to {one.trunk.end}: {len(one.wires)} wires")


def _cables(own: Buying, unit: Unit) -> tuple[Lot, ...]:
    """Return cables that come with their plugs."""
    return tuple(
        Lot(
            f"{one.name}, {shown_with_unit(one.long.value, unit)}",
            1,
            "",
            f"{one.start} to {one.end}",
        )
        for one in own.cables
    )
