"""The cone of a condition: all that can reach it by wire, and the loops in which relays hang."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from trimwright.wiring.logic.block import BlockTree, Node, blocks, split
from trimwright.wiring.logic.condition import (
    ALWAYS,
    Atom,
    Closed,
    Condition,
    Fed,
    Grounded,
    Is,
    Live,
    Pulled,
    Shorted,
    atoms,
)
from trimwright.wiring.logic.network import Network, Unit, edges, worked_by


@dataclass(frozen=True, slots=True)
class Cone:
    """Names of what can move a condition, each in the network's order."""

    facts: tuple[str, ...]
    relays: tuple[str, ...]
    units: tuple[str, ...]
    edges: tuple[str, ...]
    feeds: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Reach:
    """What may join a node to a source: edges and sources by name."""

    tree: BlockTree
    edges: tuple[str, ...]
    always: frozenset[str]
    at: Mapping[Node, tuple[str, ...]]

    def moved_by(self, node: str) -> tuple[set[str], set[str]]:
        """Return the edges and the sources that decide whether a node is joined to a source."""
        passed: set[str] = set()
        sources: set[str] = set()
        if node in self.always:
            return passed, sources
        for at, names in self.at.items():
            between = self.tree.between(node, at)
            if between is not None:
                passed |= {self.edges[number] for number in between}
                sources |= set(names)
        return passed, sources


class Influence:
    """A network laid out for asking what moves what; `lost` are grounds that may be lost."""

    def __init__(self, network: Network, lost: Iterable[str] = ()) -> None:
        """Lay out a network."""
        self.network = network
        self._edges = {edge.name: edge for edge in edges(network)}
        feeds = network.feeds
        always = {feed.node for feed in feeds if feed.when == ALWAYS}
        self._live = self._reach({feed.name: feed.node for feed in feeds}, always)
        grounds = {node: node for node in network.grounds}
        self._grounded = self._reach(grounds, set(grounds) - set(lost))
        self._ends: dict[Atom, tuple[str, str]] = {
            Fed(load.name): (load.a, load.b) for load in network.loads
        }
        self._ends |= {Pulled(coil.relay): (coil.a, coil.b) for coil in network.coils}
        self._feeds = {feed.name: feed for feed in feeds}
        self._moves = {unit.name: unit.moves for unit in network.units}

    def _reach(self, sources: Mapping[str, str], always: set[str]) -> _Reach:
        ends = split([(edge.a, edge.b) for edge in self._edges.values()], always)
        at: dict[Node, tuple[str, ...]] = {}
        for name, node in sources.items():
            for piece in self._pieces(node, ends) if node in always else [node]:
                at[piece] = (*at.get(piece, ()), name)
        return _Reach(BlockTree(blocks(ends)), tuple(self._edges), frozenset(always), at)

    @staticmethod
    def _pieces(node: str, ends: Iterable[tuple[Node, Node]]) -> list[Node]:
        return [end for pair in ends for end in pair if isinstance(end, tuple) and end[0] == node]

    def behind(self, atom: Atom) -> tuple[tuple[Atom, ...], set[str], set[str]]:
        """Return what moves an atom at first hand: atoms, and the edges and feeds they work."""
        if isinstance(atom, Is):
            moves = self._moves.get(atom.of, ())
            return tuple(one for move in moves for one in atoms(move.when)), set(), set()
        if isinstance(atom, Closed):
            return self._worked({atom.contact}, set())
        passed: set[str] = set()
        feeds: set[str] = set()
        plus, minus = self._sides(atom)
        for node in plus:
            more, sources = self._live.moved_by(node)
            passed, feeds = passed | more, feeds | sources
        for node in minus:
            passed |= self._grounded.moved_by(node)[0]
        if isinstance(atom, Shorted):
            feeds = {atom.feed}
        return self._worked(passed, feeds)

    def _sides(self, atom: Atom) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """Return the nodes whose liveness, and those whose ground, decides an atom."""
        if isinstance(atom, Live):
            return (atom.node,), ()
        if isinstance(atom, Grounded):
            return (), (atom.node,)
        if isinstance(atom, Shorted):
            return (), (self._feeds[atom.feed].node,)
        ends = self._ends[atom]
        return ends, ends

    def _worked(
        self, passed: set[str], feeds: set[str]
    ) -> tuple[tuple[Atom, ...], set[str], set[str]]:
        """Return the atoms that work some edges and feeds, with those edges and feeds."""
        found: list[Atom] = []
        for name, edge in self._edges.items():
            if name in passed:
                found += atoms(worked_by(edge))
        for name, feed in self._feeds.items():
            if name in feeds:
                found += atoms(feed.when)
        return tuple(dict.fromkeys(found)), passed, feeds

    def cone(self, *conditions: Condition) -> Cone:
        """Return all that can move some conditions, however many relays lie between."""
        waiting = [atom for condition in conditions for atom in atoms(condition)]
        seen: set[Atom] = set()
        passed: set[str] = set()
        feeds: set[str] = set()
        looked: set[str] = set()
        while waiting:
            atom = waiting.pop()
            key = atom.of if isinstance(atom, Is) else None
            if atom in seen or key in looked:
                continue
            seen.add(atom)
            looked |= {key} if key else set()
            more, through, fed = self.behind(atom)
            waiting += more
            passed, feeds = passed | through, feeds | fed
        relays = {atom.relay for atom in seen if isinstance(atom, Pulled)}
        net = self.network
        return Cone(
            tuple(fact.name for fact in net.facts if fact.name in looked),
            tuple(coil.relay for coil in net.coils if coil.relay in relays),
            tuple(unit.name for unit in net.units if unit.name in looked),
            tuple(name for name in self._edges if name in passed),
            tuple(name for name in self._feeds if name in feeds),
        )

    def movers(self) -> dict[str, tuple[str, ...]]:
        """Return for each relay and unit the relays and units that move it at first hand.

        Relays are written as they are, units too: their names are told apart by the network.
        """
        found: dict[str, tuple[str, ...]] = {}
        for coil in self.network.coils:
            found[coil.relay] = self._movers_among(self.behind(Pulled(coil.relay))[0])
        for unit in self.network.units:
            behind: list[Atom] = []
            for atom in self.behind(Is(unit.name, unit.states[0]))[0]:
                if not isinstance(atom, Is):
                    behind += [atom] if isinstance(atom, Pulled) else self.behind(atom)[0]
                elif atom.of != unit.name:
                    behind.append(atom)
            goes_round = (unit.name,) if _goes_round(unit) else ()
            found[unit.name] = (*goes_round, *self._movers_among(behind))
        return found

    def _movers_among(self, behind: Iterable[Atom]) -> tuple[str, ...]:
        units = {unit.name for unit in self.network.units}
        names = [
            atom.relay if isinstance(atom, Pulled) else atom.of
            for atom in behind
            if isinstance(atom, Pulled) or (isinstance(atom, Is) and atom.of in units)
        ]
        return tuple(dict.fromkeys(names))


def _goes_round(unit: Unit) -> bool:
    """Say whether moves that do not wait may lead a unit back to a state that it left."""
    ahead = {
        state: tuple(m.to for m in unit.moves if m.state == state and not m.waits and m.to != state)
        for state in unit.states
    }
    return any(state in _all_behind(state, ahead) for state in unit.states)


def loops(network: Network) -> tuple[tuple[str, ...], ...]:
    """Return the loops in which relays and units move each other, or one moves itself.

    A network without one has exactly one setting of its relays in each state of its facts. The
    loops come in such an order that none is moved by a later one.
    """
    movers = Influence(network).movers()
    behind = {name: _all_behind(name, movers) for name in movers}
    found = dict.fromkeys(
        tuple(other for other in movers if other in behind[name] and name in behind[other])
        for name in movers
        if name in behind[name]
    )
    return tuple(sorted(found, key=lambda loop: len(behind[loop[0]])))


def _all_behind(name: str, movers: Mapping[str, tuple[str, ...]]) -> set[str]:
    found: set[str] = set()
    waiting = [*movers[name]]
    while waiting:
        one = waiting.pop()
        if one not in found:
            found.add(one)
            waiting += movers[one]
    return found
