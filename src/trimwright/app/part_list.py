"""The parts of a wiring as messages: each with where its fields are, and the wires of each path."""

from collections.abc import Iterator

from msgspec import Struct

from trimwright.app.message import Step
from trimwright.app.part_message import LaidWire, PartSort, WirePartMessage, WirePartsMessage
from trimwright.build import Entry, Load, Wiring, WiringRule
from trimwright.cabin import Cabin
from trimwright.drawing import Page, named
from trimwright.papers import cut_words, short_end, size_words, trunk_figures
from trimwright.quantities import shown_with_unit
from trimwright.wiring import bundlings, made_of, unwired

LISTS: tuple[tuple[str, str, PartSort], ...] = (
    ("feeds", "feeds", "feed"),
    ("fuses", "fuses", "fuse"),
    ("switches", "switches", "switch"),
    ("relays", "relays", "relay"),
    ("units", "units", "unit"),
    ("plugs", "plugs", "plug"),
    ("splices", "splices", "splice"),
    ("loads", "loads", "load"),
    ("grounds", "grounds", "ground"),
    ("paths", "paths", "path"),
    ("places", "places", "place"),
    ("trunks", "trunks", "trunk"),
    ("bought_cables", "bought cables", "cable"),
    ("signals", "signals", "signal"),
    ("rules", "rules", "rule"),
)  # of the wiring: its field, its key in the file, what one of it is called


def parts(cabin: Cabin, version: str) -> WirePartsMessage:
    """Return every part of a build's wiring; none where nothing is wired."""
    wiring = cabin.build.wiring
    told = () if wiring is None else tuple(_all(cabin, wiring))
    return WirePartsMessage(version=version, parts=told)


def drawn_on(page: Page) -> tuple[str, ...]:
    """Return the names of the groups of a page, each once."""
    return tuple(dict.fromkeys(name for name, _ in named(page.drawing.elements) if name))


def _all(cabin: Cabin, wiring: Wiring) -> Iterator[WirePartMessage]:
    """Yield the sources, then the entries of each list."""
    waiting, laid = set(unwired(wiring)), _laid(cabin)
    for source in ("battery", "alternator"):
        own = getattr(wiring, source)
        if own is not None:
            yield _part("source", own, ("wiring", source), _Laid(), name=source)
    for field, key, sort in LISTS:
        for number, one in enumerate(getattr(wiring, field)):
            here = laid.get((sort, number), _Laid())
            waits = isinstance(one, Load) and one in waiting
            name = cabin.wiring.proofs[number].rule.name if sort == "rule" and cabin.wiring else ""
            yield _part(sort, one, ("wiring", key, number), here, name=name, waits=waits)


class _Laid(Struct, frozen=True):
    """What is computed of a path or a trunk, in words, and its wires."""

    facts: tuple[str, ...] = ()
    wires: tuple[LaidWire, ...] = ()


def _part(
    sort: PartSort,
    one: Entry,
    path: tuple[Step, ...],
    laid: _Laid,
    *,
    name: str = "",
    waits: bool = False,
) -> WirePartMessage:
    """Return one part; what has no name of its own is called by what it joins or forbids."""
    own = name or getattr(one, "name", "") or _called(one)
    place = getattr(one, "at", None)
    says = place if isinstance(place, str) else ""
    return WirePartMessage(
        sort=sort, name=own, path=path, says=says, facts=laid.facts, wires=laid.wires, waits=waits
    )


def _called(one: Entry) -> str:
    """Return what an entry without a name is called."""
    if isinstance(one, WiringRule):
        return f"never {one.never}" if one.never else f"always {one.always}"
    told = one.__dict__
    return f"{told['start']} to {told['end']}"


def _laid(cabin: Cabin) -> dict[tuple[PartSort, int], _Laid]:
    """Return what is computed of each path and of each trunk, by its number."""
    found, unit = cabin.wiring, cabin.build.unit
    if found is None:
        return {}
    made = made_of(found)
    wires = {
        one.name: LaidWire(
            name=one.name,
            joins=f"{short_end(one.start)} to {short_end(one.end)}",
            long=cut_words(one, unit),
            size=size_words(made[one.name]),
        )
        for one in found.loom.wires
    }
    told: dict[tuple[PartSort, int], _Laid] = {}
    for number in range(len(found.wiring.paths)):
        mine = tuple(wires[one.name] for one in found.loom.wires if one.path == number)
        told["path", number] = _Laid(wires=mine)
    for number in range(len(found.wiring.trunks)):
        told["trunk", number] = _Laid(("No wire lies in it.",))
    for own in bundlings(found):
        mine = tuple(wires[one.name] for one in (*own.wires, *own.unknown))
        long = f"{shown_with_unit(own.long_mm, unit)} long"
        told["trunk", own.number] = _Laid((long, *trunk_figures(own, unit)[1:]), mine)
    return told
