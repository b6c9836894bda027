from typing import Literal

import numpy as np
import pytest
from numpy.typing import NDArray

from trimwright.chance import ProbeReading, condition, sobol_scores

Floats = NDArray[np.float64]


def test_one_reading_of_one_factor() -> None:
    # prior 0 +- 1, reading 2 +- 1: half way, with half the variance
    scores = sobol_scores(1, seed=1)
    found = condition(scores, scores, [ProbeReading(2.0, 1.0)], seed=1)
    assert found.scores.mean() == pytest.approx(1.0, abs=0.02)
    assert found.scores.var() == pytest.approx(0.5, abs=0.02)
    assert found.surprise == pytest.approx((2**0.5,))


def test_other_factors_stay_as_they_were() -> None:
    scores = sobol_scores(3, seed=1)
    found = condition(scores, scores[:, :1], [ProbeReading(2.0, 1.0)], seed=1)
    assert found.scores[:, 1:] == pytest.approx(scores[:, 1:], abs=1e-9)


def test_half_line() -> None:
    # a reading of at least 0, all but exact: the half normal law, mean sqrt(2/pi)
    scores = sobol_scores(1, seed=1)
    found = condition(scores, scores, [ProbeReading(0.0, 1e-3, "at least")], seed=1)
    assert found.scores.mean() == pytest.approx((2 / np.pi) ** 0.5, abs=0.03)
    assert found.scores.min() > -0.01
    assert found.surprise == pytest.approx((0.0,), abs=1e-4)


@pytest.mark.parametrize(
    ("sense", "off", "expected"),
    [
        ("at least", 3.0, 3.0),
        ("at least", -3.0, 0.0),
        ("at most", 3.0, 0.0),
        ("at most", -3.0, -3.0),
    ],
)
def test_only_the_wrong_side_surprises(
    sense: Literal["at least", "at most"], off: float, expected: float
) -> None:
    scores = sobol_scores(1, seed=1)
    reading = ProbeReading(off * 1.25**0.5, 0.5, sense)
    found = condition(scores, scores, [reading], seed=1)
    assert found.surprise[0] == pytest.approx(expected, abs=1e-3)
    assert found.unexplained is None


def test_a_reading_that_cannot_be_is_named() -> None:
    scores = sobol_scores(2, seed=1)
    predicted = scores @ np.array([[1.0, 0.5, 0.0], [0.0, 0.5, 1.0]])
    readings = [ProbeReading(0.1, 0.2), ProbeReading(0.0, 0.2), ProbeReading(9.0, 0.2)]
    found = condition(scores, predicted, readings, seed=1)
    assert found.unexplained == 2
    assert found.surprise[2] > 3.3


def test_no_readings_change_nothing() -> None:
    scores = sobol_scores(2, seed=1)
    found = condition(scores, np.zeros((4096, 0)), [], seed=1)
    assert np.array_equal(found.scores, scores)
    assert (found.surprise, found.unexplained) == ((), None)


def test_bent_prediction_is_met_better_with_the_model_at_hand() -> None:
    # p = exp(z): reading 3 +- 0.05 pins z to ln 3 +- 0.017
    def model(z: Floats) -> Floats:
        return np.exp(np.clip(z[:, :1], -4, 4))

    scores = sobol_scores(2, seed=1)
    reading = [ProbeReading(3.0, 0.05)]
    rough = condition(scores, model(scores), reading, seed=1).scores[:, 0]
    fine = condition(scores, model(scores), reading, seed=1, evaluate=model).scores[:, 0]
    assert np.abs(np.log(3) - fine).mean() < 0.5 * np.abs(np.log(3) - rough).mean()


def test_same_seed_gives_same_bytes_and_they_are_read_only() -> None:
    scores = sobol_scores(2, seed=1)
    readings = [ProbeReading(1.0, 0.5, "at least"), ProbeReading(0.5, 0.5, "at most")]
    one, two = (condition(scores, scores, readings, seed=4).scores for _ in range(2))
    assert one.tobytes() == two.tobytes()
    assert not one.flags.writeable


def test_nonsense_is_refused() -> None:
    scores = sobol_scores(2, scrambles=1, each=8, seed=1)
    with pytest.raises(ValueError, match="sigma must be above 0, got 0"):
        ProbeReading(1.0, 0.0)
    with pytest.raises(ValueError, match=r"predicted must have shape \(8, 1\), got \(8, 2\)"):
        condition(scores, scores, [ProbeReading(1.0, 1.0)], seed=1)
    with pytest.raises(ValueError, match="scores must have at least 6 rows, got 4"):
        condition(scores[:4], scores[:4, :1], [ProbeReading(1.0, 1.0)], seed=1)
    with pytest.raises(ValueError, match="at most 10 limits, got 11"):
        condition(scores, np.ones((8, 11)), [ProbeReading(1.0, 1.0, "at least")] * 11, seed=1)


def test_a_prediction_that_could_not_be_evaluated_is_refused() -> None:
    scores = sobol_scores(1, seed=1)
    predicted = scores.copy()
    predicted[3] = np.inf
    with pytest.raises(ValueError, match="predicted must be finite in every row"):
        condition(scores, predicted, [ProbeReading(1.0, 1.0)], seed=1)
