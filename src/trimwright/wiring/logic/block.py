"""The blocks of a graph: the rings that hang together, and the single edges between them.

A simple path from one node to another passes the blocks on the way between the two and no others,
and every edge of those blocks lies on one [hopcroft and tarjan 1973, algorithm 447].
"""

from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet

from msgspec import Struct, field

Node = Hashable
Ends = tuple[Node, Node]


class Block(Struct, frozen=True):
    """A block hung from its node `top`: its other nodes, and its edges by number."""

    top: Node
    below: tuple[Node, ...]
    edges: tuple[int, ...]


def split(ends: Sequence[Ends], sources: AbstractSet[Node]) -> list[Ends]:
    """Return the edges with sources taken apart: each edge at one gets a piece of its own.

    What is a source always needs no path through it, so what hangs from it hangs apart.
    """

    def piece(node: Node, number: int) -> Node:
        return (node, number) if node in sources else node

    return [(piece(a, number), piece(b, number)) for number, (a, b) in enumerate(ends)]


class _Walk(Struct):
    """A walk into the depth, under way."""

    at: dict[Node, list[tuple[int, Node]]]
    order: dict[Node, int] = field(default_factory=dict)
    low: dict[Node, int] = field(default_factory=dict)
    edges: list[tuple[int, Node, Node]] = field(default_factory=list)


def blocks(ends: Sequence[Ends]) -> tuple[Block, ...]:
    """Return the blocks of a graph, every block before the one that it hangs from."""
    at: dict[Node, list[tuple[int, Node]]] = {}
    for number, (a, b) in enumerate(ends):
        at.setdefault(a, []).append((number, b))
        at.setdefault(b, []).append((number, a))
    walk = _Walk(at)
    found: list[Block] = []
    for root in at:
        if root not in walk.order:
            found += _hung_from(root, walk)
    return tuple(found)


def _hung_from(root: Node, walk: _Walk) -> Iterator[Block]:
    """Yield the blocks of what can be walked to from a root."""
    _enter(root, walk)
    trail: list[tuple[Node, int, Iterator[tuple[int, Node]]]] = [(root, -1, iter(walk.at[root]))]
    while trail:
        node, came, ahead = trail[-1]
        edge, other = next(ahead, (-1, None))
        if edge < 0:
            trail.pop()
            if trail:
                yield from _left(trail[-1][0], node, walk)
        elif edge != came and other not in walk.order:
            walk.edges.append((edge, node, other))
            _enter(other, walk)
            trail.append((other, edge, iter(walk.at[other])))
        elif edge != came and walk.order[other] < walk.order[node]:
            walk.edges.append((edge, node, other))
            walk.low[node] = min(walk.low[node], walk.order[other])


def _enter(node: Node, walk: _Walk) -> None:
    walk.order[node] = walk.low[node] = len(walk.order)


def _left(parent: Node, child: Node, walk: _Walk) -> Iterator[Block]:
    """Yield the block that ends where the walk steps back from a child to its parent, if one does."""
    walk.low[parent] = min(walk.low[parent], walk.low[child])
    if walk.low[child] < walk.order[parent]:
        return
    taken: list[tuple[int, Node, Node]] = []
    while not taken or taken[-1][1:] != (parent, child):
        taken.append(walk.edges.pop())
    below = dict.fromkeys(end for _, *pair in reversed(taken) for end in pair if end != parent)
    yield Block(parent, tuple(below), tuple(sorted(edge for edge, *_ in taken)))


class BlockTree:
    """Blocks, laid out for asking which edges lie between two nodes."""

    def __init__(self, found: Iterable[Block]) -> None:
        """Lay out blocks."""
        self._over: Mapping[Node, Block] = {node: block for block in found for node in block.below}

    def between(self, one: Node, other: Node) -> set[int] | None:
        """Return the edges on the simple paths between two nodes; None if there is no path."""
        (root, climb), (other_root, other_climb) = self._climb(one), self._climb(other)
        if root != other_root:
            return None
        passed = set(climb) ^ set(other_climb)
        return {edge for block, _ in passed for edge in block.edges}

    def _climb(self, node: Node) -> tuple[Node, list[tuple[Block, Node]]]:
        """Return the root above a node, and each block passed with where it is entered."""
        passed = []
        while node in self._over:
            block = self._over[node]
            passed.append((block, node))
            node = block.top
        return node, passed
