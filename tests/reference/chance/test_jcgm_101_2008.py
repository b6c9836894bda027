"""JCGM 101:2008, clause 9.2: sums of rectangular doubts, through our own draws.

The exact 95 % half intervals are those of the Irwin-Hall law (and, with one dominant input, of
the same convolution); the normal approximation's figure is what must not come out.
"""

import numpy as np
import pytest

from trimwright.chance import Factor, Ledger, percentile, sobol_scores
from trimwright.quantities import Doubt

SCRAMBLES, EACH = 16, 1024
CASES = [
    ((1.0, 1.0, 1.0, 1.0), 3.879407, 3.919928),
    ((1.0, 1.0, 1.0, 10.0), 17.015814, 19.891462),
    ((1.0, 1.0), 2.689505, 2.771808),
    ((1.0, 1.0, 1.0), 3.355574, 3.394757),
    ((1.0,) * 6, 4.766105, 4.800912),
]


@pytest.mark.parametrize(("sigmas", "exact", "normal"), CASES)
def test_interval(sigmas: tuple[float, ...], exact: float, normal: float) -> None:
    factors = tuple(
        Factor(f"x{i}", "a rectangular input", Doubt("uniform", half, half), "reading", 1.0, 1.0)
        for i, half in enumerate(sigma * 3**0.5 for sigma in sigmas)
    )
    scores = sobol_scores(len(sigmas), scrambles=SCRAMBLES, each=EACH, seed=1)
    totals = Ledger(factors).deviations(scores).sum(axis=1)
    high, low = percentile(totals, 0.975, SCRAMBLES), percentile(totals, 0.025, SCRAMBLES)
    half = (high.value - low.value) / 2
    error = np.hypot(high.error, low.error) / 2
    assert half == pytest.approx(exact, abs=4 * error)
    assert abs(half - exact) < abs(half - normal) / 2
    assert error < 0.02
