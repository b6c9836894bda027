"""Chance: doubts as normal scores, how sure a gap is, what to cut, what to measure again.

In: factors with their doubts, and gaps evaluated over rows of standard normal scores. Out:
certainties with their sampling error, shares, least cuts, updated scores after a test fit, and
adjusted readings with the suspect among them. Nothing here knows a car.
"""

from trimwright.chance.adjustment import Adjustment, adjust
from trimwright.chance.conditioning import MOST_LIMITS, Conditioned, ProbeReading, condition
from trimwright.chance.draw import sobol_points, sobol_scores
from trimwright.chance.estimate import Estimate, certainty, percentile
from trimwright.chance.factor import Factor, Ledger
from trimwright.chance.least_cut import LeastCut, Unreachable, least_shift
from trimwright.chance.propagation import Contribution, Propagated, propagate, slopes
from trimwright.chance.reading_again import ReMeasure, expected_cut, re_measure, repeated_sigma
from trimwright.chance.share import group_shares, shares
from trimwright.chance.student_law import coverage_factor, student_cdf

__all__ = [
    "MOST_LIMITS",
    "Adjustment",
    "Conditioned",
    "Contribution",
    "Estimate",
    "Factor",
    "LeastCut",
    "Ledger",
    "ProbeReading",
    "Propagated",
    "ReMeasure",
    "Unreachable",
    "adjust",
    "certainty",
    "condition",
    "coverage_factor",
    "expected_cut",
    "group_shares",
    "least_shift",
    "percentile",
    "propagate",
    "re_measure",
    "repeated_sigma",
    "shares",
    "slopes",
    "sobol_points",
    "sobol_scores",
    "student_cdf",
]
