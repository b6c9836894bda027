"""What moves what at first hand: the contacts and feeds that lie on a way to a feed or to ground."""

from collections.abc import Iterable, Mapping
from collections.abc import Set as AbstractSet

from msgspec import Struct

from trimwright.wiring.logic.block import BlockTree, Node, blocks, split
from trimwright.wiring.logic.condition import (
    ALWAYS,
    Atom,
    Closed,
    Fed,
    Grounded,
    Is,
    Live,
    Pulled,
    Shorted,
    atoms,
)
from trimwright.wiring.logic.network import Edge, Network, edges, worked_by


class Moved(Struct, frozen=True):
    """Edges and feeds, by name, that decide whether something holds; None if nothing lets it."""

    edges: frozenset[str] = frozenset()
    feeds: frozenset[str] = frozenset()


class _Reach:
    """The ways that may join a node to a source.

    `certain` are the sources that always are; a node of `ending` passes nothing on and is joined
    to nothing; a node of `now_and_then` does so while one of its feeds is live.
    """

    def __init__(
        self,
        along: Iterable[Edge],
        sources: Mapping[str, frozenset[str]],
        certain: AbstractSet[str],
        ending: AbstractSet[str],
        now_and_then: Mapping[str, frozenset[str]],
    ) -> None:
        along = tuple(along)
        self._names = [edge.name for edge in along]
        self._ends = [(edge.a, edge.b) for edge in along]
        apart = split(self._ends, certain | ending)
        self._tree = BlockTree(blocks(apart))
        self._pieces: dict[str, list[Node]] = {node: [] for node in sources}
        for pair, own in zip(self._ends, apart, strict=True):
            for node, piece in zip(pair, own, strict=True):
                self._pieces.setdefault(node, []).append(piece)
        self._sources, self._certain, self._ending = sources, certain, ending
        self._now_and_then = now_and_then

    def joins(self, node: str) -> Moved | None:
        """Return what decides whether a node is joined to a source."""
        found = None if node in self._ending else self.meets(node)
        own = self._now_and_then.get(node, frozenset())
        return Moved(found.edges, found.feeds | own) if found else None

    def meets(self, node: str) -> Moved | None:
        """Return what decides whether a way from a source ends at a node, be it a source too."""
        if node in self._certain:
            return Moved()
        own = self._pieces.get(node, [])
        found = self._sources.get(node)
        passed: set[int] = set()
        for source, names in self._sources.items():
            for piece in self._pieces[source]:
                ways = [self._tree.between(one, piece) for one in own if source != node]
                reached = [way for way in ways if way is not None]
                if reached:
                    passed |= set().union(*reached)
                    found = (found or frozenset()) | names
        if found is None:
            return None
        met = {end for number in passed for end in self._ends[number]}
        ended = [names for at, names in self._now_and_then.items() if at in met]
        edges_passed = frozenset(self._names[number] for number in passed)
        return Moved(edges_passed, found.union(*ended))


class Moving(Struct, frozen=True):
    """All that can move something, however many relays lie between, by name; and by which atoms."""

    atoms: frozenset[Atom] = frozenset()
    edges: frozenset[str] = frozenset()
    feeds: frozenset[str] = frozenset()


class Influence(Struct, dict=True):
    """A network laid out for asking what moves what; `lost` are grounds that may be lost."""

    network: Network
    lost: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        """Lay out the network."""
        net = self.network
        self._behind: dict[Atom, tuple[tuple[Atom, ...], Moved]] = {}
        self._moving: dict[Atom, Moving] = {}
        self.edges = {edge.name: edge for edge in edges(net)}
        feeds: dict[str, frozenset[str]] = {}
        for feed in net.feeds:
            feeds[feed.node] = feeds.get(feed.node, frozenset()) | {feed.name}
        always = {feed.node for feed in net.feeds if feed.when == ALWAYS}
        kept = {*net.grounds} - self.lost
        some = {node: names for node, names in feeds.items() if node not in always}
        along = self.edges.values()
        self._live = _Reach(along, feeds, always, kept, {})
        grounds = dict.fromkeys(net.grounds, frozenset[str]())
        self._grounded = _Reach(along, grounds, kept, always, some)
        self._ends: dict[Atom, tuple[str, str]] = {
            Fed(load.name): (load.a, load.b) for load in net.loads
        }
        self._ends |= {Pulled(coil.relay): (coil.a, coil.b) for coil in net.coils}

    def moving(self, atom: Atom) -> Moving:
        """Return all that can move an atom, itself among it."""
        if atom not in self._moving:
            waiting, found = [atom], set[Atom]()
            passed, feeds = set[str](), set[str]()
            while waiting:
                one = waiting.pop()
                if one not in found:
                    found.add(one)
                    more, through = self.behind(one)
                    waiting += more
                    passed |= through.edges
                    feeds |= through.feeds
            self._moving[atom] = Moving(frozenset(found), frozenset(passed), frozenset(feeds))
        return self._moving[atom]

    def behind(self, atom: Atom) -> tuple[tuple[Atom, ...], Moved]:
        """Return what moves an atom at first hand: atoms, and the edges and feeds they work."""
        if atom not in self._behind:
            self._behind[atom] = self._looked_behind(atom)
        return self._behind[atom]

    def _looked_behind(self, atom: Atom) -> tuple[tuple[Atom, ...], Moved]:
        if isinstance(atom, Is):
            moves = (m for unit in self.network.units if unit.name == atom.of for m in unit.moves)
            return tuple(one for move in moves for one in atoms(move.when)), Moved()
        found = [way for way in self._ways(atom) if way]
        passed = frozenset[str]().union(*(way.edges for way in found))
        fed = frozenset[str]().union(*(way.feeds for way in found))
        said = [worked_by(edge) for name, edge in self.edges.items() if name in passed]
        said += [feed.when for feed in self.network.feeds if feed.name in fed]
        return tuple(dict.fromkeys(one for when in said for one in atoms(when))), Moved(passed, fed)

    def _ways(self, atom: Atom) -> list[Moved | None]:
        """Return what decides each part of what an atom says."""
        if isinstance(atom, Closed):
            return [Moved(frozenset([atom.contact]))]
        if isinstance(atom, Live):
            return [self._live.joins(atom.node)]
        if isinstance(atom, Grounded):
            return [self._grounded.joins(atom.node)]
        if isinstance(atom, Shorted):
            node = next(feed.node for feed in self.network.feeds if feed.name == atom.feed)
            return [self._grounded.meets(node), Moved(frozenset(), frozenset([atom.feed]))]
        one, other = self._ends[atom]
        pairs = [
            (self._live.joins(plus), self._grounded.joins(minus))
            for plus, minus in ((one, other), (other, one))
        ]
        return [way for pair in pairs if None not in pair for way in pair]
