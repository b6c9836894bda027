"""JCGM 100:2008, example H.1 (end gauge); the open library GTC as a second opinion.

The inputs are those of the example. Printed: u(l) = 32 nm, t(99 %, 16) = 2.92. The other figures
follow from the inputs by the guide's own formulas and were computed outside this project.
"""

import numpy as np
import pytest
from GTC import get_covariance, ureal
from numpy.typing import NDArray
from scipy.stats import t

from trimwright.chance import Contribution, coverage_factor, propagate, slopes, student_cdf

# nm, 1/K, K: length of the standard, difference, expansion, its difference, temperatures
VALUES = np.array([50_000_623.0, 215.0, 11.5e-6, 0.0, 0.0, -0.1])
SIGMAS = np.array([25.0, np.nan, 2e-6 / 3**0.5, 1e-6 / 3**0.5, 0.05 / 3**0.5, 0.406])
PARTS_OF_D = ((5.8, 24), (3.9, 5), (6.7, 8))


def length(x: NDArray[np.float64]) -> float:
    """Return l = ls + d - ls (dalpha theta + alpha dtheta)."""
    ls, d, alpha, dalpha, dtheta, theta = x
    return float(ls + d - ls * (dalpha * theta + alpha * dtheta))


def end_gauge() -> list[Contribution]:
    sigmas = np.where(np.isnan(SIGMAS), 9.7, SIGMAS)
    slope = dict(
        zip(
            ("ls", "d", "alpha", "dalpha", "dtheta", "theta"),
            slopes(length, VALUES, sigmas).tolist(),
            strict=True,
        )
    )
    return [
        Contribution("ls", slope["ls"], 25.0, 18),
        *(Contribution("d", slope["d"], sigma, freedom) for sigma, freedom in PARTS_OF_D),
        Contribution("alpha", slope["alpha"], SIGMAS[2]),
        Contribution("dalpha", slope["dalpha"], SIGMAS[3], 50),
        Contribution("dtheta", slope["dtheta"], SIGMAS[4], 2),
        Contribution("theta", slope["theta"], SIGMAS[5]),
    ]


def test_length() -> None:
    assert length(VALUES) == 50_000_838.0


def test_uncertainty_of_the_difference() -> None:
    found = propagate([Contribution("d", 1.0, sigma, freedom) for sigma, freedom in PARTS_OF_D])
    assert found.sigma == pytest.approx(9.681942, abs=1e-6)
    assert found.sigma == pytest.approx(9.7, abs=0.05)  # as printed


def test_parts() -> None:
    parts = dict(propagate(end_gauge()).parts)
    assert abs(parts["dtheta"]) == pytest.approx(16.599027, rel=1e-6)
    assert abs(parts["dalpha"]) == pytest.approx(2.886787, rel=1e-6)
    assert parts["alpha"] == pytest.approx(0.0, abs=1e-9)
    assert parts["theta"] == pytest.approx(0.0, abs=1e-9)


def test_combined_uncertainty_and_freedom() -> None:
    found = propagate(end_gauge())
    assert found.sigma == pytest.approx(31.663879, abs=1e-6)
    assert found.sigma == pytest.approx(32, abs=0.5)  # as printed
    assert found.freedom == pytest.approx(16.751856, abs=1e-6)


def test_gtc_agrees() -> None:
    ls = ureal(50_000_623, 25, 18)
    d = sum((ureal(0, sigma, freedom) for sigma, freedom in PARTS_OF_D), start=ureal(215, 0))
    dalpha = ureal(0, float(SIGMAS[3]), 50)
    dtheta = ureal(0, float(SIGMAS[4]), 2)
    alpha, theta = ureal(11.5e-6, float(SIGMAS[2])), ureal(-0.1, 0.406)
    theirs = ls + d - ls * (dalpha * theta + alpha * dtheta)
    ours = propagate(end_gauge())
    assert ours.sigma == pytest.approx(theirs.u, rel=1e-9)
    assert ours.freedom == pytest.approx(theirs.df, rel=1e-9)
    assert get_covariance(ls, dtheta) == 0


def test_coverage() -> None:
    assert coverage_factor(0.99, 16) == pytest.approx(2.920782, abs=1e-6)
    found = propagate(end_gauge())
    expanded = coverage_factor(0.99, int(found.freedom)) * found.sigma
    assert expanded == pytest.approx(92.483276, abs=1e-5)


@pytest.mark.parametrize("freedom", [1.0, 2.5, 5.0, 16.75, 50.0, 1000.0])
def test_students_law_is_scipys(freedom: float) -> None:
    for p in (0.5, 0.6827, 0.95, 0.99, 0.9999):
        assert coverage_factor(p, freedom) == pytest.approx(t.ppf((1 + p) / 2, freedom), rel=1e-9)
    for z in (-4.0, -0.3, 0.0, 0.7, 6.0):
        assert student_cdf(z, freedom) == pytest.approx(t.cdf(z, freedom), rel=1e-11)


def test_ten_readings_with_one_string_never_beat_the_string() -> None:
    # 5.2.2 note 1: fully correlated inputs add linearly, so averaging them gains nothing
    shared = [Contribution(str(i), 0.1, 1.0, group="string") for i in range(10)]
    assert propagate(shared).sigma == pytest.approx(1.0, rel=1e-12)
    own = [Contribution(f"own {i}", 0.1, 1.0) for i in range(10)]
    assert propagate([*shared, *own]).sigma == pytest.approx((1 + 0.1) ** 0.5, rel=1e-12)
