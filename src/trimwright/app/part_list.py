"""The parts of a wiring as messages: each with where its fields are, and the wires of each path."""

from collections.abc import Iterator

from trimwright.app.message import Step
from trimwright.app.part_message import PartSort, WireOfPath, WirePartMessage, WirePartsMessage
from trimwright.build import Entry, Load, WirePath, Wiring, WiringRule
from trimwright.cabin import Cabin
from trimwright.papers import cut_words, short_end, size_words
from trimwright.wiring import made_of, unwired

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
    return WirePartsMessage(
        version=version, parts=() if wiring is None else tuple(_all(cabin, wiring))
    )


def _all(cabin: Cabin, wiring: Wiring) -> Iterator[WirePartMessage]:
    """Yield the sources, then the entries of each list."""
    waiting, wires = set(unwired(wiring)), _wires(cabin)
    for source in ("battery", "alternator"):
        own = getattr(wiring, source)
        if own is not None:
            yield _part("source", own, ("wiring", source), name=source)
    for field, key, sort in LISTS:
        for number, one in enumerate(getattr(wiring, field)):
            yield _part(
                sort,
                one,
                ("wiring", key, number),
                wires=wires.get(number, ()) if isinstance(one, WirePath) else (),
                waits=isinstance(one, Load) and one in waiting,
            )


def _part(
    sort: PartSort,
    one: Entry,
    path: tuple[Step, ...],
    *,
    name: str = "",
    wires: tuple[WireOfPath, ...] = (),
    waits: bool = False,
) -> WirePartMessage:
    """Return one part; what has no name of its own is called by what it joins or forbids."""
    own = name or getattr(one, "name", "") or _called(one)
    place = getattr(one, "at", None)
    says = place if isinstance(place, str) else ""
    return WirePartMessage(sort=sort, name=own, path=path, says=says, wires=wires, waits=waits)


def _called(one: Entry) -> str:
    """Return what an entry without a name is called."""
    if isinstance(one, WiringRule):
        return f"never {one.never}" if one.never else f"always {one.always}"
    told = one.__dict__
    return f"{told['start']} to {told['end']}"


def _wires(cabin: Cabin) -> dict[int, tuple[WireOfPath, ...]]:
    """Return the wires of each path, by its number."""
    found, told = cabin.wiring, dict[int, list[WireOfPath]]()
    if found is None:
        return {}
    made = made_of(found)
    for one in found.loom.wires:
        told.setdefault(one.path, []).append(
            WireOfPath(
                name=one.name,
                joins=f"{short_end(one.start)} to {short_end(one.end)}",
                long=cut_words(one, cabin.build.unit),
                size=size_words(made[one.name]),
            )
        )
    return {number: tuple(some) for number, some in told.items()}
