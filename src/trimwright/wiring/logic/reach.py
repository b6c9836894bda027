"""Reach as clauses: which nodes are joined to a source, as the least fixed point.

Ring by ring it is unrolled by levels: a node is reached at a level if it is a source, or a closed
edge leads to one reached a level earlier; no simple path in a block has more edges than the block
has nodes less one. Level 0 is the sources alone, so a dead ring never feeds itself. Between blocks
it is one pass to the top and one back, as nothing is reached from a source by leaving a block and
coming back.

A node that is a source of the other kind is reached but passes nothing on: what is joined to ground
stays there, whatever is shorted to it.
"""

from collections.abc import Mapping, Sequence

from msgspec import Struct

from trimwright.wiring.logic.block import Block, Ends, Node, blocks, split
from trimwright.wiring.logic.clauses import FALSE, TRUE, Clauses


def reached(
    clauses: Clauses,
    ends: Sequence[tuple[str, str]],
    closed: Sequence[int],
    sources: Mapping[str, int],
    ending: Mapping[str, int],
) -> dict[str, int]:
    """Return a literal for each node at an edge or source: true where it is joined to a source.

    Parameters
    ----------
    clauses : Clauses
        What the literals are put together in.
    ends : sequence of (str, str)
        The nodes that each edge is between.
    closed : sequence of int
        For each edge the literal that is true where it is closed.
    sources : mapping
        For each node that may be a source, the literal that is true where it is one.
    ending : mapping
        For each node that may pass nothing on, the literal that is true where it does not.
    """
    certain = {node for given in (sources, ending) for node, one in given.items() if one == TRUE}
    apart = split(ends, certain)
    pieces: dict[str, list[Node]] = {node: [] for node in sources}
    for pair, own in zip(ends, apart, strict=True):
        for node, piece in zip(pair, own, strict=True):
            pieces.setdefault(node, []).append(piece)
    start = {piece: [sources.get(node, FALSE)] for node, own in pieces.items() for piece in own}
    passing = {piece: -ending.get(node, FALSE) for node, own in pieces.items() for piece in own}
    graph = _Graph(clauses, apart, closed, passing)
    found = _over_blocks(graph, start)
    return {
        node: clauses.some([sources.get(node, FALSE), *(found[piece] for piece in own)])
        for node, own in pieces.items()
    }


class _Graph(Struct, frozen=True):
    """Edges with the literals of where they are closed, and nodes with those of where they pass on."""

    clauses: Clauses
    ends: Sequence[Ends]
    closed: Sequence[int]
    passing: Mapping[Node, int]


def _over_blocks(graph: _Graph, start: dict[Node, list[int]]) -> dict[Node, int]:
    """Return what is reached: once towards the tops of the blocks, then back down from them."""
    some = graph.clauses.some
    hung = blocks(graph.ends)
    for block in hung:
        below = {node: some(start[node]) for node in block.below}
        start[block.top].append(_by_levels(graph, block, {**below, block.top: FALSE})[block.top])
    found = {node: some(literals) for node, literals in start.items()}
    for block in reversed(hung):
        found |= _by_levels(graph, block, {node: found[node] for node in (block.top, *block.below)})
    return found


def _by_levels(graph: _Graph, block: Block, start: dict[Node, int]) -> dict[Node, int]:
    """Return what is reached within a block, from where some of it is reached already."""
    every, some = graph.clauses.every, graph.clauses.some
    level = start
    for _ in block.below:
        ways = {node: [literal] for node, literal in start.items()}
        for number in block.edges:
            for one, other in (graph.ends[number], graph.ends[number][::-1]):
                passed = (graph.closed[number], level[other], graph.passing[other])
                ways[one].append(every(passed))
        after = {node: some(literals) for node, literals in ways.items()}
        if after == level:
            break
        level = after
    return level
