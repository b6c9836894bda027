"""The two-piece normal curve: John, Commun. Statist. Theory Methods 11(8), 1982, 879-885.

Density A exp(-x^2 / 2 s1^2) below the mode and A exp(-x^2 / 2 s2^2) above it,
A = sqrt(2/pi) / (s1 + s2). The oracle integrates that density numerically.
"""

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import norm

from trimwright.quantities import Doubt

CASES = [(1.0, 3.0), (3.0, 1.0), (2.0, 2.0), (0.2, 8.0), (0.0, 4.0)]


def density(x: float, low: float, high: float) -> float:
    sigma = low if x < 0 else high
    height = np.sqrt(2 / np.pi) / (low + high)
    return float(height * np.exp(-0.5 * (x / sigma) ** 2)) if sigma else 0.0


def moment(power: int, low: float, high: float) -> float:
    return sum(
        float(quad(lambda x: x**power * density(x, low, high), *ends, epsabs=1e-13)[0])
        for ends in ((-20 * low, 0.0), (0.0, 20 * high))
    )


@pytest.mark.parametrize(("minus", "plus"), CASES)
def test_mean_and_sigma_are_those_of_the_density(minus: float, plus: float) -> None:
    low, high = minus / 2, plus / 2
    mean, square = moment(1, low, high), moment(2, low, high)
    doubt = Doubt("split", minus, plus)
    assert moment(0, low, high) == pytest.approx(1.0, abs=1e-12)
    assert doubt.mean_shift == pytest.approx(mean, abs=1e-11)
    assert doubt.sigma == pytest.approx(np.sqrt(square - mean**2), rel=1e-10)


@pytest.mark.parametrize(("minus", "plus"), CASES)
@pytest.mark.parametrize("score", [-3.0, -1.0, -0.2, 0.0, 0.7, 2.0, 4.0])
def test_the_area_below_a_deviation_is_that_of_its_score(
    minus: float, plus: float, score: float
) -> None:
    low, high = minus / 2, plus / 2
    end = float(Doubt("split", minus, plus).deviation(np.array([score]))[0])
    below = quad(density, -20 * low, min(end, 0.0), args=(low, high), epsabs=1e-13)[0]
    above = quad(density, 0.0, max(end, 0.0), args=(low, high), epsabs=1e-13)[0]
    assert below + above == pytest.approx(norm.cdf(score), abs=1e-9)
