"""One state looked at: what is closed, what is live, what is grounded, what holds."""

from collections.abc import Iterator
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from typing import assert_never

from trimwright.wiring.logic.condition import (
    Algebra,
    Atom,
    Closed,
    Condition,
    Fed,
    Grounded,
    Is,
    Live,
    Pulled,
    Shorted,
    evaluated,
)
from trimwright.wiring.logic.fault import OPENS, Fault
from trimwright.wiring.logic.network import (
    Coil,
    Edge,
    Load,
    Move,
    Network,
    State,
    Unit,
    edges,
    worked_by,
)


@dataclass(frozen=True, slots=True)
class Standing:
    """A state with what follows from it.

    Edges closed; feeds alive, and of them those joined to ground; nodes live and grounded. A node
    that is a feed is not grounded, nor is a ground live, whatever is joined to it.
    """

    state: State
    values: dict[str, str]
    closed: AbstractSet[str]
    alive: AbstractSet[str]
    shorted: AbstractSet[str]
    live: AbstractSet[str]
    grounded: AbstractSet[str]


class Board:
    """A network laid out for looking at one state after another, with a fault or none."""

    def __init__(self, network: Network, fault: Fault | None = None) -> None:
        """Lay out a network."""
        self.network = network
        self.fault = fault
        self.edges = edges(network)
        self.coils = {coil.relay: coil for coil in network.coils}
        self._ends: dict[str, Coil | Load] = {load.name: load for load in network.loads}
        lost = {fault.of} if fault and fault.kind == "ground lost" else set()
        self.grounds = frozenset(network.grounds) - lost
        self._feeds = {feed.name: feed for feed in network.feeds}
        self._at: dict[str, list[Edge]] = {}
        for edge in self.edges:
            self._at.setdefault(edge.a, []).append(edge)
            self._at.setdefault(edge.b, []).append(edge)

    def standing(self, state: State) -> Standing:
        """Return what follows from a state."""
        values = dict((*state.facts, *state.units))
        pulled = set(state.pulled)

        def said(atom: Atom) -> bool:
            if isinstance(atom, Is):
                return values[atom.of] == atom.value
            return isinstance(atom, Pulled) and atom.relay in pulled

        told = Algebra(said, _no, all, any)
        closed = {edge.name for edge in self.edges if self._closed(edge, told)}
        alive = {feed.name for feed in self.network.feeds if evaluated(feed.when, told)}
        feeds = {self._feeds[name].node for name in alive}
        live = self._reached(feeds, closed, self.grounds)
        grounded = self._reached(self.grounds, closed, feeds)
        shorted = {name for name in alive if self._feeds[name].node in grounded}
        return Standing(
            state, values, closed, alive, shorted, live - self.grounds, grounded - feeds
        )

    def _closed(self, edge: Edge, told: Algebra[bool]) -> bool:
        if self.fault and self.fault.of == edge.name:
            if self.fault.kind == "contact welded":
                return True
            if self.fault.kind in OPENS:
                return False
        return evaluated(worked_by(edge), told)

    def neighbours(self, node: str) -> Iterator[tuple[Edge, str]]:
        """Yield each edge at a node, closed or not, with the node it leads to."""
        for edge in self._at.get(node, ()):
            yield edge, edge.b if edge.a == node else edge.a

    def _reached(
        self, sources: AbstractSet[str], closed: AbstractSet[str], ending: AbstractSet[str]
    ) -> AbstractSet[str]:
        """Return the nodes that are joined to a source: from the sources outwards, no others."""
        reached = set(sources)
        waiting = list(reached - ending)
        while waiting:
            node = waiting.pop()
            for edge, other in self.neighbours(node):
                if other not in reached and edge.name in closed:
                    reached.add(other)
                    waiting += [other] if other not in ending else []
        return reached

    def between(self, one: Coil | Load, seen: Standing) -> bool:
        """Say whether a coil or load has a live side and a grounded other side."""
        return (one.a in seen.live and one.b in seen.grounded) or (
            one.b in seen.live and one.a in seen.grounded
        )

    def energised(self, relay: str, seen: Standing) -> bool:
        """Say whether the coil of a relay is fed, and whole."""
        if self.fault == Fault("coil open", relay):
            return False
        return self.between(self.coils[relay], seen)

    def holds(self, condition: Condition, seen: Standing) -> bool:
        """Say whether a condition holds in a state."""
        return evaluated(condition, Algebra(lambda atom: self._says(atom, seen), _no, all, any))

    def _says(self, atom: Atom, seen: Standing) -> bool:  # noqa: PLR0911  one line an atom
        match atom:
            case Is():
                return seen.values[atom.of] == atom.value
            case Pulled():
                return atom.relay in seen.state.pulled
            case Live():
                return atom.node in seen.live
            case Grounded():
                return atom.node in seen.grounded
            case Fed():
                return self.between(self._ends[atom.load], seen)
            case Closed():
                return atom.contact in seen.closed
            case Shorted():
                return atom.feed in seen.shorted
            case _:
                assert_never(atom)

    def open_moves(self, unit: Unit, seen: Standing) -> tuple[Move, ...]:
        """Return the moves that a unit may make in a state."""
        stands = seen.values[unit.name]
        return tuple(
            move
            for move in unit.moves
            if move.state == stands and move.to != stands and self.holds(move.when, seen)
        )


def _no(value: bool) -> bool:  # noqa: FBT001  a truth is what is turned round
    return not value
