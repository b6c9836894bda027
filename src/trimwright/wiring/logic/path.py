"""The way from a feed through a load to ground, and where it is open."""

from collections.abc import Set as AbstractSet
from heapq import heapify, heappop, heappush
from typing import NamedTuple

from msgspec import Struct

from trimwright.wiring.logic.condition import Condition, Fed, Grounded, Live, Pulled, Shorted, atoms
from trimwright.wiring.logic.standing import Board, Standing


class Path(Struct, frozen=True):
    """What current passes from a feed to ground, in order; `gaps` are those of it that are open.

    `through` is the load or relay whose sides the two halves meet at, '' for a short. A path with
    no gaps is live; a path with gaps is the one that lacks least. `feed` or `ground` is '' where no
    way leads there even if every contact were closed.
    """

    feed: str
    to: tuple[str, ...]
    through: str
    back: tuple[str, ...]
    ground: str
    gaps: tuple[str, ...]

    @property
    def parts(self) -> frozenset[str]:
        """All that it passes on both its halves."""
        return frozenset((*self.to, *self.back))


class _Way(Struct, frozen=True):
    """Edges from a source to a node, and what of them is open."""

    source: str
    edges: tuple[str, ...]
    gaps: tuple[str, ...]


def paths(board: Board, seen: Standing, condition: Condition) -> tuple[Path, ...]:
    """Return a path for each load, relay, node and short that a condition names."""
    network = board.network
    ends = {Fed(load.name): (load.a, load.b) for load in network.loads}
    coils = {Pulled(coil.relay): (coil.a, coil.b) for coil in network.coils}
    found: list[Path] = []
    for atom in atoms(condition):
        if isinstance(atom, Fed):
            found.append(_through(board, seen, atom.load, ends[atom]))
        elif isinstance(atom, Pulled):
            found.append(_through(board, seen, atom.relay, coils[atom]))
        elif isinstance(atom, Live):
            way = _from_feed(board, seen, atom.node)
            found.append(Path(way.source, way.edges, atom.node, (), "", way.gaps))
        elif isinstance(atom, Grounded):
            way = _to_ground(board, seen, atom.node)
            found.append(Path("", (), atom.node, way.edges[::-1], way.source, way.gaps))
        elif isinstance(atom, Shorted):
            found.append(_short(board, seen, atom.feed))
    return tuple(found)


def _through(board: Board, seen: Standing, name: str, ends: tuple[str, str]) -> Path:
    """Return the path through a load, whichever way round lacks less."""
    ways: list[tuple[int, int, Path]] = []
    for plus, minus in (ends, ends[::-1]):
        to, back = _from_feed(board, seen, plus), _to_ground(board, seen, minus)
        lost = (not to.source) + (not back.source)
        path = Path(to.source, to.edges, name, back.edges[::-1], back.source, to.gaps + back.gaps)
        ways.append((lost, len(path.gaps), path))
        if ways[0][:2] == (0, 0):
            break  # it lacks nothing
    return min(ways, key=lambda way: way[:2])[2]


def _short(board: Board, seen: Standing, name: str) -> Path:
    feed = next(feed for feed in board.network.feeds if feed.name == name)
    back = _to_ground(board, seen, feed.node)
    dead = () if name in seen.alive else (name,)
    return Path(name, (), "", back.edges[::-1], back.source, dead + back.gaps)


def _from_feed(board: Board, seen: Standing, node: str) -> _Way:
    feeds = board.network.feeds
    sources = [_Source(int(f.name not in seen.alive), f.name, f.node) for f in feeds]
    return _least(board, seen, sources, node, board.grounds)


def _to_ground(board: Board, seen: Standing, node: str) -> _Way:
    grounds, feeds = board.network.grounds, board.network.feeds
    sources = [_Source(int(at not in board.grounds), at, at) for at in grounds]
    alive = {feed.node for feed in feeds if feed.name in seen.alive}
    return _least(board, seen, sources, node, alive)


class _Source(NamedTuple):
    gap: int
    name: str
    node: str


def _least(
    board: Board, seen: Standing, sources: list[_Source], target: str, ending: AbstractSet[str]
) -> _Way:
    """Return the way with the fewest gaps, of those the shortest, of those the first by name."""
    heap: list[tuple[int, int, tuple[str, ...], str, str]] = [
        (one.gap, 0, (), one.name, one.node) for one in sources
    ]
    heapify(heap)
    done: set[str] = set()
    while heap:
        lacking, length, passed, source, node = heappop(heap)
        if node == target:
            gaps = tuple(name for name in passed if name not in seen.closed)
            dead = (source,) if len(gaps) < lacking else ()
            return _Way(source, passed, dead + gaps)
        if node in done or node in ending:
            continue
        done.add(node)
        for name, other in board.neighbours(node):
            if other not in done:
                more = lacking + (name not in seen.closed)
                heappush(heap, (more, length + 1, (*passed, name), source, other))
    return _Way("", (), ())
