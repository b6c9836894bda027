"""Why a consumer never works: which of its sides nothing leads to, whatever contact is closed."""

from functools import lru_cache
from typing import Literal

from msgspec import Struct

from trimwright.build import Wiring, by_name
from trimwright.findings import Edit
from trimwright.quantities import Unit
from trimwright.wiring.draft import Draft
from trimwright.wiring.logic import Board, Coil, Load, Network
from trimwright.wiring.outcome import KEPT, WiringOutcome, connections
from trimwright.wiring.proposal import nearest_ground

Side = Literal["feed", "ground"]


class Dead(Struct, frozen=True):
    """A consumer that never works.

    Attributes
    ----------
    name : str
        As in the build.
    lacks : tuple of str
        'feed', 'ground': what no wires and contacts lead to, were all of them closed. Empty where
        both are led to, but never at once.
    end : str
        The terminal that a ground is lacking at; '' where none is.
    through : tuple of str
        The other consumers that lie between it and what it lacks.
    """

    name: str
    lacks: tuple[Side, ...]
    end: str
    through: tuple[str, ...]


class Joined:
    """What is joined to what with every wire whole and every contact closed."""

    def __init__(self, network: Network) -> None:
        """Lay out a network."""
        self._board = Board(network)
        self._feeds = {feed.node for feed in network.feeds}
        self._grounds = set(network.grounds)
        self._ends: tuple[Coil | Load, ...] = (*network.loads, *network.coils)

    def of(self, *starts: str) -> set[str]:
        """Return the nodes that some are joined to; feeds and grounds pass nothing on."""
        found, waiting = set(starts), list(starts)
        while waiting:
            node = waiting.pop()
            if node in self._feeds or node in self._grounds:
                continue
            for _, other in self._board.neighbours(node):
                if other not in found:
                    found.add(other)
                    waiting.append(other)
        return found

    def reaches(self, node: str, side: Side) -> bool:
        """Return whether a node is joined to a feed, or to a ground."""
        return bool(self.of(node) & (self._feeds if side == "feed" else self._grounds))

    def consumer(self, name: str) -> tuple[str, str]:
        """Return the two nodes of a consumer."""
        return next((one.a, one.b) for one in self._ends if _name(one) == name)

    def through(self, node: str, side: Side, but: str) -> tuple[str, ...]:
        """Return the consumers next to a node that lead on to a feed or ground, first the nearest."""
        here = self.of(node)
        return tuple(
            _name(one)
            for one in self._ends
            if _name(one) != but
            for near, far in ((one.a, one.b), (one.b, one.a))
            if near in here and far not in here and self._leads(far, side, {but, _name(one)})
        )

    def _leads(self, node: str, side: Side, passed: set[str]) -> bool:
        """Return whether a node leads to a feed or ground, through more consumers if need be."""
        if self.reaches(node, side):
            return True
        here = self.of(node)
        return any(
            self._leads(far, side, {*passed, _name(one)})
            for one in self._ends
            if _name(one) not in passed
            for near, far in ((one.a, one.b), (one.b, one.a))
            if near in here and far not in here
        )


def _name(one: Coil | Load) -> str:
    return one.relay if isinstance(one, Coil) else one.name


@lru_cache(maxsize=KEPT)
def _joined(network: Network) -> Joined:
    return Joined(network)


def dead(found: WiringOutcome) -> tuple[Dead, ...]:
    """Return why each consumer that some path leads to never works, in the order of the file."""
    led_to = {end.device for wire in found.loom.wires for end in (wire.start, wire.end)}
    led_to |= {end.device for link in found.loom.links for end in (link.start, link.end)}
    joined = _joined(found.network)
    return tuple(_dead(joined, one.name) for one in found.idle if one.name in led_to)


def _dead(joined: Joined, name: str) -> Dead:
    """Return why one consumer never works: the way round that lacks least."""
    a, b = joined.consumer(name)
    ways = []
    for plus, minus in ((a, b), (b, a)):
        lacks: list[Side] = [] if joined.reaches(plus, "feed") else ["feed"]
        lacks += [] if joined.reaches(minus, "ground") else ["ground"]
        ways.append((len(lacks), lacks, plus, minus))
    _, lacks, plus, minus = min(ways, key=lambda way: way[0])
    through = tuple(
        dict.fromkeys(
            one
            for side in lacks
            for one in joined.through(plus if side == "feed" else minus, side, name)
        )
    )
    return Dead(name, tuple(lacks), minus if "ground" in lacks else "", through)


def with_ground(wiring: Wiring, one: Dead, unit: Unit) -> tuple[str, tuple[Edit, ...]] | None:
    """Return the ground point and the edits that ground a consumer, if it then works.

    None where it lacks a feed too, or another consumer lies between.
    """
    if one.lacks != ("ground",) or one.through:
        return None
    draft, own = Draft(wiring, unit), by_name(wiring)[one.name]
    stud = nearest_ground(draft, own.at)
    goes = (one.end, stud)
    draft.add("paths", {"name": draft.path_name(f"{one.name} ground"), "goes": goes})
    _, _, used = connections(draft.wiring)
    works = any(use.consumer.name == one.name for use in used)
    return (stud, tuple(draft.edits)) if works else None
