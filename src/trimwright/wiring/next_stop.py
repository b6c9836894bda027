"""What a current path may go through next: every device with the terminals a wire can meet there."""

from collections.abc import Iterator
from typing import Literal

from msgspec import Struct

from trimwright.build import (
    SOURCES,
    ControlUnit,
    Device,
    Feed,
    Fuse,
    Ground,
    Load,
    Plug,
    Relay,
    Splice,
    Stop,
    Switch,
    Wiring,
    devices,
    stop,
    terminals,
)

Sort = Literal[
    "source", "feed", "fuse", "switch", "relay", "unit", "plug", "splice", "load", "ground"
]
SORT: dict[type[Device], Sort] = {
    Feed: "feed",
    Ground: "ground",
    Fuse: "fuse",
    Switch: "switch",
    Relay: "relay",
    ControlUnit: "unit",
    Plug: "plug",
    Splice: "splice",
    Load: "load",
}
RELAY = {
    "30-87": "through its contact, closed while it is pulled in",
    "30-87a": "through its contact, closed at rest",
    "86-85": "through its coil",
    "87-30": "through its contact the other way",
    "87a-30": "through its contact at rest, the other way",
    "85-86": "through its coil the other way",
    "30": "the contact's middle",
    "87": "closed while it is pulled in",
    "87a": "closed at rest",
    "85": "the coil",
    "86": "the coil",
}  # terminals after DIN 72552
CHANGEOVER = {
    "in-worked": "through it while it is worked",
    "in-rest": "through it at rest",
    "worked-in": "through it while it is worked, the other way",
    "rest-in": "through it at rest, the other way",
}
CAVITY = "through this cavity"
NEGATIVE = ("-", "B-")
COIL = ("85", "86")
_USUAL: tuple[Sort, ...] = (
    "feed", "source", "fuse", "switch", "relay", "load", "plug", "splice", "unit", "ground",
)  # fmt: skip
_AFTER: dict[Sort, tuple[Sort, ...]] = {
    "source": ("fuse", "feed", "ground"),
    "feed": ("fuse", "feed", "switch", "relay"),
    "fuse": ("switch", "relay", "load", "plug", "unit", "splice"),
    "switch": ("load", "relay", "plug", "unit", "splice", "ground"),
    "relay": ("load", "plug", "splice", "switch", "ground"),
    "unit": ("relay", "load", "switch", "ground"),
    "load": ("ground", "plug", "switch", "splice", "source"),
}  # how circuits are usually drawn; common practice, no source
_BEHIND_COIL: tuple[Sort, ...] = ("ground", "plug", "switch", "splice")


class Way(Struct, frozen=True):
    """One way to meet a device.

    Attributes
    ----------
    text : str
        As a path has it.
    says : str
        What that is, in a few words.
    by : tuple of str
        The paths that meet the same terminals already.
    """

    text: str
    says: str
    by: tuple[str, ...]


class NextStop(Struct, frozen=True):
    """A device that a path may go on to, and the ways to meet it, the usual one first."""

    device: str
    sort: Sort
    ways: tuple[Way, ...]


def next_stops(wiring: Wiring, goes: tuple[str, ...] = ()) -> tuple[NextStop, ...]:
    """Return what may follow some stops, what usually does first; nothing behind a ground.

    Parameters
    ----------
    wiring : Wiring
        Whose devices may be met.
    goes : tuple of str
        The stops so far, each one that `stop` understands.

    Raises
    ------
    NoStopError
        If one of them is none.
    """
    so_far = tuple(stop(text, wiring) for text in goes)
    last = so_far[-1] if so_far else None
    if last is not None and len(so_far) > 1 and _ends(last, wiring):
        return ()
    met: dict[tuple[str, str], list[str]] = {}
    for path in wiring.paths:
        for one in (stop(text, wiring) for text in path.goes):
            for terminal in {one.comes, one.goes}:
                met.setdefault((one.device, terminal), []).append(path.name)
    found = (
        NextStop(name, sort, ways)
        for name, sort, told in _all(wiring)
        if (ways := tuple(_ways(wiring, told, so_far, met)))
    )
    order = _order(last, wiring)
    return tuple(
        sorted(found, key=lambda one: (order.index(one.sort), all(way.by for way in one.ways)))
    )


def _order(last: Stop | None, wiring: Wiring) -> tuple[Sort, ...]:
    """Return the sorts of devices, what usually follows a stop first."""
    first = () if last is None else _AFTER.get(_sort(last, wiring), ())
    if last is not None and last.goes in COIL:
        first = _BEHIND_COIL
    return tuple(dict.fromkeys((*first, *_USUAL)))


def _sort(at: Stop, wiring: Wiring) -> Sort:
    """Return what a stop is at."""
    return next((SORT[type(one)] for one in devices(wiring) if one.name == at.device), "source")


def _ends(last: Stop, wiring: Wiring) -> bool:
    """Return whether a path that comes to a stop ends there."""
    sort = _sort(last, wiring)
    return sort == "ground" or (sort == "source" and last.goes in NEGATIVE)


def _all(wiring: Wiring) -> Iterator[tuple[str, Sort, dict[str, str]]]:
    """Yield every device: its name, its sort, and what each way to meet it is."""
    for source, posts in SOURCES.items():
        if getattr(wiring, source):
            yield source, "source", {f"{source} {post}": "its post" for post in posts}
    for one in devices(wiring):
        told = {f"{one.name} {terms}".strip(): says for terms, says in _told(one).items()}
        yield one.name, SORT[type(one)], told


def _told(one: Device) -> dict[str, str]:
    """Return the ways to meet a device by their terminals, the usual one first."""
    single = dict.fromkeys(terminals(one), "this terminal alone")
    match one:
        case Relay():
            told = RELAY
        case Plug():
            told = dict.fromkeys(single, CAVITY)
        case ControlUnit() | Switch(contacts="reversing"):
            told = single
        case Switch(contacts="changeover"):
            told = {**CHANGEOVER, **single}
        case Load(kind="motor"):
            told = {"a-b": "through it", "b-a": "through it the other way", **single}
        case Ground() | Splice() | Feed():
            told = {"": ""}
        case _:
            told = {"": "through it", **single}
    return told


def _ways(
    wiring: Wiring,
    told: dict[str, str],
    so_far: tuple[Stop, ...],
    met: dict[tuple[str, str], list[str]],
) -> Iterator[Way]:
    """Yield the ways to meet a device that the path does not take yet, the free ones first."""
    last = so_far[-1] if so_far else None
    found = []
    for text, says in told.items():
        at = stop(text, wiring)
        here = last is not None and (last.device, last.goes) == (at.device, at.comes)
        if at in so_far or here:
            continue
        by = [*met.get((at.device, at.comes), ()), *met.get((at.device, at.goes), ())]
        found.append(Way(text, says, tuple(dict.fromkeys(by))))
    alike = {way.says for way in found} == {CAVITY}
    yield from sorted(found, key=lambda way: bool(way.by)) if alike else found
