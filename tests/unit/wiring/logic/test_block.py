"""Blocks of graphs that can be seen at a glance."""

from trimwright.wiring.logic.block import BlockTree, blocks, split

# two rings that share c, and a single edge from e
BOW = [("a", "b"), ("b", "c"), ("c", "a"), ("c", "d"), ("d", "e"), ("e", "c"), ("e", "f")]


def test_rings_that_share_a_node_are_blocks_of_their_own() -> None:
    found = blocks(BOW)
    assert [block.edges for block in found] == [(6,), (3, 4, 5), (0, 1, 2)]
    assert [block.top for block in found] == ["e", "c", "a"]


def test_a_way_passes_every_edge_of_the_blocks_between() -> None:
    tree = BlockTree(blocks(BOW))
    assert tree.between("a", "b") == {0, 1, 2}
    assert tree.between("a", "f") == set(range(7))
    assert tree.between("d", "f") == {3, 4, 5, 6}
    assert tree.between("c", "c") == set()
    assert tree.between("a", "elsewhere") is None


def test_two_edges_side_by_side_are_one_block() -> None:
    (found,) = blocks([("a", "b"), ("b", "a")])
    assert (found.top, found.below, found.edges) == ("a", ("b",), (0, 1))


def test_what_hangs_from_a_source_hangs_apart() -> None:
    assert split([("a", "b"), ("a", "c")], {"a"}) == [(("a", 0), "b"), (("a", 1), "c")]
