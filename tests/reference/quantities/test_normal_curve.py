"""The normal curve against printed tables and scipy.

Percentage points as printed in the NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1,
to the four and three decimals of that kind of table; the rest against scipy.stats.norm.
"""

import numpy as np
import pytest
from scipy.stats import norm, uniform

from trimwright.quantities import Doubt, lower_share, score_of


@pytest.mark.parametrize(
    ("score", "printed"),
    [("0.50", "0.69146"), ("1.00", "0.84134"), ("1.96", "0.97500"), ("3.00", "0.99865")],
)
def test_area_under_the_curve(score: str, printed: str) -> None:
    assert lower_share(np.array([float(score)]))[0] == pytest.approx(float(printed), abs=0.5e-5)


@pytest.mark.parametrize(
    ("share", "printed"),
    [("0.90", "1.282"), ("0.95", "1.645"), ("0.975", "1.960"), ("0.99", "2.326")],
)
def test_percentage_points(share: str, printed: str) -> None:
    assert score_of(np.array([float(share)]))[0] == pytest.approx(float(printed), abs=0.5e-3)


def test_share_agrees_with_scipy() -> None:
    score = np.linspace(-36.0, 36.0, 14_401)
    ours, theirs = lower_share(score), norm.cdf(score)
    np.testing.assert_allclose(ours, theirs, rtol=0, atol=1e-15)
    np.testing.assert_allclose(ours[score < 0], theirs[score < 0], rtol=1e-8)


def test_score_agrees_with_scipy() -> None:
    tail = 10 ** np.linspace(-290.0, np.log10(0.5), 3001)
    np.testing.assert_allclose(score_of(tail), norm.ppf(tail), rtol=0, atol=2e-9)
    upper = 1 - tail[tail > 1e-15]
    np.testing.assert_allclose(score_of(upper), norm.ppf(upper), rtol=0, atol=2e-9)


def test_uniform_deviation_agrees_with_scipy() -> None:
    """JCGM 101:2008, 6.4.2: a rectangular quantity is the inverse of its own distribution."""
    score = np.linspace(-8.0, 8.0, 321)
    theirs = uniform(loc=-3.0, scale=6.0).ppf(norm.cdf(score))
    doubt = Doubt("uniform", 3.0, 3.0)
    np.testing.assert_allclose(doubt.deviation(score), theirs, rtol=0, atol=1e-9)
    assert doubt.sigma == pytest.approx(uniform(loc=-3.0, scale=6.0).std(), rel=1e-14)
