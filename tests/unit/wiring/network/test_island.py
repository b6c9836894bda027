import numpy as np

from trimwright.wiring.network.island import islands


def test_a_long_chain_hangs_together_until_it_is_cut() -> None:
    rng = np.random.default_rng(1)
    order = rng.permutation(500)
    ends = np.stack([order[:-1], order[1:]], axis=1)
    joined = np.ones((2, 499), np.bool_)
    joined[1, 200] = False
    labels = islands(ends, joined, 500)
    assert (labels[0] == 0).all()
    one, other = order[:201], order[201:]
    assert (labels[1, one] == one.min()).all()
    assert (labels[1, other] == other.min()).all()


def test_nodes_that_nothing_joins_are_alone() -> None:
    none = np.zeros((1, 0), np.bool_)
    assert islands(np.zeros((0, 2), np.intp), none, 3).tolist() == [[0, 1, 2]]
