import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator

from trimwright.car.along import between

XS = np.array([-120.0, 60, 220, 380, 540, 700])


def test_same_monotone_cubics_as_a_library() -> None:
    values = np.array([[21.0, 3], [-4, 3.1], [-13, 9], [-19, 2], [-24, 2], [-28, -7]])
    x = np.linspace(-120, 700, 83)
    value, slope = between(XS, values[:, None], x[:, None])
    theirs = PchipInterpolator(XS, values)
    assert value == pytest.approx(theirs(x), abs=1e-9)
    assert slope == pytest.approx(theirs(x, 1), abs=1e-9)


def test_a_step_is_not_overshot() -> None:
    values = np.array([0.0, 0, 0, 70, 70, 70])
    found = between(XS, values[:, None], np.linspace(-120, 700, 400))[0]
    assert found.min() >= 0
    assert found.max() <= 70


@pytest.mark.parametrize(("count", "expected"), [(1, 5.0), (2, 3.5), (3, 3.125)])
def test_few_sections_are_level_a_line_a_parabola(count: int, expected: float) -> None:
    # 5, 2, 2 at 0, 100, 200, asked at 50; the parabola is 5 - 4.5 u + 1.5 u^2, u = x / 100
    xs, values = np.array([0.0, 100, 200])[:count], np.array([5.0, 2, 2])[:count]
    assert float(between(xs, values, np.array(50.0))[0]) == pytest.approx(expected, abs=1e-12)


def test_beyond_the_outer_sections_it_runs_on_straight() -> None:
    xs, values = np.array([0.0, 100]), np.array([0.0, 10])
    assert float(between(xs, values, np.array(130.0))[0]) == pytest.approx(13, abs=1e-12)
