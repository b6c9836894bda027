"""Every wire of a wiring: between which terminals, along which trunks, how long to cut it."""

from itertools import pairwise

from msgspec import Struct

from trimwright.build import Device, Feed, Fuse, Stop, WirePath, Wiring, by_name, stop
from trimwright.quantities import Quantity
from trimwright.wiring.loom.route import Route, routes_from

MM_PER_M = 1000.0


class End(Struct, frozen=True):
    """One end of a wire: a device's terminal, and the place it is at, if that is written."""

    device: str
    terminal: str
    place: str | None

    @property
    def node(self) -> str:
        """The terminal's name in the network."""
        return f"{self.device} {self.terminal}"


class Wire(Struct, frozen=True):
    """One wire to cut.

    Attributes
    ----------
    path : int
        Number of the current path it belongs to.
    name : str
        The path's name and the wire's number in it, from 1.
    start, end : End
        What it joins.
    route : Route or None
        The trunks it lies in; None where a place or a way is missing, which `missing` names.
    cut_mm : float or None
        What to cut: the way, slack for each metre, and a tail at both ends.
    size : Quantity or None
        Its copper as the builder wrote it [mm2].
    colour : str or None
        As written.
    missing : str
        What its length waits for.
    """

    path: int
    name: str
    start: End
    end: End
    route: Route | None
    cut_mm: float | None
    size: Quantity | None
    colour: str | None
    missing: str


class Link(Struct, frozen=True):
    """Two terminals of one box that are joined inside it, without a wire to cut."""

    start: End
    end: End


class Loom(Struct, frozen=True):
    """All wires, in the order of the paths, and the links inside boxes."""

    wires: tuple[Wire, ...]
    links: tuple[Link, ...]

    def through(self, trunk: int) -> tuple[Wire, ...]:
        """Return the wires that lie in a trunk."""
        return tuple(one for one in self.wires if one.route and trunk in one.route.trunks)


def loom(wiring: Wiring) -> Loom:
    """Return every wire of a wiring; a feed and a fuse at one place are joined by their box."""
    known = by_name(wiring)
    ways: dict[str, dict[str, Route]] = {}
    wires: list[Wire] = []
    links: list[Link] = []
    for number, path in enumerate(wiring.paths):
        stops = [stop(text, wiring) for text in path.goes]
        count = 0
        for before, after in pairwise(stops):
            start = _end(before, before.goes, known, wiring)
            end = _end(after, after.comes, known, wiring)
            start, end = _inner(start, known), _outer(end, known)
            if _boxed(start, end, known):
                links.append(Link(start, end))
                continue
            count += 1
            wires.append(_wire(wiring, (number, path, count), start, end, ways))
    return Loom(tuple(wires), tuple(links))


def _end(at: Stop, terminal: str, known: dict[str, Device], wiring: Wiring) -> End:
    """Return an end of a wire at a stop."""
    own = known.get(at.device) or getattr(wiring, at.device)
    return End(at.device, terminal, own.at)


def _inner(end: End, known: dict[str, Device]) -> End:
    """Return the end as it is left: of a feed, from its live side."""
    if isinstance(known.get(end.device), Feed):
        return End(end.device, "out", end.place)
    return end


def _outer(end: End, known: dict[str, Device]) -> End:
    """Return the end as it is come to: of a feed, at the side towards the battery."""
    if isinstance(known.get(end.device), Feed):
        return End(end.device, "in", end.place)
    return end


def _boxed(start: End, end: End, known: dict[str, Device]) -> bool:
    """Return whether a feed and a fuse sit in one box."""
    kinds = (type(known.get(start.device)), type(known.get(end.device)))
    joined = kinds == (Feed, Fuse) and end.terminal == "in"
    return joined and start.place is not None and start.place == end.place


def _wire(
    wiring: Wiring,
    told: tuple[int, WirePath, int],
    start: End,
    end: End,
    ways: dict[str, dict[str, Route]],
) -> Wire:
    """Return one wire with its way and length."""
    number, path, count = told
    route, missing = None, ""
    for one in (end, start):
        if one.place is None:
            missing = f"the place of {one.device}"
    if start.place is not None and end.place is not None:
        if start.place not in ways:
            ways[start.place] = routes_from(start.place, wiring)
        route = ways[start.place].get(end.place)
        missing = "" if route else f"a trunk from {start.place} to {end.place}"
    cut = None if route is None else cut_mm(route.long_mm, wiring)
    name = f"{path.name} {count}"
    return Wire(number, name, start, end, route, cut, path.size, path.colour, missing)


def cut_mm(way_mm: float, wiring: Wiring) -> float:
    """Return how long a wire is cut for a way [mm]: with its slack, and a tail at both ends."""
    return way_mm * (1 + wiring.slack.value / MM_PER_M) + 2 * wiring.tail.value
