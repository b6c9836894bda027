"""The normal curve against a printed table, closed forms and scipy.

Areas below a score as the standard normal table of math.com prints them, to five decimals; the
gaps as chances follow from Phi and its inverse alone; the rest against scipy.stats.norm.
"""

import numpy as np
import pytest
from scipy.stats import norm, uniform

from trimwright.quantities import Doubt, normal_cdf, normal_quantile


@pytest.mark.parametrize(
    ("score", "printed"),
    [
        ("-3.50", "0.00023"),
        ("-3.00", "0.00135"),
        ("-2.90", "0.00187"),
        ("-2.58", "0.00494"),
        ("-2.50", "0.00621"),
        ("-2.31", "0.01044"),
    ],
)
def test_area_below_a_score(score: str, printed: str) -> None:
    assert normal_cdf(np.array([float(score)]))[0] == pytest.approx(float(printed), abs=0.5e-5)


@pytest.mark.parametrize(
    ("mean", "sigma", "clears", "cut_95", "cut_99"),
    [(2.0, 1.5, 0.908789, 0.467280, 1.489522), (1.0, 2.0, 0.691462, 2.289707, 3.652696)],
)
def test_a_normal_gap_and_the_cut_that_makes_it_sure(
    mean: float, sigma: float, clears: float, cut_95: float, cut_99: float
) -> None:
    """P(gap > 0) = Phi(mean/sigma); a cut of z_p sigma - mean makes it p."""
    assert normal_cdf(np.array([mean / sigma]))[0] == pytest.approx(clears, abs=0.5e-6)
    cuts = normal_quantile(np.array([0.95, 0.99])) * sigma - mean
    np.testing.assert_allclose(cuts, [cut_95, cut_99], rtol=0, atol=0.5e-6)


def test_uniform_deviation_agrees_with_scipy() -> None:
    """JCGM 101:2008, 6.4.2: a rectangular quantity is the inverse of its own distribution."""
    score = np.linspace(-8.0, 8.0, 321)
    theirs = uniform(loc=-3.0, scale=6.0).ppf(norm.cdf(score))
    doubt = Doubt("uniform", 3.0, 3.0)
    np.testing.assert_allclose(doubt.deviation(score), theirs, rtol=0, atol=1e-9)
    assert doubt.sigma == pytest.approx(uniform(loc=-3.0, scale=6.0).std(), rel=1e-14)
