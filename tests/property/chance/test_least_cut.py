import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from trimwright.chance import LeastCut, Unreachable, least_shift, re_measure, shares, sobol_scores

SCORES = sobol_scores(5, scrambles=4, each=64, seed=1)
SLOPES = st.lists(st.floats(-2, 2), min_size=5, max_size=5).map(np.array)
MEANS = st.floats(-3, 3)


@given(slopes=SLOPES, mean=MEANS, wanted=st.floats(0.01, 1.0))
def test_one_cut_is_the_order_statistic(slopes: np.ndarray, mean: float, wanted: float) -> None:
    margin = mean + SCORES @ slopes
    found = least_shift(margin[:, None], np.ones((1, 1)), np.ones(1), np.full(1, 99.0), wanted)
    needed = int(np.ceil(wanted * margin.size - 1e-9))
    assert isinstance(found, LeastCut)
    assert found.amounts[0] == pytest.approx(max(0.0, -np.sort(margin)[-needed]), abs=1e-8)


@settings(max_examples=25, deadline=None)
@given(
    slopes=SLOPES,
    others=SLOPES,
    mean=MEANS,
    third=st.sampled_from([-0.3, 0.0, 0.3]),
    wanted=st.floats(0.5, 0.99),
)
def test_what_is_returned_reaches_and_stays_within_bounds(
    slopes: np.ndarray, others: np.ndarray, mean: float, third: float, wanted: float
) -> None:
    margins = mean + SCORES @ np.column_stack([slopes, others])
    effects, most = np.array([[1.0, -0.2], [third, 0.8]]), np.array([4.0, 6.0])
    found = least_shift(margins, effects, np.array([1.0, 2.0]), most, wanted)
    amounts = np.array(found.best if isinstance(found, Unreachable) else found.amounts)
    assert np.all(amounts >= 0)
    assert np.all(amounts <= most)
    clearing = np.mean(np.all(margins + effects @ amounts >= -1e-9, axis=1))
    assert clearing == found.reached
    assert (clearing >= wanted - 1e-9) == isinstance(found, LeastCut)


@settings(max_examples=25, deadline=None)
@given(slopes=SLOPES, mean=MEANS, wanted=st.floats(0.5, 0.98))
def test_more_certainty_never_costs_less(slopes: np.ndarray, mean: float, wanted: float) -> None:
    margin = (mean + SCORES @ slopes)[:, None]
    one = np.ones(1)
    costs = []
    for chance in (wanted, wanted + 0.02):
        found = least_shift(margin, np.ones((1, 1)), one, 99 * one, chance)
        assert isinstance(found, LeastCut)
        costs.append(found.cost)
    assert costs[0] <= costs[1]


@settings(max_examples=10, deadline=None)
@given(slopes=SLOPES, mean=st.floats(-1, 3), ratio=st.floats(0, 4))
def test_a_reading_is_not_expected_to_change_the_certainty(
    slopes: np.ndarray, mean: float, ratio: float
) -> None:
    # the law of total probability: P(clears) = E[P(clears | reading)]; 4,096 rows
    assume(np.abs(slopes).max() > 0.01)
    scores = sobol_scores(5, seed=2)
    found = re_measure(scores, mean + scores @ slopes, 0, ratio, 0.95)
    assert found.expected == pytest.approx(found.today, abs=0.01)


@settings(max_examples=25, deadline=None)
@given(slopes=SLOPES, scale=st.floats(0.1, 10), order=st.permutations(range(5)))
def test_shares_follow_their_factors(slopes: np.ndarray, scale: float, order: list[int]) -> None:
    output = SCORES @ (slopes + 0.1) + 0.3 * SCORES[:, 0] ** 2
    found = shares(SCORES, output)
    assert np.all(found >= 0)
    assert found.sum() <= 1 + 1e-9
    assert shares(SCORES, 5 - scale * output) == pytest.approx(found, abs=1e-9)
    assert shares(SCORES[:, order], output) == pytest.approx(found[list(order)], abs=1e-9)


@settings(max_examples=100, deadline=None)
@given(
    seed=st.integers(0, 2**31),
    effects=st.lists(st.sampled_from([-1.0, -0.5, 0.0, 0.3, 1.0]), min_size=1, max_size=4),
    wanted=st.sampled_from([0.2, 0.5, 0.8, 1.0]),
)
def test_one_cut_against_every_place_where_a_row_turns(
    seed: int, effects: list[float], wanted: float
) -> None:
    margins = np.random.default_rng(seed).normal(0.3, 1.0, (12, len(effects)))
    slopes, most = np.array(effects), 2.5
    turns = [-m / e for row in margins for m, e in zip(row, slopes, strict=True) if e]
    places = sorted({0.0, *(place for place in turns if 0 < place <= most)})
    clears = [np.mean(np.all(margins + slopes * place >= -1e-12, axis=1)) for place in places]
    enough = [place for place, share in zip(places, clears, strict=True) if share >= wanted - 1e-12]
    found = least_shift(margins, slopes[:, None], np.ones(1), np.full(1, most), wanted)
    if enough:
        assert isinstance(found, LeastCut)
        assert found.amounts[0] == pytest.approx(enough[0], abs=1e-9)
    else:
        assert isinstance(found, Unreachable)
        assert found.reached == pytest.approx(max(clears))
