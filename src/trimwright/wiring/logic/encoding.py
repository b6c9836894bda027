"""A network as clauses: literals for its facts, relays and units, and for whatever follows."""

from collections.abc import Mapping
from typing import assert_never

from msgspec import Struct, field

from trimwright.wiring.logic.clauses import FALSE, Clauses, opposite
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
from trimwright.wiring.logic.fault import OPENS, Fault, Kind
from trimwright.wiring.logic.network import Coil, Edge, Load, Network, edges, worked_by
from trimwright.wiring.logic.reach import reached


class Given(Struct, frozen=True):
    """Literals for where everything stands: facts and units by value, and relays."""

    values: dict[tuple[str, str], int]
    relays: dict[str, int]


def given(clauses: Clauses, network: Network) -> Given:
    """Return literals of their own for a network's facts, units and relays."""
    values: dict[tuple[str, str], int] = {}
    for name, choices in [
        *((fact.name, fact.values) for fact in network.facts),
        *((unit.name, unit.states) for unit in network.units),
    ]:
        literals = clauses.choice(len(choices))
        values.update(zip(((name, choice) for choice in choices), literals, strict=True))
    found = Given(values, {coil.relay: clauses.new() for coil in network.coils})
    for said in network.constraints:
        clauses.say(evaluated(said, algebra(clauses, found)))
    return found


def algebra(clauses: Clauses, stands: Given) -> Algebra[int]:
    """Return how conditions on facts, units and relays become literals."""

    def literal(atom: Atom) -> int:
        if isinstance(atom, Is):
            return stands.values[atom.of, atom.value]
        if isinstance(atom, Pulled):
            return stands.relays[atom.relay]
        raise ValueError(f"only facts, units and relays may work a contact, got {atom}")

    return Algebra(literal, opposite, clauses.every, clauses.some)


class Encoding(Struct, dict=True):
    """What follows in a network from where everything stands, and from faults, as literals.

    `faults` gives each fault that may be there its literal; the others never are.
    """

    clauses: Clauses
    network: Network
    stands: Given
    faults: Mapping[Fault, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Put the reach of every feed and ground together."""
        net, told = self.network, algebra(self.clauses, self.stands)
        every_edge = edges(net)
        self._closed = {edge.name: self._edge_closed(edge, told) for edge in every_edge}
        self._alive = {feed.name: evaluated(feed.when, told) for feed in net.feeds}
        at: dict[str, list[int]] = {}
        for feed in net.feeds:
            at.setdefault(feed.node, []).append(self._alive[feed.name])
        feeds = {node: self.clauses.some(literals) for node, literals in at.items()}
        grounds = {node: -self._fault("ground lost", node) for node in net.grounds}
        ends, closed = [(edge.a, edge.b) for edge in every_edge], [*self._closed.values()]
        live = reached(self.clauses, ends, closed, feeds, grounds)
        self._met = reached(self.clauses, ends, closed, grounds, feeds)
        self._live = self._but_for(live, grounds)
        self._grounded = self._but_for(self._met, feeds)
        self._ends: dict[str, Coil | Load] = {load.name: load for load in net.loads}

    def _but_for(self, joined: dict[str, int], others: dict[str, int]) -> dict[str, int]:
        every = self.clauses.every
        return {node: every([one, -others.get(node, FALSE)]) for node, one in joined.items()}

    def _fault(self, kind: Kind, of: str) -> int:
        return self.faults.get(Fault(kind, of), FALSE)

    def _edge_closed(self, edge: Edge, told: Algebra[int]) -> int:
        clauses = self.clauses
        closed = evaluated(worked_by(edge), told)
        opened = clauses.some(self._fault(kind, edge.name) for kind in OPENS)
        welded = self._fault("contact welded", edge.name)
        return clauses.every([clauses.some([closed, welded]), -opened])

    def between(self, one: Coil | Load) -> int:
        """Return the literal that is true where a coil or load is fed, either way round."""
        live, grounded, both = self._live, self._grounded, self.clauses.every
        missing = FALSE  # a node that nothing else ends at
        ways = ((one.a, one.b), (one.b, one.a))
        return self.clauses.some(
            both([live.get(plus, missing), grounded.get(minus, missing)]) for plus, minus in ways
        )

    def agrees(self, relay: str) -> int:
        """Return the literal that is true where a relay stands as its coil has it."""
        coil = next(coil for coil in self.network.coils if coil.relay == relay)
        whole = -self._fault("coil open", relay)
        fed = self.clauses.every([self.between(coil), whole])
        return self.clauses.same(self.stands.relays[relay], fed)

    def settled(self, name: str) -> int:
        """Return the literal that is true where a unit has no move to make at once."""
        unit = next(unit for unit in self.network.units if unit.name == name)
        moves = (
            self.clauses.every([self.stands.values[name, move.state], self.literal(move.when)])
            for move in unit.moves
            if not move.waits and move.to != move.state
        )
        return -self.clauses.some(moves)

    def literal(self, condition: Condition) -> int:
        """Return the literal that is true where a condition holds."""
        clauses = self.clauses
        return evaluated(condition, Algebra(self._atom, opposite, clauses.every, clauses.some))

    def _atom(self, atom: Atom) -> int:  # noqa: PLR0911  one line an atom
        match atom:
            case Is():
                return self.stands.values[atom.of, atom.value]
            case Pulled():
                return self.stands.relays[atom.relay]
            case Live():
                return self._live.get(atom.node, FALSE)
            case Grounded():
                return self._grounded.get(atom.node, FALSE)
            case Fed():
                return self.between(self._ends[atom.load])
            case Closed():
                return self._closed[atom.contact]
            case Shorted():
                node = next(feed.node for feed in self.network.feeds if feed.name == atom.feed)
                return self.clauses.every([self._alive[atom.feed], self._met.get(node, FALSE)])
            case _:
                assert_never(atom)
