"""Nodes taken out of networks and put back, against solving the whole network."""

import numpy as np
import pytest
from numpy.typing import NDArray

from trimwright.wiring.network.reduction import branches, stamped, thinned

NODES, ROWS = 40, 5

Floats = NDArray[np.float64]


def solved(matrix: Floats, inflow: Floats) -> Floats:
    """Return voltages against node 0, shape (rows, nodes)."""
    found = np.zeros_like(inflow)
    found[:, 1:] = np.linalg.solve(matrix[:, 1:, 1:], inflow[:, 1:, None])[:, :, 0]
    return found


@pytest.mark.parametrize("seed", range(8))
def test_what_is_left_and_what_is_put_back_stand_as_in_the_whole(seed: int) -> None:
    rng = np.random.default_rng(seed)
    tree = [(int(rng.integers(k)), k) for k in range(1, NODES)]
    meshes = [(int(a), int(b)) for a, b in (rng.choice(NODES, 2, replace=False) for _ in range(9))]
    ends = np.array([*tree, *meshes, *tree[:5]])  # some side by side
    siemens = np.exp(rng.uniform(-3, 3, (ROWS, len(ends))))
    inflow = rng.normal(size=(ROWS, NODES))
    keep = rng.random(NODES) < 1 / 5
    keep[0] = True
    network, left, taken = thinned(branches(ends, siemens, inflow), keep)
    assert left[keep].all()
    beside = np.bincount(network.ends[1:].ravel(), minlength=NODES)
    assert (beside[left & ~keep] > 2).all()
    assert not beside[~left].any()
    places = np.cumsum(left) - 1
    matrix = stamped(places[network.ends], network.siemens.T, int(left.sum()))
    voltages = np.zeros((NODES, ROWS))
    voltages[left] = solved(matrix, network.inflow[left].T).T
    for one in taken:
        one.put_back(voltages)
    whole = solved(stamped(ends, siemens, NODES), inflow)
    np.testing.assert_allclose(voltages.T, whole, rtol=1e-9, atol=1e-9)


def test_between_two_branches_one_is_left_of_both_their_ohms() -> None:
    # 1 + 2 + 3 ohm one after the other, and 6 ohm beside them
    ends = np.array([[0, 1], [1, 2], [2, 3], [3, 0]])
    ohms = np.array([[1.0, 2.0, 3.0, 6.0]])
    keep = np.array([True, False, False, True])
    network, _, _ = thinned(branches(ends, 1 / ohms, np.zeros((1, 4))), keep)
    assert network.ends.tolist() == [[0, 0], [0, 3]]
    assert network.siemens[1, 0] == pytest.approx(1 / 3)


def test_a_thin_branch_beside_thick_ones_keeps_all_its_digits() -> None:
    # 1e-12 S after 1e12 S, and then a loose end: nothing is lost by taking one from another
    ends = np.array([[0, 1], [1, 2], [2, 3], [3, 4]])
    siemens = np.array([[1e-12, 1e12, 3e-12, 1e12]])
    keep = np.array([True, False, False, True, False])
    network, _, _ = thinned(branches(ends, siemens, np.zeros((1, 5))), keep)
    assert network.siemens[1, 0] == pytest.approx(0.75e-12, rel=1e-14)


def test_a_part_that_hangs_on_nothing_stands_about_its_foot() -> None:
    # 2 A into one end of 4 S and out at the other, nothing to node 0
    inflow = np.array([[0.0, 2.0, -2.0]])
    keep = np.array([True, False, False])
    _, left, taken = thinned(branches(np.array([[1, 2]]), np.array([[4.0]]), inflow), keep)
    voltages = np.zeros((3, 1))
    for one in taken:
        one.put_back(voltages)
    assert left.tolist() == [True, False, False]
    assert voltages[1, 0] - voltages[2, 0] == pytest.approx(0.5)
