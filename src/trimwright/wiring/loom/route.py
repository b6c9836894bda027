"""Ways for wires: the shortest along trunks from place to place."""

from heapq import heappop, heappush
from math import dist

from msgspec import Struct

from trimwright.build import Trunk, Wiring, WiringPlace
from trimwright.wiring.loom.free import free_mm


class Route(Struct, frozen=True):
    """A way between two places: the trunks it takes, by number, and its length [mm]."""

    trunks: tuple[int, ...]
    long_mm: float


def trunk_mm(trunk: Trunk, wiring: Wiring) -> float:
    """Return the length of a trunk [mm]: as written, else straight between its places.

    Of one across a hinge what is free between the holes is added.

    Raises
    ------
    ValueError
        If neither is known.
    """
    if trunk.long is not None:
        return trunk.long.value + (0.0 if trunk.hinge is None else free_mm(trunk.hinge))
    straight = straight_mm(trunk, wiring)
    if straight is None:
        raise ValueError(f"trunk must say its length or join two places, got {trunk.start!r}")
    return straight


def straight_mm(trunk: Trunk, wiring: Wiring) -> float | None:
    """Return how far apart a trunk's places are [mm]; None where one is not written in full."""
    spots = {one.name: spot(one) for one in wiring.places}
    start, end = spots.get(trunk.start), spots.get(trunk.end)
    return None if start is None or end is None else dist(start, end)


def spot(place: WiringPlace) -> tuple[float, float, float] | None:
    """Return where a place is, in car axes [mm]; None where that is not written."""
    if place.at is None or place.off_middle is None or place.up is None:
        return None
    return place.at.value, place.off_middle.value, place.up.value


def routes_from(start: str, wiring: Wiring) -> dict[str, Route]:
    """Return the shortest way from a place to every place that can be reached.

    Of two ways of one length the one with fewer trunks is taken, then the one written first.

    Parameters
    ----------
    start : str
        A place's name.
    wiring : Wiring
        Whose trunks may be taken, either way.

    Examples
    --------
    >>> from trimwright.quantities import Quantity
    >>> trunks = (Trunk(start="dash", end="tunnel", long=Quantity(400.0)),)
    >>> routes_from("tunnel", Wiring(trunks=trunks))["dash"]
    Route(trunks=(0,), long_mm=400.0)
    """
    beside: dict[str, list[tuple[int, str, float]]] = {}
    for number, trunk in enumerate(wiring.trunks):
        long_mm = trunk_mm(trunk, wiring)
        beside.setdefault(trunk.start, []).append((number, trunk.end, long_mm))
        beside.setdefault(trunk.end, []).append((number, trunk.start, long_mm))
    found: dict[str, Route] = {}
    waiting: list[tuple[float, int, tuple[int, ...], str]] = [(0.0, 0, (), start)]
    while waiting:
        long_mm, count, taken, here = heappop(waiting)
        if here in found:
            continue
        found[here] = Route(taken, long_mm)
        for number, there, more in beside.get(here, ()):
            if there not in found:
                heappush(waiting, (long_mm + more, count + 1, (*taken, number), there))
    return found
