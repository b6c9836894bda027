import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from trimwright.chance import sobol_scores
from trimwright.quantities import normal_cdf

SEEDS = st.integers(0, 2**31)


@settings(max_examples=15, deadline=None)
@given(seed=SEEDS, factors=st.integers(1, 200))
def test_every_scramble_puts_one_point_into_each_slice_of_each_factor(
    seed: int, factors: int
) -> None:
    # scrambling must keep the net: 64 points, one in each 1/64 of every coordinate
    chances = normal_cdf(sobol_scores(factors, scrambles=4, each=64, seed=seed))
    slices = np.floor(chances.reshape(4, 64, factors) * 64).astype(int)
    assert np.array_equal(
        np.sort(slices, axis=1), np.broadcast_to(np.arange(64)[:, None], slices.shape)
    )


@settings(max_examples=15, deadline=None)
@given(seed=SEEDS)
def test_every_scramble_fills_the_squares_of_the_first_two_factors(seed: int) -> None:
    # the first two dimensions are a (0, m, 2)-net: one of 64 points in each cell of 8 x 8, 16 x 4
    chances = normal_cdf(sobol_scores(2, scrambles=2, each=64, seed=seed)).reshape(2, 64, 2)
    for across, along in ((8, 8), (16, 4), (4, 16)):
        cells = np.floor(chances * [across, along]).astype(int)
        names = cells[..., 0] * along + cells[..., 1]
        assert np.array_equal(np.sort(names, axis=1), np.tile(np.arange(64), (2, 1)))


@settings(max_examples=20, deadline=None)
@given(seed=SEEDS, few=st.integers(0, 20), more=st.integers(0, 20))
def test_further_factors_leave_the_others_as_they_were(seed: int, few: int, more: int) -> None:
    some = sobol_scores(few, scrambles=2, each=16, seed=seed)
    assert np.array_equal(sobol_scores(few + more, scrambles=2, each=16, seed=seed)[:, :few], some)
