"""Chance: doubts as normal scores, how sure a gap is, what to cut, what to measure again.

In: factors with their doubts, and gaps evaluated over rows of standard normal scores. Out:
certainties with their sampling error, shares, least cuts, updated scores after a test fit, and
adjusted readings with the suspect among them. Nothing here knows a car.
"""

from trimwright.chance.draw import sobol_points, sobol_scores
from trimwright.chance.estimate import Estimate, certainty, percentile
from trimwright.chance.factor import Factor, Ledger
from trimwright.chance.normal_law import normal_cdf, normal_density, normal_quantile
from trimwright.chance.share import group_shares, shares

__all__ = [
    "Estimate",
    "Factor",
    "Ledger",
    "certainty",
    "group_shares",
    "normal_cdf",
    "normal_density",
    "normal_quantile",
    "percentile",
    "shares",
    "sobol_points",
    "sobol_scores",
]
