"""The pull of a screw."""

import numpy as np
import pytest

from trimwright.fit.clamp import clamp_force_n


def test_pull_in_round_figures() -> None:
    # 6 N m over 0.2 x 6 mm: 5 kN; half the factor, twice the pull
    assert clamp_force_n(np.array([6.0, 6.0]), np.array([0.2, 0.1]), 6.0) == pytest.approx(
        [5000, 10000]
    )


def test_nonsense_is_refused() -> None:
    with pytest.raises(ValueError, match="diameter_mm and nut_factor must be above 0, got 0"):
        clamp_force_n(np.array([4.0]), np.array([0.2]), 0.0)
