"""One state looked at: what is closed, what is live, what is grounded, what holds."""

from collections.abc import Callable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from copy import copy
from typing import assert_never

from msgspec import Struct

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
    Load,
    Move,
    Network,
    State,
    Unit,
    edges,
    worked_by,
)

KEPT = 64  # states
PULLED = ""  # no value of a fact, no state of a unit
Holds = AbstractSet[tuple[str, str]]  # facts and units with where they stand, relays pulled in
Asks = Callable[[Holds], bool]


class Standing(Struct, frozen=True):
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


class _Clumps(Struct, frozen=True):
    """Nodes that are joined whatever stands where: what each goes by, who they are, what leads on."""

    by: Mapping[str, str]
    members: Mapping[str, AbstractSet[str]]
    apart: dict[str, list[tuple[str, str]]]


class Board:
    """A network laid out for looking at one state after another, with a fault or none."""

    def __init__(self, network: Network, fault: Fault | None = None) -> None:
        """Lay out a network."""
        self.network = network
        self.edges = edges(network)
        self.coils = {coil.relay: coil for coil in network.coils}
        self._ends: dict[str, Coil | Load] = {load.name: load for load in network.loads}
        self._feeds = {feed.name: feed for feed in network.feeds}
        told = {edge.name: _asked(worked_by(edge)) for edge in self.edges}
        self._sound = {name: asks for name, asks in told.items() if asks is not _always}
        self._joined = told.keys() - self._sound.keys()
        self._fed = {feed.name: _asked(feed.when) for feed in network.feeds}
        self._at: dict[str, list[tuple[str, str]]] = {}
        for edge in self.edges:
            self._at.setdefault(edge.a, []).append((edge.name, edge.b))
            self._at.setdefault(edge.b, []).append((edge.name, edge.a))
        self._alone = {*network.grounds, *(feed.node for feed in network.feeds)}
        self._sound_clumps = self._clumped()
        self._sound_standings: dict[State, Standing] = {}
        self._befalls(fault)

    def with_fault(self, fault: Fault | None) -> "Board":
        """Return the same network with another fault, or with none."""
        other = copy(self)
        other._befalls(fault)  # noqa: SLF001  of its own kind
        return other

    def _befalls(self, fault: Fault | None) -> None:
        """Set what a fault takes away or joins for good."""
        kind, of = (fault.kind, {fault.of}) if fault else ("", set[str]())
        self.fault = fault
        self.grounds = frozenset(self.network.grounds) - (of if kind == "ground lost" else set())
        opened = of if kind in OPENS else set[str]()
        self._whole = self._joined - opened
        self._worked = self._sound
        if kind == "contact welded":
            self._whole = self._joined | of
        elif of & self._sound.keys() and kind in OPENS:
            self._worked = {name: asks for name, asks in self._sound.items() if name not in of}
        joins_alike = kind in ("", "bad crimp", "coil open")
        self._kept = self._sound_standings if joins_alike else {}
        self._clumps = self._sound_clumps
        for name in opened & self._joined:
            self._clumps = self._parted(name)

    def standing(self, state: State) -> Standing:
        """Return what follows from a state; the last ones are kept, with a contact at fault one."""
        if state not in self._kept:
            if len(self._kept) >= KEPT or self._kept is not self._sound_standings:
                self._kept.clear()
            self._kept[state] = self._looked_at(state)
        return self._kept[state]

    def _looked_at(self, state: State) -> Standing:
        holds = {*state.facts, *state.units, *((relay, PULLED) for relay in state.pulled)}
        closed = {name for name, asks in self._worked.items() if asks(holds)} | self._whole
        alive = {name for name, asks in self._fed.items() if asks(holds)}
        feeds = {self._feeds[name].node for name in alive}
        live = self._reached(feeds, closed, self.grounds)
        grounded = self._reached(self.grounds, closed, feeds)
        shorted = {name for name in alive if self._feeds[name].node in grounded}
        values = dict((*state.facts, *state.units))
        return Standing(
            state, values, closed, alive, shorted, live - self.grounds, grounded - feeds
        )

    def neighbours(self, node: str) -> Sequence[tuple[str, str]]:
        """Return the name of each edge at a node, closed or not, with the node it leads to."""
        return self._at.get(node, ())

    def _reached(
        self, sources: AbstractSet[str], closed: AbstractSet[str], ending: AbstractSet[str]
    ) -> AbstractSet[str]:
        """Return the nodes that are joined to a source: from the sources outwards, no others."""
        members, apart = self._clumps.members, self._clumps.apart
        clumps = set(sources)
        waiting = list(clumps - ending)
        while waiting:
            for name, other in apart.get(waiting.pop(), ()):
                if other not in clumps and name in closed:
                    clumps.add(other)
                    waiting += [other] if other not in ending else []
        return clumps.union(*(members[one] for one in clumps if one in members))

    def _clumped(self) -> "_Clumps":
        """Put nodes together that are joined whatever stands where; each clump goes by one of them.

        What may be a source stays by itself, as it may pass nothing on.
        """
        by: dict[str, str] = {}
        members: dict[str, set[str]] = {}
        for node in self._at:
            if node not in by:
                members[node] = self._joined_to(node, self._joined)
                by |= dict.fromkeys(members[node], node)
        apart = {clump: self._ways(own, by) for clump, own in members.items()}
        return _Clumps(by, members, apart)

    def _ways(self, own: AbstractSet[str], by: Mapping[str, str]) -> list[tuple[str, str]]:
        """Return what leads from the nodes of a clump to others."""
        ways = ((by[node], name, by[other]) for node in own for name, other in self._at[node])
        return [(name, there) for here, name, there in ways if there != here]

    def _joined_to(self, node: str, joins: AbstractSet[str]) -> set[str]:
        """Return the nodes that some joins put into a node's clump."""
        own, waiting = {node}, [node] if node not in self._alone else []
        while waiting:
            for name, other in self._at[waiting.pop()]:
                if name in joins and other not in own and other not in self._alone:
                    own.add(other)
                    waiting.append(other)
        return own

    def _parted(self, name: str) -> "_Clumps":
        """Return the clumps without a join: it may part one in two, all others stay as they are."""
        sound = self._sound_clumps
        edge = next(edge for edge in self.edges if edge.name == name)
        whole = sound.by[edge.a]
        parts = [self._joined_to(node, self._whole) for node in (edge.a, edge.b)]
        if sound.by[edge.b] != whole or edge.b in parts[0]:
            return sound
        new, gone = (edge.b, parts[1]) if whole in parts[0] else (edge.a, parts[0])
        by = {**sound.by, **dict.fromkeys(gone, new)}
        members = {**sound.members, whole: sound.members[whole] - gone, new: gone}
        near = {whole, new, *(there for _, there in self._ways(gone, by))}
        return _Clumps(
            by, members, sound.apart | {one: self._ways(members[one], by) for one in near}
        )

    def between(self, one: Coil | Load, seen: Standing) -> bool:
        """Say whether a coil or load has a live side and a grounded other side."""
        return (one.a in seen.live and one.b in seen.grounded) or (
            one.b in seen.live and one.a in seen.grounded
        )

    def fed(self, seen: Standing) -> frozenset[str]:
        """Return the loads that are fed, and the relays that are pulled in."""
        loads = (load.name for load in self.network.loads if self.between(load, seen))
        return frozenset((*loads, *seen.state.pulled))

    def energised(self, relay: str, seen: Standing) -> bool:
        """Say whether the coil of a relay is fed, and whole."""
        broken = self.fault and self.fault.kind == "coil open" and self.fault.of == relay
        return not broken and self.between(self.coils[relay], seen)

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


def _always(_: Holds) -> bool:
    return True


def _asked(condition: Condition) -> Asks:
    """Return a condition of facts, units and relays as a question to what holds."""

    def atom(one: Atom) -> Asks:
        if not isinstance(one, Is | Pulled):
            raise TypeError(f"only facts, units and relays may work a contact, got {one}")
        pair = (one.of, one.value) if isinstance(one, Is) else (one.relay, PULLED)
        return lambda holds: pair in holds

    def every(parts: Sequence[Asks]) -> Asks:
        if len(parts) < 2:  # noqa: PLR2004  nothing to put together
            return parts[0] if parts else _always
        return lambda holds: all(asks(holds) for asks in parts)

    def some(parts: Sequence[Asks]) -> Asks:
        if len(parts) == 1:
            return parts[0]
        return lambda holds: any(asks(holds) for asks in parts)

    def no(asks: Asks) -> Asks:
        return lambda holds: not asks(holds)

    return evaluated(condition, Algebra(atom, no, every, some))
