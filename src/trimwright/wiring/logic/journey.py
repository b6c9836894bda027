"""What may happen next: a fact changes, or a unit that waits goes on."""

from collections.abc import Iterator, Mapping
from collections.abc import Set as AbstractSet
from itertools import combinations

from msgspec import Struct
from msgspec.structs import replace

from trimwright.wiring.logic.bearing import Cone
from trimwright.wiring.logic.condition import Algebra, Atom, Condition, Is, Or, atoms, evaluated
from trimwright.wiring.logic.movement import Settling, UnitMove, moved, settling
from trimwright.wiring.logic.network import Network, State
from trimwright.wiring.logic.standing import Board, Standing


class FactChange(Struct, frozen=True):
    """A fact takes a value, with the one that must change with it if a constraint ties them."""

    facts: tuple[tuple[str, str], ...]


class Journey:
    """A network on its way: only the facts, relays and units of a cone move, the others rest.

    Facts that a constraint ties to a fact of the cone move too.
    """

    def __init__(self, board: Board, cone: Cone) -> None:
        """Lay out a network for what may happen in a cone."""
        self.network, self.board = board.network, board
        self._movers = frozenset((*cone.relays, *cone.units))
        tied = _tied(board.network, set(cone.facts))
        self._facts = [fact for fact in board.network.facts if fact.name in tied]

    def settling(self, state: State) -> Settling:
        """Return where a state comes to rest."""
        return settling(self.board, state, self._movers)

    def steps(self, seen: Standing) -> Iterator[tuple[FactChange | UnitMove, State]]:
        """Yield what may happen to a state at rest, and the state just after it."""
        state = seen.state
        for unit in self.network.units:
            if unit.name in self._movers:
                for move in self.board.open_moves(unit, seen):
                    if move.waits:
                        yield UnitMove(unit.name, move.to), moved(state, unit.name, move.to)
        for change in self._changes(dict(state.facts)):
            now = dict(change.facts)
            facts = tuple((name, now.get(name, value)) for name, value in state.facts)
            yield FactChange(change.facts), replace(state, facts=facts)

    def _changes(self, values: dict[str, str]) -> Iterator[FactChange]:
        """Yield each change of one fact, and of two where either alone breaks a constraint."""
        single = [
            (fact.name, value)
            for fact in self._facts
            for value in fact.values
            if value != values[fact.name]
        ]
        alone = {change for change in single if lawful(self.network, {**values, **dict([change])})}
        yield from (FactChange((change,)) for change in single if change in alone)
        for pair in combinations([change for change in single if change not in alone], 2):
            if pair[0][0] != pair[1][0] and lawful(self.network, {**values, **dict(pair)}):
                yield FactChange(pair)


def lawful(network: Network, values: Mapping[str, str]) -> bool:
    """Say whether facts keep every constraint of a network."""

    def said(atom: Atom) -> bool:
        return isinstance(atom, Is) and values[atom.of] == atom.value

    told = Algebra(said, lambda value: not value, all, any)
    return all(evaluated(constraint, told) for constraint in network.constraints)


def _tied(network: Network, names: AbstractSet[str]) -> AbstractSet[str]:
    """Return facts with all that constraints tie to them."""
    ties = [_named(constraint) for constraint in network.constraints]
    while True:
        more = {name for tie in ties if tie & names for name in tie} - names
        if not more:
            return names
        names = names | more


def _named(*conditions: Condition) -> set[str]:
    return {atom.of for atom in atoms(Or(conditions)) if isinstance(atom, Is)}
