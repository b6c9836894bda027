"""First-order Sobol indices with closed forms: the g-function and Ishigami's function.

g: product of (|4x - 2| + a)/(1 + a), x uniform; V_i = 1/(3 (1 + a_i)^2), S_i = V_i over the product
of (1 + V_i) less 1. Ishigami with a = 7, b = 0.1. SALib is the second opinion.
"""

from collections.abc import Callable

import numpy as np
import pytest
from numpy.typing import NDArray
from SALib.analyze import sobol as salib_analysis
from SALib.sample import sobol as salib_sample

from trimwright.chance import shares, sobol_scores
from trimwright.quantities import normal_cdf

Floats = NDArray[np.float64]
LONG = (0.0, 1.0, 4.5, 9.0, 99.0, 99.0, 99.0, 99.0)
SHORT = (0.0, 0.5, 3.0, 9.0, 99.0, 99.0)
S_LONG = (0.716192, 0.179048, 0.023676, 0.007162, 0.0000716, 0.0000716, 0.0000716, 0.0000716)
S_SHORT = (0.586781, 0.260792, 0.036674, 0.005868, 0.000059, 0.000059)
S_ISHIGAMI = (0.313905, 0.442411, 0.0)
TOLERANCE = 0.01  # at 4,096 draws


def g_function(a: tuple[float, ...]) -> Callable[[Floats], Floats]:
    """Return Sobol's g for these coefficients."""
    weights = np.array(a)
    return lambda x: np.prod((np.abs(4 * x - 2) + weights) / (1 + weights), axis=1)


def ishigami(x: Floats) -> Floats:
    """Return Ishigami's function of x in 0..1."""
    t = np.pi * (2 * x - 1)
    return np.asarray(
        np.sin(t[:, 0]) + 7 * np.sin(t[:, 1]) ** 2 + 0.1 * t[:, 2] ** 4 * np.sin(t[:, 0])
    )


CASES = [(g_function(LONG), S_LONG), (g_function(SHORT), S_SHORT), (ishigami, S_ISHIGAMI)]
IDS = ["g of eight", "g of six", "ishigami"]


@pytest.mark.parametrize("seed", [1, 2, 3])
@pytest.mark.parametrize(("function", "expected"), CASES, ids=IDS)
def test_closed_form(
    function: Callable[[Floats], Floats], expected: tuple[float, ...], seed: int
) -> None:
    scores = sobol_scores(len(expected), seed=seed)
    found = shares(scores, function(normal_cdf(scores)), degree=8, of="rank")
    assert found == pytest.approx(expected, abs=TOLERANCE)


@pytest.mark.parametrize(("function", "expected"), CASES, ids=IDS)
def test_salib_agrees(function: Callable[[Floats], Floats], expected: tuple[float, ...]) -> None:
    names = [f"x{i}" for i in range(len(expected))]
    problem = {"num_vars": len(names), "names": names, "bounds": [[0.0, 1.0]] * len(names)}
    sample = salib_sample.sample(problem, 2**13, calc_second_order=False, seed=1)
    theirs = salib_analysis.analyze(
        problem, function(sample), calc_second_order=False, num_resamples=2, seed=1
    )
    scores = sobol_scores(len(expected), seed=1)
    found = shares(scores, function(normal_cdf(scores)), degree=8, of="rank")
    assert found == pytest.approx(theirs["S1"], abs=TOLERANCE)


def test_linear_stack_is_exact() -> None:
    # standard deviations 2, 1, 0.5, 0.5: shares are their squares over 5.5
    scores = sobol_scores(4, seed=1)
    found = shares(scores, scores @ np.array([2.0, 1.0, 0.5, 0.5]))
    assert found == pytest.approx((0.727273, 0.181818, 0.045455, 0.045455), abs=1e-6)
