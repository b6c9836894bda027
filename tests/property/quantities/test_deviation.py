"""Laws of doubts."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from trimwright.quantities import Doubt, normal_quantile

HALVES = st.floats(0.01, 50.0)
SCORES = st.lists(st.floats(-8.0, 8.0), min_size=2, max_size=20).map(sorted).map(np.array)
SIZES = st.floats(1e-3, 1e3)


@st.composite
def doubts(draw: st.DrawFn) -> Doubt:
    kind = draw(st.sampled_from(["normal", "uniform", "split"]))
    half = draw(HALVES)
    return Doubt(kind, half, draw(HALVES) if kind == "split" else half)  # type: ignore[arg-type]  # drawn from its own words


@given(doubts(), SCORES)
def test_deviation_grows_with_the_score(doubt: Doubt, score: np.ndarray) -> None:
    assert np.all(np.diff(doubt.deviation(score)) >= -1e-8 * (doubt.minus + doubt.plus))


@given(doubts(), SCORES)
def test_a_doubt_turned_round_turns_its_deviations(doubt: Doubt, score: np.ndarray) -> None:
    turned = Doubt(doubt.kind, minus=doubt.plus, plus=doubt.minus)
    np.testing.assert_allclose(
        turned.deviation(-score), -doubt.deviation(score), rtol=1e-7, atol=1e-8
    )


@given(doubts(), SCORES, SIZES)
def test_deviation_scales_with_the_doubt(doubt: Doubt, score: np.ndarray, size: float) -> None:
    scaled = Doubt(doubt.kind, doubt.minus * size, doubt.plus * size)
    np.testing.assert_allclose(
        scaled.deviation(score), size * doubt.deviation(score), rtol=1e-7, atol=1e-8 * size
    )


@given(HALVES, HALVES)
def test_each_side_of_a_split_holds_its_share_of_the_area(minus: float, plus: float) -> None:
    mode = normal_quantile(np.array([minus / (minus + plus)]))
    np.testing.assert_allclose(Doubt("split", minus, plus).deviation(mode), 0.0, atol=1e-6)
