"""What of a car can be turned by itself: facts that move the same things, and how each may stand.

Facts that bear on no common consumer or unit do not know of each other. So they fall into turns,
each of which settles alone, and a combination is one standing of each turn.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property
from itertools import islice, product
from math import prod

from msgspec import Struct

from trimwright.wiring.consumer import Consumer
from trimwright.wiring.logic import (
    And,
    Board,
    Condition,
    Cone,
    Is,
    Network,
    Settler,
    State,
    at_rest,
    atoms,
    cone,
    edges,
    influence_of,
    lawful,
    loops,
    switched,
)
from trimwright.wiring.logic import Standing as Seen
from trimwright.wiring.mode import Mode

MOST_SETTINGS = 256  # of one turn that are looked at

Facts = tuple[tuple[str, str], ...]


class Standing(Struct, frozen=True):
    """A state, the contacts closed and feeds alive in it, what is on, and by which contacts."""

    state: State
    closed: frozenset[str]
    on: frozenset[str]
    ways: frozenset[str]


class Change(Struct, frozen=True):
    """In what a standing differs from rest."""

    closed: frozenset[str]
    on: frozenset[str]
    pulled: frozenset[str]
    facts: dict[str, str]
    units: dict[str, str]


class Turns(Struct, frozen=True, dict=True):
    """All that can be turned in one mode.

    Attributes
    ----------
    mode : Mode
        The key and the engine.
    rest : Standing
        Everything at rest.
    each : tuple of tuple of Standing
        For every turn that makes a difference its standings, all other turns at rest. The first is
        `rest`.
    whole : bool
        Whether every setting of every turn was looked at.
    relays : tuple of str
        In the order in which a state tells them.
    """

    mode: Mode
    rest: Standing
    each: tuple[tuple[Standing, ...], ...]
    whole: bool
    relays: tuple[str, ...]

    @cached_property
    def changes(self) -> tuple[tuple[Change, ...], ...]:
        """In what the standings of each turn differ from rest."""
        return tuple(tuple(_change(self.rest, one) for one in own) for own in self.each)

    @property
    def combinations(self) -> int:
        """How many there are."""
        return prod(map(len, self.each))

    @property
    def moved(self) -> tuple[frozenset[str], ...]:
        """What each turn puts on or off."""
        return tuple(frozenset[str]().union(*(one.on for one in own)) for own in self.changes)

    def together(self, picked: Sequence[int]) -> tuple[State, frozenset[str], frozenset[str]]:
        """Return one standing of each turn at once: the state, what is closed, what is on."""
        rest = self.rest
        facts, units = dict(rest.state.facts), dict(rest.state.units)
        closed, on, pulled = set(rest.closed), set(rest.on), set(rest.state.pulled)
        told = zip(self.changes, picked, strict=True)
        for one in (own[number] for own, number in told if number):  # the first is rest
            facts |= one.facts
            units |= one.units
            closed ^= one.closed
            on ^= one.on
            pulled ^= one.pulled
        relays = tuple(name for name in self.relays if name in pulled)
        state = State(tuple(facts.items()), relays, tuple(units.items()))
        return state, frozenset(closed), frozenset(on)


def _change(rest: Standing, one: Standing) -> Change:
    """Return in what a standing differs from rest."""
    return Change(
        one.closed ^ rest.closed,
        one.on ^ rest.on,
        frozenset(one.state.pulled) ^ frozenset(rest.state.pulled),
        dict(set(one.state.facts) - set(rest.state.facts)),
        dict(set(one.state.units) - set(rest.state.units)),
    )


def _dead_ends(network: Network) -> set[str]:
    """Return the edges that no current ever takes: what lies beyond them leads nowhere."""
    left = {edge.name: (edge.a, edge.b) for edge in edges(network)}
    taken = {end for one in network.loads for end in (one.a, one.b)}
    taken |= {end for one in network.coils for end in (one.a, one.b)}
    taken |= {*network.grounds, *(feed.node for feed in network.feeds)}
    blind: set[str] = set()
    while True:
        met = Counter(end for ends in left.values() for end in ends)
        last = {n for n, ends in left.items() if any(met[e] == 1 and e not in taken for e in ends)}
        if not last:
            return blind
        blind |= last
        left = {name: ends for name, ends in left.items() if name not in last}


class Turner:
    """A network laid out for finding what can be turned in each mode."""

    def __init__(self, network: Network, consumers: Iterable[Consumer]) -> None:
        """Find which facts bear on which consumer or unit."""
        self.network, self.board = network, Board(network)
        blind = _dead_ends(network)
        self._contacts = [
            (one.name, one.a, one.b) for one in switched(network) if one.name not in blind
        ]
        self.fed: dict[str, Condition] = {one.name: one.fed for one in consumers}
        influence = influence_of(network)
        moved: list[tuple[str, Condition]] = [*self.fed.items()]
        moved += [(unit.name, Is(unit.name, unit.states[0])) for unit in network.units]
        self._cones: list[tuple[str, Cone]] = [(name, cone(influence, one)) for name, one in moved]
        self._keeps = {name for loop in loops(network, influence) for name in loop}
        self._bound = {one.of for one in atoms(And(network.constraints)) if isinstance(one, Is)}
        self._keeps |= {unit.name for unit in network.units}

    @cached_property
    def _settler(self) -> Settler:
        """What finds the settled states; only what keeps a state by itself asks for it."""
        return Settler(self.network)

    def turns(self, mode: Mode, plainest: State) -> Turns | None:
        """Return what can be turned in a mode; None if nothing rests in it.

        `plainest` is a state of the mode: units stand as in it, and it is what counts as rest where
        the car with nothing worked has none.
        """
        may = self._may(mode, plainest)
        least = tuple((name, values[0]) for name, values in may.items())
        whole = frozenset(self.fed)
        rests = (self._rests(facts, plainest, whole) for facts in (least, plainest.facts))
        rest = next((one for one in rests if one is not None), None)
        if rest is None:
            return None
        each, complete = [], True
        for names, moves in self._parts({name for name, values in may.items() if len(values) > 1}):
            own = {name: may[name] for name in names}
            complete &= prod(map(len, own.values())) <= MOST_SETTINGS
            told = {(rest.on, self._looked_at(self.board.standing(rest.state), moves).ways): rest}
            for one in self._standings(rest, own, moves):
                told.setdefault((one.on, one.ways), one)
            each += [tuple(told.values())] if len(told) > 1 else []
        relays = tuple(coil.relay for coil in self.network.coils)
        return Turns(mode, rest, tuple(each), complete, relays)

    def _may(self, mode: Mode, plainest: State) -> dict[str, tuple[str, ...]]:
        """Return the values that each fact may have in a mode, the resting one first if it may."""
        fixed = dict(plainest.facts) | {"key": mode.key, "engine": mode.engine}
        return {
            fact.name: (fixed[fact.name],)
            if fact.name in ("key", "engine")
            else tuple(v for v in fact.values if self._lawful(fixed, {fact.name: v}))
            for fact in self.network.facts
        }

    def _parts(self, free: set[str]) -> Iterator[tuple[list[str], frozenset[str]]]:
        """Yield the free facts that hang together, with the consumers, relays and units they move.

        What keeps a state by itself hangs together with all that it moves, facts or none.
        """
        parts: list[tuple[set[str], set[str]]] = []
        for name, own in self._cones:
            names, keeps = free & {*own.facts}, {*own.relays, *own.units} & self._keeps
            moves = {name} | keeps
            for part in [p for p in parts if p[0] & names or p[1] & keeps]:
                parts.remove(part)
                names, moves = names | part[0], moves | part[1]
            if names or moves & self._keeps:
                parts.append((names, moves))
        for names, moves in parts:
            yield [one.name for one in self.network.facts if one.name in names], frozenset(moves)

    def _standings(
        self, rest: Standing, own: Mapping[str, tuple[str, ...]], moves: frozenset[str]
    ) -> Iterator[Standing]:
        """Yield every standing of one turn, the most worked ones too where there are too many."""
        keeps, held = moves & self._keeps, self._keeps - moves
        settings = product(*own.values())
        for values in islice(settings, MOST_SETTINGS):
            facts, put = dict(rest.state.facts), dict(zip(own, values, strict=True))
            if not self._lawful(facts, put):
                continue
            told = tuple((facts | put).items())
            if keeps:
                for state in self._settler.settings(told, MOST_SETTINGS, held, rest.state):
                    yield self._looked_at(self.board.standing(state), moves)
            elif (one := self._rests(told, rest.state, moves)) is not None:
                yield one

    def _lawful(self, facts: Mapping[str, str], put: Mapping[str, str]) -> bool:
        """Say whether lawful facts stay so with some of them put otherwise."""
        return not put.keys() & self._bound or lawful(self.network, {**facts, **put})

    def _rests(self, facts: Facts, like: State, moves: frozenset[str]) -> Standing | None:
        """Return where relays and units rest, which there is one place for without a loop."""
        seen = at_rest(self.board, facts, like.units, like.pulled if not self._keeps else ())
        return None if seen is None else self._looked_at(seen, moves)

    def _looked_at(self, seen: Seen, moves: frozenset[str]) -> Standing:
        """Return a state with what follows from it; its ways are those of what a turn moves.

        A contact that is closed between nodes that are neither live nor, with something of the turn
        on, grounded is no way for any current.
        """
        on = self.board.fed(seen)
        met = seen.live | seen.grounded if on & moves else seen.live
        ways = {
            name for name, a, b in self._contacts if name in seen.closed and (a in met or b in met)
        }
        return Standing(seen.state, frozenset(seen.closed | seen.alive), on, frozenset(ways))
