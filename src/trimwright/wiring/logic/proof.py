"""A network held against demands: is there a settled state that meets them, and which is plainest."""

from collections.abc import Iterable, Iterator
from collections.abc import Set as AbstractSet

from msgspec import Struct

from trimwright.wiring.logic.bearing import Cone, cone, influence_of
from trimwright.wiring.logic.clauses import Clauses
from trimwright.wiring.logic.condition import Condition
from trimwright.wiring.logic.encoding import Encoding, given
from trimwright.wiring.logic.fault import Fault
from trimwright.wiring.logic.influence import Influence
from trimwright.wiring.logic.network import Network, State
from trimwright.wiring.logic.path import Path, paths
from trimwright.wiring.logic.search import Search
from trimwright.wiring.logic.standing import Board


class Example(Struct, frozen=True):
    """A settled state, the paths in it of what is asked about, and the fault in it if there is one.

    `unsettled` are relays and units that find no rest in this state; nothing that is asked about
    hangs on them.
    """

    state: State
    paths: tuple[Path, ...]
    unsettled: tuple[str, ...] = ()
    fault: Fault | None = None


class Prover:
    """A network's clauses and solver, kept from question to question."""

    def __init__(self, network: Network, faults: Iterable[Fault] = ()) -> None:
        """Put a network, and the faults that may be asked for, into clauses."""
        self.network, self._board = network, Board(network)
        clauses = Clauses()
        self._faults = {fault: clauses.new() for fault in faults}
        self._stands = given(clauses, network)
        self._encoding = Encoding(clauses, network, self._stands, self._faults)
        self._influences: dict[str | None, Influence] = {}
        self._cones: dict[tuple[str | None, tuple[Condition, ...]], Cone] = {}
        self._settled: dict[str, int] = {}
        facts = [(fact.name, fact.values) for fact in network.facts]
        plain = [
            *self._preferred(facts),
            *(-literal for literal in self._stands.relays.values()),
            *self._preferred((unit.name, unit.states) for unit in network.units),
        ]
        resting = [self._stands.values[name, values[0]] for name, values in facts]
        self._search = Search(clauses, resting, plain)

    def _preferred(self, choices: Iterable[tuple[str, tuple[str, ...]]]) -> list[int]:
        return [
            self._stands.values[name, value] for name, values in choices for value in values[:-1]
        ]

    def cone(self, fault: Fault | None, *conditions: Condition) -> Cone:
        """Return the cone of conditions, with the ground that a fault takes away."""
        lost = fault.of if fault and fault.kind == "ground lost" else None
        if lost not in self._influences:
            self._influences[lost] = influence_of(self.network, frozenset([lost] if lost else []))
        if (lost, conditions) not in self._cones:
            self._cones[lost, conditions] = cone(self._influences[lost], *conditions)
        return self._cones[lost, conditions]

    def bears(self, fault: Fault, condition: Condition) -> bool:
        """Say whether a fault lies where it may move a condition; a lost ground may anywhere."""
        near = self.cone(None, condition)
        named = near.relays if fault.kind == "coil open" else near.edges
        return fault.kind == "ground lost" or fault.of in named

    def possible(self, wanted: Condition, *about: Condition, fault: Fault | None = None) -> bool:
        """Say whether a condition holds in a state in which it and others have settled."""
        settled = self._at_rest(self.cone(fault, wanted, *about)).values()
        return self._search.possible(*self._asked(wanted, fault), *settled)

    def example(
        self, wanted: Condition, shown: Condition, fault: Fault | None = None
    ) -> Example | None:
        """Return the plainest settled state in which a condition holds; None if there is none."""
        asked = self._asked(wanted, fault)
        within = self._at_rest(self.cone(fault, wanted))
        if not self._search.possible(*asked, *within.values()):
            return None
        everywhere = self._at_rest(None)
        found = self._search.plainest(*asked, *everywhere.values())
        unsettled: tuple[str, ...] = ()
        if found is None:
            found, unsettled = self._partly_settled((*asked, *within.values()), everywhere)
        state = self._state(found)
        board = self._board.with_fault(fault)
        return Example(state, paths(board, board.standing(state), shown), unsettled, fault)

    def _asked(self, wanted: Condition, fault: Fault | None) -> tuple[int, ...]:
        faults = (one if its == fault else -one for its, one in self._faults.items())
        return (*faults, self._encoding.literal(wanted))

    def _at_rest(self, cone: Cone | None) -> dict[str, int]:
        """Return for each relay and unit of a cone, or of all, the literal that it has settled."""
        net, encoding = self.network, self._encoding
        relays = cone.relays if cone else [coil.relay for coil in net.coils]
        units = cone.units if cone else [unit.name for unit in net.units]
        told = self._settled
        told |= {relay: encoding.agrees(relay) for relay in relays if relay not in told}
        told |= {unit: encoding.settled(unit) for unit in units if unit not in told}
        return {name: told[name] for name in (*relays, *units)}

    def _partly_settled(
        self, demands: tuple[int, ...], everywhere: dict[str, int]
    ) -> tuple[AbstractSet[int], tuple[str, ...]]:
        """Return the plainest state in which what is asked about has settled, and who has not."""
        facts = {fact.name for fact in self.network.facts}
        plainest = self._search.plainest(*demands) or frozenset()
        values = self._stands.values.items()
        fixed = [*demands, *(one for (of, _), one in values if of in facts and one in plainest)]
        unsettled = []
        for name, literal in everywhere.items():
            if self._search.possible(*fixed, literal):
                fixed.append(literal)
            else:
                unsettled.append(name)
        return self._search.plainest(*fixed) or frozenset(), tuple(unsettled)

    def _state(self, found: AbstractSet[int]) -> State:
        def chosen(choices: Iterable[tuple[str, tuple[str, ...]]]) -> Iterator[tuple[str, str]]:
            for name, values in choices:
                yield name, next(v for v in values if self._stands.values[name, v] in found)

        net = self.network
        return State(
            tuple(chosen((fact.name, fact.values) for fact in net.facts)),
            tuple(relay for relay, literal in self._stands.relays.items() if literal in found),
            tuple(chosen((unit.name, unit.states) for unit in net.units)),
        )
