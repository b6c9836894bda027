"""The pull of a screw."""

import pytest

from trimwright.fit.clamp import clamp_force_n


@pytest.mark.parametrize(("nut_factor", "pull"), [(0.2, 5000.0), (0.1, 10000.0)])
def test_pull_in_round_figures(nut_factor: float, pull: float) -> None:
    # 6 N m over 0.2 x 6 mm: 5 kN; half the factor, twice the pull
    assert clamp_force_n(6.0, nut_factor, 6.0) == pytest.approx(pull)


def test_nonsense_is_refused() -> None:
    with pytest.raises(
        ValueError, match=r"diameter_mm and nut_factor must be above 0, got 0, 0\.2"
    ):
        clamp_force_n(4.0, 0.2, 0.0)
