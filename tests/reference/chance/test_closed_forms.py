"""Chances, stacks and updates of normal figures, whose answers are closed formulas.

Sampled figures are held to four of their own standard errors and to a stated absolute width.
"""

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.stats import norm

from trimwright.chance import (
    Factor,
    LeastCut,
    Ledger,
    ProbeReading,
    adjust,
    certainty,
    condition,
    expected_cut,
    least_shift,
    percentile,
    re_measure,
    repeated_sigma,
    sobol_scores,
)
from trimwright.chance.truncated import truncated_normal
from trimwright.quantities import Doubt, normal_cdf

Floats = NDArray[np.float64]
STACK = (0.5, 0.3, 0.2, 0.4, 1.0, 0.25)  # half widths, mm
GAPS = [  # mean, sd, chance above 0, least cut for 95 % and 99 % (z_p sd - mean, never below 0)
    (3.0, 1.5, 0.977250, 0.0, 0.489522),
    (2.0, 1.5, 0.908789, 0.467280, 1.489522),
    (1.0, 2.0, 0.691462, 2.289707, 3.652696),
]


def stack(kind: str) -> Ledger:
    """Return a ledger of the six parts of the stack."""
    doubts = [Doubt("uniform" if kind == "uniform" else "normal", h, h) for h in STACK]
    return Ledger(
        tuple(Factor(f"x{i}", "a part", doubt, "reading", 1, 1) for i, doubt in enumerate(doubts))
    )


def test_stack_worst_case_and_spread() -> None:
    doubts = [factor.doubt for factor in stack("uniform").factors]
    assert sum(doubt.worst(1) for doubt in doubts) == pytest.approx(2.65, rel=1e-12)
    assert sum(doubt.worst(-1) for doubt in doubts) == pytest.approx(-2.65, rel=1e-12)
    totals = stack("uniform").deviations(sobol_scores(6, seed=1)).sum(axis=1)
    assert totals.std() == pytest.approx(0.730867, abs=0.005)
    # root sum square of the half widths, as the half width at odds of 19 to 1 of normal parts
    totals = stack("normal").deviations(sobol_scores(6, seed=1)).sum(axis=1)
    assert 2 * totals.std() == pytest.approx(1.265899, abs=0.01)


@pytest.mark.parametrize(("mean", "sd", "chance", "cut95", "cut99"), GAPS)
def test_chance_and_least_cut(
    mean: float, sd: float, chance: float, cut95: float, cut99: float
) -> None:
    assert float(normal_cdf(mean / sd)) == pytest.approx(chance, abs=5e-7)
    weights = np.array([0.7, 0.5, 0.3, 0.4]) / np.sqrt(0.99)
    margin = mean + sd * sobol_scores(4, scrambles=16, each=2048, seed=1) @ weights
    found = certainty(margin > 0, 16)
    assert found.value == pytest.approx(chance, abs=4 * found.error)
    assert found.error < 0.002
    for wanted, cut in ((0.95, cut95), (0.99, cut99)):
        low = percentile(margin, 1 - wanted, 16)
        one = np.ones(1)
        least = least_shift(margin[:, None], np.ones((1, 1)), one, 10 * one, wanted)
        assert isinstance(least, LeastCut)
        assert least.amounts[0] == pytest.approx(cut, abs=4 * low.error + 1e-3)
        assert low.error < 0.03


def test_two_sided_chance() -> None:
    # mean 4, sd 1.2, must lie in 1..8
    gap = 4 + 1.2 * sobol_scores(1, scrambles=16, seed=1)[:, 0]
    found = certainty((gap > 1) & (gap < 8), 16)
    assert found.value == pytest.approx(0.993361, abs=4 * found.error + 1 / gap.size)


@pytest.mark.parametrize("ratio", [0.0, 0.25, 1.0, 3.0])
def test_reading_again(ratio: float) -> None:
    slopes, mean, wanted = np.array([1.5, 0.8, 0.4, 0.3]), 1.8, 0.95
    scores = sobol_scores(4, scrambles=8, each=2048, seed=1)
    found = re_measure(scores, mean + scores @ slopes, 0, ratio, wanted)
    total = np.sqrt(slopes @ slopes)
    forecast = slopes[0] / np.sqrt(1 + ratio**2)
    left = np.sqrt(total**2 - forecast**2)
    need = norm.ppf(wanted) * left - mean
    assert found.today == pytest.approx(norm.cdf(mean / total), abs=0.003)
    assert found.confirmed == pytest.approx(norm.cdf(mean / left), abs=0.003)
    assert found.cut_before == pytest.approx(norm.ppf(wanted) * total - mean, abs=0.03)
    assert found.cut_after == pytest.approx(expected_cut(need, forecast), abs=0.03)
    assert found.no_cut == pytest.approx(norm.cdf(-need / forecast), abs=0.015)
    assert found.expected == pytest.approx(found.today, abs=0.003)


@pytest.mark.parametrize(("need", "forecast"), [(-1.0, 0.5), (0.0, 2.0), (0.7, 1.3)])
def test_expected_cut_is_the_mean_of_the_positive_part(need: float, forecast: float) -> None:
    grid = np.linspace(-12, 12, 240_001)
    density = norm.pdf(grid)
    mean = float(np.trapezoid(np.maximum(0, need + forecast * grid) * density, grid))
    assert expected_cut(need, forecast) == pytest.approx(mean, abs=1e-7)


def test_shared_set_up() -> None:
    assert repeated_sigma(3.0, 4.0, 1) == pytest.approx(5.0)
    assert repeated_sigma(3.0, 4.0, 16) == pytest.approx(10**0.5)


def probes() -> tuple[Floats, Floats, Floats]:
    """Return scores, what they predict at three probes, and the slopes (8 factors, 3 probes)."""
    scores = sobol_scores(8, scrambles=8, each=1024, seed=3)
    slopes = np.vstack(
        [
            np.eye(3) + 0.5 * np.roll(np.eye(3), 2, axis=1),
            np.ones(3),
            0.3 * np.eye(3),
            [0.2, -0.4, 0.6],
        ]
    )
    return scores, scores @ slopes + np.array([1.0, 2.0, 3.0]), slopes


def test_update_by_exact_readings() -> None:
    # z | y is normal with mean K (y - m) and covariance I - K B', K = B (B'B + R)^-1
    scores, predicted, slopes = probes()
    sigmas, values = np.array([0.5, 0.7, 0.4]), np.array([2.0, 1.0, 4.0])
    readings = [ProbeReading(v, s) for v, s in zip(values.tolist(), sigmas.tolist(), strict=True)]
    found = condition(scores, predicted, readings, seed=1)
    spread = slopes.T @ slopes + np.diag(sigmas**2)
    gain = slopes @ np.linalg.inv(spread)
    mean = gain @ (values - np.array([1.0, 2.0, 3.0]))
    assert found.scores.mean(axis=0) == pytest.approx(mean, abs=0.015)
    covariance = np.cov(found.scores.T)
    assert covariance == pytest.approx(np.eye(8) - gain @ slopes.T, abs=0.03)
    # leave-one-out residuals: (S^-1 d)_i / sqrt((S^-1)_ii)
    inverse = np.linalg.inv(spread)
    off = inverse @ (values - np.array([1.0, 2.0, 3.0])) / np.sqrt(np.diag(inverse))
    assert found.surprise == pytest.approx(off, abs=1e-9)


def test_update_by_limits_against_rejection() -> None:
    # independent of the code: draw, keep the rows whose probes lie within the limits
    scores, predicted, slopes = probes()
    sigmas = np.array([0.5, 0.7, 0.4])
    readings = [
        ProbeReading(1.5, 0.5, "at least"),
        ProbeReading(2.5, 0.7, "at least"),
        ProbeReading(2.0, 0.4, "at most"),
    ]
    found = condition(scores, predicted, readings, seed=1)
    rng, batches = np.random.default_rng(7), []
    for _ in range(3):
        z = rng.standard_normal((400_000, 8))
        read = z @ slopes + np.array([1.0, 2.0, 3.0]) + rng.standard_normal((400_000, 3)) * sigmas
        batches.append(z[(read[:, 0] >= 1.5) & (read[:, 1] >= 2.5) & (read[:, 2] <= 2.0)])
    kept = np.concatenate(batches)
    assert len(kept) > 12_000
    assert found.scores.mean(axis=0) == pytest.approx(kept.mean(axis=0), abs=0.04)
    assert found.scores.std(axis=0) == pytest.approx(kept.std(axis=0), abs=0.03)
    assert np.cov(found.scores.T) == pytest.approx(np.cov(kept.T), abs=0.05)


@pytest.mark.parametrize("limit", [0.0, 2.0, 4.0])
def test_update_by_a_reading_and_a_limit(limit: float) -> None:
    # given the exact reading the other is normal; above its limit its mean is m + s h((v - m)/s),
    # h the density over the upper tail; the scores follow by K
    scores, predicted, slopes = probes()
    readings = [ProbeReading(1.8, 0.5), ProbeReading(limit, 0.7, "at least")]
    found = condition(scores, predicted[:, :2], readings, seed=1)
    slopes = slopes[:, :2]
    spread = slopes.T @ slopes + np.diag([0.25, 0.49])
    mean = 2.0 + spread[1, 0] / spread[0, 0] * (1.8 - 1.0)
    sigma = np.sqrt(spread[1, 1] - spread[1, 0] ** 2 / spread[0, 0])
    a = (limit - mean) / sigma
    read = np.array([1.8, mean + sigma * norm.pdf(a) / norm.sf(a)])
    expected = slopes @ np.linalg.solve(spread, read - np.array([1.0, 2.0]))
    assert found.scores.mean(axis=0) == pytest.approx(expected, abs=0.03)
    assert found.surprise[1] == pytest.approx(max(0.0, a), abs=1e-3)


@pytest.mark.parametrize("correlation", [0.95, 0.5, -0.5])
def test_two_limits_at_once(correlation: float) -> None:
    # both parts above 0: chance 1/4 + asin(r)/(2 pi), mean (1 + r)/(2 sqrt(2 pi)) over the chance
    covariance = np.array([[1.0, correlation], [correlation, 1.0]])
    above = np.array([True, True])
    found = truncated_normal(np.zeros((8192, 2)), covariance, np.zeros(2), above, seed=1)
    chance = 0.25 + np.arcsin(correlation) / (2 * np.pi)
    mean = (1 + correlation) / (2 * np.sqrt(2 * np.pi)) / chance
    assert found.mean(axis=0) == pytest.approx([mean, mean], abs=0.03)
    assert found.min() >= 0


def test_weighted_mean_of_repeated_readings() -> None:
    # weighted mean: sum(x/s^2)/sum(1/s^2); redundancy 1 - (1/s_i^2)/sum(1/s^2)
    observed, sigma = np.array([10.0, 12.0, 11.0]), np.array([1.0, 2.0, 2.0])
    found = adjust(np.ones((3, 1)), observed, sigma)
    assert found.unknowns[0] == pytest.approx((10 + 12 / 4 + 11 / 4) / 1.5)
    assert found.redundancy == pytest.approx([1 / 3, 5 / 6, 5 / 6])
    assert found.critical == pytest.approx(norm.isf(0.0005))
    shift = norm.isf(0.0005) + norm.ppf(0.8)
    assert found.detectable == pytest.approx([shift * 3**0.5, *(shift * 2 * 1.2**0.5,) * 2])


def test_slip_is_what_the_others_foretell() -> None:
    # leaving the suspect out and foretelling it from the rest gives the same slip
    rng = np.random.default_rng(3)
    design = rng.standard_normal((9, 3))
    observed = design @ np.array([1.0, -2.0, 0.5])
    observed[4] += 25.0
    sigma = np.full(9, 0.5)
    found = adjust(design, observed, sigma)
    assert found.suspect == 4
    rest = np.arange(9) != 4
    others = np.linalg.lstsq(design[rest], observed[rest], rcond=None)[0]
    assert found.slip == pytest.approx(observed[4] - design[4] @ others, rel=1e-9)
    assert found.slip == pytest.approx(25.0, rel=1e-9)
