"""Reach as clauses: which nodes are joined to a source, as the least fixed point.

Ring by ring it is unrolled by levels: a node is reached at a level if it is a source, or a closed
edge leads to one reached a level earlier; no simple path in a block has more edges than the block
has nodes less one. Level 0 is the sources alone, so a dead ring never feeds itself. Between blocks
it is one pass to the top and one back, as nothing is reached from a source by leaving a block and
coming back.
"""

from collections.abc import Mapping, Sequence

from trimwright.wiring.logic.block import Block, Ends, Node, blocks, split
from trimwright.wiring.logic.clauses import FALSE, TRUE, Clauses


def reached(
    clauses: Clauses,
    ends: Sequence[tuple[str, str]],
    closed: Sequence[int],
    sources: Mapping[str, int],
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
    """
    always = {node for node, literal in sources.items() if literal == TRUE}
    apart = split(ends, always)
    given: dict[Node, list[int]] = {}
    for pair, own in zip(ends, apart, strict=True):
        for node, piece in zip(pair, own, strict=True):
            given[piece] = [sources.get(node, FALSE)]
    found = _over_blocks(clauses, apart, closed, given)
    everywhere = dict.fromkeys([*(end for pair in ends for end in pair), *sources])
    return {node: found.get(node, sources.get(node, FALSE)) for node in everywhere}


def _over_blocks(
    clauses: Clauses, ends: Sequence[Ends], closed: Sequence[int], given: dict[Node, list[int]]
) -> dict[Node, int]:
    """Return what is reached: once towards the tops of the blocks, then back down from them."""
    hung = blocks(ends)
    for block in hung:
        start = {node: clauses.some(given[node]) for node in block.below}
        start[block.top] = FALSE
        given[block.top].append(_by_levels(clauses, block, ends, closed, start)[block.top])
    found = {node: clauses.some(literals) for node, literals in given.items()}
    for block in reversed(hung):
        start = {node: found[node] for node in (block.top, *block.below)}
        found |= _by_levels(clauses, block, ends, closed, start)
    return found


def _by_levels(
    clauses: Clauses,
    block: Block,
    ends: Sequence[Ends],
    closed: Sequence[int],
    start: dict[Node, int],
) -> dict[Node, int]:
    """Return what is reached within a block, from where some of it is reached already."""
    level = start
    for _ in block.below:
        ways = {node: [literal] for node, literal in start.items()}
        for number in block.edges:
            a, b = ends[number]
            ways[a].append(clauses.every([closed[number], level[b]]))
            ways[b].append(clauses.every([closed[number], level[a]]))
        after = {node: clauses.some(literals) for node, literals in ways.items()}
        if after == level:
            break
        level = after
    return level
