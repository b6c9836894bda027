from math import inf

import numpy as np
import pytest

from trimwright.chance import Contribution, coverage_factor, propagate, slopes, student_cdf


def test_three_and_four_make_five() -> None:
    found = propagate([Contribution("a", 3.0, 1.0), Contribution("b", -2.0, 2.0)])
    assert (found.sigma, found.freedom) == (5.0, inf)
    assert found.parts == (("a", 3.0), ("b", -4.0))


def test_what_moves_together_may_cancel() -> None:
    pair = [
        Contribution("left", 1.0, 2.0, group="gauge"),
        Contribution("right", -1.0, 2.0, 9, "gauge"),
    ]
    assert propagate(pair).sigma == 0.0


def test_freedom_of_two_equal_inputs_adds() -> None:
    # u^4 over the sum: (2 s^2)^2 / (2 s^4 / 8) = 16
    pair = [Contribution(name, 1.0, 1.0, 8) for name in "ab"]
    assert propagate(pair).freedom == pytest.approx(16.0)


def test_slopes() -> None:
    found = slopes(
        lambda x: float(x[0] ** 2 + 3 * x[2]), np.array([2.0, 1, 1]), np.array([0.1, 0, 1])
    )
    assert found == pytest.approx([4.0, 0.0, 3.0])


def test_normal_factor() -> None:
    assert coverage_factor(0.95, inf) == pytest.approx(1.959964, abs=1e-6)


def test_nonsense_is_refused() -> None:
    with pytest.raises(ValueError, match="contributions must not be empty"):
        propagate([])
    with pytest.raises(ValueError, match="sigma must be 0 or more, got -1"):
        Contribution("a", 1.0, -1.0)
    with pytest.raises(ValueError, match="freedom must be above 0, got 0"):
        Contribution("a", 1.0, 1.0, 0.0)
    with pytest.raises(ValueError, match="freedom must be above 0 and finite, got inf"):
        student_cdf(1.0, inf)
    with pytest.raises(ValueError, match="p must be above 0 and below 1, got 1"):
        coverage_factor(1.0, 5.0)
