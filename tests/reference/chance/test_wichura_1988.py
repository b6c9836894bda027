"""Wichura (1988), algorithm AS 241: hash sums of the coefficients, and values by other libraries.

The paper gives, for checking a transcription, the sum of the coefficients' mantissas for each of
the three ranges.
"""

from fractions import Fraction
from math import floor, log10
from statistics import NormalDist

import numpy as np
import pytest
from scipy.stats import norm, truncnorm

from trimwright.chance.truncated import beyond
from trimwright.quantities import normal, normal_cdf, normal_density, normal_quantile


def mantissa(value: float) -> float:
    """Return the figures of a number as if its point stood behind the first."""
    return value / 10.0 ** floor(log10(value))


@pytest.mark.parametrize(
    ("table", "hash_sum"),
    [
        (normal.NEAR, "55.8831928806149014439"),
        (normal.OUTER, "49.33206503301610289036"),
        (normal.FURTHEST, "47.52583317549289671629"),
    ],
)
def test_hash_sums(table: tuple[tuple[float, ...], tuple[float, ...]], hash_sum: str) -> None:
    above, below = table
    total = sum(mantissa(value) for value in above + below[:-1])  # the last one is 1, not hashed
    assert total == pytest.approx(float(Fraction(hash_sum)), abs=1e-13)


def test_quantile_is_scipys_far_into_both_tails() -> None:
    p = np.concatenate([10.0 ** np.linspace(-300, -0.31, 3001), 1 - 10.0 ** np.linspace(-15, -1)])
    assert normal_quantile(p) == pytest.approx(norm.ppf(p), rel=1e-12, abs=1e-12)


def test_quantile_is_the_standard_librarys() -> None:
    p = np.linspace(0.001, 0.999, 333)
    theirs = [NormalDist().inv_cdf(float(one)) for one in p]
    assert normal_quantile(p) == pytest.approx(theirs, rel=1e-14, abs=1e-15)


def test_cdf_is_scipys_far_into_the_tail() -> None:
    z = np.linspace(-37, 9, 4001)
    assert normal_cdf(z) == pytest.approx(norm.cdf(z), rel=1e-12, abs=0)
    assert normal_density(z) == pytest.approx(norm.pdf(z), rel=1e-12, abs=0)


@pytest.mark.parametrize("limit", [-2.0, 0.0, 3.0, 10.0])
def test_truncated_scores_are_scipys(limit: float) -> None:
    chances = np.linspace(0.01, 0.99, 21)
    theirs = truncnorm(limit, np.inf).isf(chances)
    assert beyond(np.full(21, limit), chances) == pytest.approx(theirs, rel=1e-9)
