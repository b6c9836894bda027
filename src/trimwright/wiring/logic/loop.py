"""Loops of relays: what latches, what chatters, what hangs on who is quicker."""

from collections.abc import Iterable
from collections.abc import Set as AbstractSet
from typing import Literal

from msgspec import Struct

from trimwright.wiring.logic.bearing import Cone, cone, influence_of, loops
from trimwright.wiring.logic.clauses import Clauses
from trimwright.wiring.logic.condition import Is, Or, Pulled
from trimwright.wiring.logic.encoding import Encoding, Given, given
from trimwright.wiring.logic.journey import FactChange
from trimwright.wiring.logic.movement import UnitMove
from trimwright.wiring.logic.network import Network, State
from trimwright.wiring.logic.race import unrest
from trimwright.wiring.logic.search import Search

MOST_SETTINGS = 256
NOWHERE = State(())


class LoopFinding(Struct, frozen=True):
    """What a loop of relays and units may do.

    'latch': with the same facts it rests in either of two `states`. 'chatter': in the state it
    finds no rest. 'race': it comes to rest in one of several `states`, by who moves first. Races
    are told as `change` in the state `before`, so is a chatter from which another setting of the
    relays would rest; both are None if it begins as the feeds come on. 'unfinished': too much to
    look at, `missing` says for what.
    """

    kind: Literal["latch", "chatter", "race", "unfinished"]
    loop: tuple[str, ...]
    states: tuple[State, ...] = ()
    before: State | None = None
    change: FactChange | UnitMove | None = None
    missing: str = ""


def loop_findings(network: Network) -> tuple[LoopFinding, ...]:
    """Return what each loop of a network may do: latch, chatter, race, in this order.

    Facts are as near to rest as they can be; relays that do not bear on the loop are left out.
    """
    influence = influence_of(network)
    found: list[LoopFinding] = []
    for loop in loops(network):
        names = {coil.relay for coil in network.coils}
        states = {unit.name: unit.states for unit in network.units}
        said = Or(tuple(Pulled(n) if n in names else Is(n, states[n][0]) for n in loop))
        bears = cone(influence, said)
        ring = _Ring(network, loop, bears)
        latch, chatter = ring.latch(), ring.chatter()
        found += [one for one in (latch, chatter) if one]
        found += [
            one for one in _on_the_way(network, loop, bears) if one.kind == "race" or not chatter
        ]
    return tuple(found)


def _on_the_way(network: Network, loop: tuple[str, ...], bears: Cone) -> list[LoopFinding]:
    found = unrest(network, loop, bears)
    if found is None:
        return [LoopFinding("unfinished", loop, missing="race")]
    return [LoopFinding(one.kind, loop, one.ends, one.before, one.change) for one in found]


class _Ring:
    """One loop as clauses, with what moves it."""

    def __init__(self, network: Network, loop: tuple[str, ...], bears: Cone) -> None:
        self.network, self.loop, self.cone = network, loop, bears
        self.clauses = Clauses()
        self.stands = given(self.clauses, network)
        self.own = Encoding(self.clauses, network, self.stands)
        facts = {fact.name: fact.values[0] for fact in network.facts}
        rest = [self.stands.values[name, value] for name, value in facts.items()]
        plain = [
            *(one for (name, _), one in self.stands.values.items() if name in facts),
            *(-literal for literal in self.stands.relays.values()),
        ]
        self.search = Search(self.clauses, rest, plain)
        self.relays = [name for name in loop if name in self.stands.relays]
        self.units = {unit.name: unit.states for unit in network.units if unit.name in loop}

    def _rests(self, encoding: Encoding, *, within: bool) -> list[int]:
        """Return the literals that what is within the loop, or before it, has settled."""
        inside = set(self.loop)
        relays = [name for name in self.cone.relays if (name in inside) is within]
        units = [name for name in self.cone.units if (name in inside) is within]
        return [*map(encoding.agrees, relays), *map(encoding.settled, units)]

    def latch(self) -> LoopFinding | None:
        """Return two states of rest with the same facts, if relays of the loop have such."""
        if not self.relays:
            return None  # a unit is there to remember
        other = Given(
            self.stands.values | self._choices(),
            self.stands.relays | {name: self.clauses.new() for name in self.relays},
        )
        twin = Encoding(self.clauses, self.network, other)
        pairs = [(self.stands.relays[name], other.relays[name]) for name in self.relays]
        differ = -self.clauses.every(self.clauses.same(*pair) for pair in pairs)
        settled = [*self._rests(self.own, within=False), *self._rests(self.own, within=True)]
        found = self.search.plainest(*settled, *self._rests(twin, within=True), differ)
        if found is None:
            return None
        return LoopFinding("latch", self.loop, (self._state(found), self._state(found, other)))

    def _choices(self) -> dict[tuple[str, str], int]:
        chosen: dict[tuple[str, str], int] = {}
        for name, states in self.units.items():
            literals = self.clauses.choice(len(states))
            chosen |= zip(((name, state) for state in states), literals, strict=True)
        return chosen

    def chatter(self) -> LoopFinding | None:
        """Return the plainest state in which the loop finds no rest, if there is one.

        Settings in which it may rest are gathered until they serve every state, or until none
        serves one.
        """
        before = self._rests(self.own, within=False)
        settled = [*before, *self._rests(self.own, within=True)]
        unserved = list(before)
        inside = {*self.relays, *self.units}
        for _ in range(MOST_SETTINGS):
            state = self.search.plainest(*unserved)
            if state is None:
                return None
            fixed = [one for name, one in self._placed(state) if name not in inside]
            rest = self.search.plainest(*fixed, *settled)
            if rest is None:
                return LoopFinding("chatter", self.loop, (self._state(state),))
            unserved.append(-self.clauses.every(self._rests(self._fixed(rest), within=True)))
        return LoopFinding("unfinished", self.loop, missing="chatter")

    def _placed(self, model: AbstractSet[int]) -> Iterable[tuple[str, int]]:
        """Yield each fact, unit and relay of the cone with the literal of where it stands."""
        facts = {fact.name for fact in self.network.facts}
        for (name, _), one in self.stands.values.items():
            if (name in facts or name in self.cone.units) and one in model:
                yield name, one
        for name in self.cone.relays:
            one = self.stands.relays[name]
            yield name, one if one in model else -one

    def _fixed(self, model: AbstractSet[int]) -> Encoding:
        """Return the network with the loop held in one setting."""
        values = {
            (name, state): 1 if self.stands.values[name, state] in model else -1
            for name, states in self.units.items()
            for state in states
        }
        relays = {name: 1 if self.stands.relays[name] in model else -1 for name in self.relays}
        stands = Given(self.stands.values | values, self.stands.relays | relays)
        return Encoding(self.clauses, self.network, stands)

    def _state(self, model: AbstractSet[int], stands: Given | None = None) -> State:
        stands = stands or self.stands
        facts = {fact.name for fact in self.network.facts}
        chosen = [pair for pair, one in stands.values.items() if one in model]
        return State(
            tuple(pair for pair in chosen if pair[0] in facts),
            tuple(name for name in self.cone.relays if stands.relays[name] in model),
            tuple(pair for pair in chosen if pair[0] in self.cone.units),
        )


class Settler:
    """The settled states of a network, its clauses kept from question to question."""

    def __init__(self, network: Network) -> None:
        """Put a network into clauses."""
        self._network, self._clauses = network, Clauses()
        self._stands = given(self._clauses, network)
        encoding = Encoding(self._clauses, network, self._stands)
        values, relays = self._stands.values, self._stands.relays
        units = [values[unit.name, state] for unit in network.units for state in unit.states]
        self._moving = [*relays.values(), *units]
        self._settled = [encoding.agrees(coil.relay) for coil in network.coils]
        self._settled += [encoding.settled(unit.name) for unit in network.units]
        plain = [*(-literal for literal in relays.values()), *units]
        self._search = Search(self._clauses, (), plain)

    def settings(
        self,
        facts: Iterable[tuple[str, str]],
        most: int = MOST_SETTINGS,
        held: AbstractSet[str] = frozenset(),
        held_in: State = NOWHERE,
    ) -> tuple[State, ...]:
        """Return the states in which, with given facts, every relay and unit is at rest; at most some.

        Parameters
        ----------
        facts : iterable of (str, str)
            The value of each fact.
        most : int
            How many are returned at most.
        held : set of str
            The units and relays that stand as in another state.
        held_in : State
            That state.
        """
        values, relays = self._stands.values, self._stands.relays
        fresh = self._clauses.new()  # true while this is asked: what was found is left out
        demands = [fresh, *(values[pair] for pair in facts), *self._settled]
        demands += [values[pair] for pair in held_in.units if pair[0] in held]
        still = {name: one for name, one in relays.items() if name in held}
        demands += [one if name in held_in.pulled else -one for name, one in still.items()]
        found: list[State] = []
        while len(found) < most and (model := self._search.plainest(*demands)) is not None:
            found.append(self._state(model))
            self._clauses.say(-fresh, *(-one if one in model else one for one in self._moving))
        return tuple(found)

    def _state(self, model: AbstractSet[int]) -> State:
        names = {fact.name for fact in self._network.facts}
        chosen = [pair for pair, one in self._stands.values.items() if one in model]
        return State(
            tuple(pair for pair in chosen if pair[0] in names),
            tuple(relay for relay, one in self._stands.relays.items() if one in model),
            tuple(pair for pair in chosen if pair[0] not in names),
        )
