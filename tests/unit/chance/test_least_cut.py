import itertools

import numpy as np
import pytest
from numpy.typing import NDArray

from trimwright.chance import LeastCut, Unreachable, least_shift, sobol_scores

Floats = NDArray[np.float64]
ONE = np.ones(1)


def grid_cost(
    margins: Floats, effects: Floats, costs: Floats, most: Floats, wanted: float, levels: int
) -> float:
    """Return the least cost over a grid of amounts, each tried in every row."""
    needed, best = wanted * len(margins), np.inf
    axes = [np.linspace(0, limit, levels) for limit in most]
    for amounts in sorted(itertools.product(*axes), key=lambda a: float(costs @ np.array(a))):
        cuts = np.array(amounts)
        if np.sum(np.all(margins + effects @ cuts >= 0, axis=1)) >= needed:
            best = float(costs @ cuts)
            break
    return best


def test_one_cut_is_an_order_statistic() -> None:
    margins = np.array([[-3.0], [-2.0], [-1.0], [4.0]])
    for wanted, cut in ((0.25, 0.0), (0.5, 1.0), (0.75, 2.0), (1.0, 3.0), (0.6, 2.0)):
        found = least_shift(margins, np.ones((1, 1)), ONE, 9 * ONE, wanted)
        assert isinstance(found, LeastCut)
        assert found.amounts == (cut,)
        assert found.reached >= wanted


def test_a_cut_that_costs_another_gap_stops_in_time() -> None:
    # the nose gains what the wall loses: at 1 mm rows 1 and 2 clear, at 2 mm only row 1 would
    margins = np.array([[-1.0, 3.0], [-0.5, 1.0], [-2.0, 0.5]])
    effects = np.array([[1.0], [-1.0]])
    found = least_shift(margins, effects, ONE, 9 * ONE, 2 / 3)
    assert isinstance(found, LeastCut)
    assert found.amounts == (1.0,)
    none = least_shift(margins, effects, ONE, 9 * ONE, 1.0)
    assert isinstance(none, Unreachable)
    assert (none.best, none.reached) == ((1.0,), 2 / 3)


def test_bound_is_named() -> None:
    margins = np.array([[-2.0, -1.0]])
    effects = np.array([[1.0, 0.0], [0.0, 1.0]])
    found = least_shift(margins, effects, np.ones(2), np.array([2.0, 5.0]), 1.0)
    assert isinstance(found, LeastCut)
    assert found.amounts == pytest.approx((2.0, 1.0))
    assert found.at_bound == (0,)
    assert found.cost == pytest.approx(3.0)
    short = least_shift(margins, effects, np.ones(2), np.array([1.9, 5.0]), 1.0)
    assert isinstance(short, Unreachable)
    assert short.reached == 0.0


def test_the_cheaper_of_two_cuts_is_taken() -> None:
    effects = np.array([[1.0, 1.0]])
    found = least_shift(np.array([[-2.0]]), effects, np.array([3.0, 1.0]), np.full(2, 9.0), 1.0)
    assert isinstance(found, LeastCut)
    assert found.amounts == pytest.approx((0.0, 2.0))


@pytest.mark.parametrize("seed", range(8))
def test_two_and_three_cuts_against_a_grid(seed: int) -> None:
    # never dearer than the best of a grid by more than 0.5 %
    rng = np.random.default_rng(seed)
    cuts = 2 + seed % 2
    scores = sobol_scores(12, scrambles=4, each=64, seed=seed)
    margins = scores @ rng.standard_normal((12, 3)) * 0.3 - rng.uniform(0, 1, 3)
    effects = rng.uniform(0.1, 1, (3, cuts))
    costs, most = rng.uniform(0.5, 2, cuts), np.full(cuts, 15.0)
    found = least_shift(margins, effects, costs, most, 0.9)
    assert isinstance(found, LeastCut)
    amounts = np.array(found.amounts)
    assert np.mean(np.all(margins + effects @ amounts >= -1e-9, axis=1)) >= 0.9
    grid = grid_cost(margins, effects, costs, most, 0.9, 121 if cuts == 2 else 31)
    assert found.cost <= grid * 1.005


def test_shapes_that_disagree_are_refused() -> None:
    with pytest.raises(ValueError, match=r"must be \(rows, gaps\), .*, got \(4, 2\), \(3, 1\)"):
        least_shift(np.zeros((4, 2)), np.zeros((3, 1)), ONE, ONE, 0.9)
    with pytest.raises(ValueError, match="costs and most must be 0 or more"):
        least_shift(np.zeros((4, 1)), np.ones((1, 1)), -ONE, ONE, 0.9)
    with pytest.raises(ValueError, match="wanted must be above 0 and up to 1, got 0"):
        least_shift(np.zeros((4, 1)), np.ones((1, 1)), ONE, ONE, 0.0)


def test_a_gap_no_cut_helps_is_not_passed_over() -> None:
    margins = np.array([[-1.0, -1.0], [-1.0, 3.0]])
    effects = np.array([[1.0], [0.0]])
    half = least_shift(margins, effects, ONE, 9 * ONE, 0.5)
    assert isinstance(half, LeastCut)
    assert (half.amounts, half.reached) == ((1.0,), 0.5)
    assert isinstance(least_shift(margins, effects, ONE, 9 * ONE, 1.0), Unreachable)


@pytest.mark.parametrize("never", [-np.inf, np.nan])
def test_a_row_that_no_cut_helps_counts_against(never: float) -> None:
    margins = np.array([[-1.0, -2.0], [-1.0, -2.0], [-1.0, -2.0], [never, 5.0]])
    found = least_shift(margins, np.eye(2), np.ones(2), np.full(2, 9.0), 0.75)
    assert isinstance(found, LeastCut)
    assert found.amounts == pytest.approx((1.0, 2.0))
    assert found.reached == 0.75
    assert isinstance(
        least_shift(margins, np.eye(2), np.ones(2), np.full(2, 9.0), 1.0), Unreachable
    )


def test_the_first_gap_to_close_ends_the_cut() -> None:
    # 2.5 mm would clear the nose, but the second wall takes only 2
    effects = np.array([[1.0], [-1.0], [-1.0]])
    near = least_shift(np.array([[-1.5, 3.0, 2.0]]), effects, ONE, 9 * ONE, 1.0)
    assert isinstance(near, LeastCut)
    assert near.amounts == (1.5,)
    far = least_shift(np.array([[-2.5, 3.0, 2.0]]), effects, ONE, 9 * ONE, 1.0)
    assert isinstance(far, Unreachable)
