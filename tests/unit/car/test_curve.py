import numpy as np
import pytest
from scipy.interpolate import CubicSpline

from trimwright.car.curve import DENSE, Curve

ROUND = np.pi / 2 * np.linspace(-1, 1, 25)
HALF = np.stack([150 * np.sin(ROUND), 150 * np.cos(ROUND)], axis=-1)


def test_same_cubics_as_a_library_with_not_a_knot_ends() -> None:
    points = np.array([[-160.0, -140], [-120, -60], [-70, -10], [5, 0], [75, -14], [150, -130]])
    curve = Curve.through(points[None])
    s = np.linspace(0, curve.s[0, -1], 101)
    theirs = CubicSpline(curve.s[0], points, bc_type="not-a-knot")
    assert curve.at(s[None])[0] == pytest.approx(theirs(s), abs=1e-9)


@pytest.mark.parametrize("count", [2, 3])
def test_few_points_make_a_line_and_a_parabola(count: int) -> None:
    points = np.array([[-50.0, -20], [0, 0], [50, -20]])[:count]
    curve = Curve.through(points[None])
    middle = curve.at(curve.s[:, -1:] / 2)[0, 0]
    assert middle == pytest.approx([-25, -10] if count == 2 else [0, 0], abs=1e-9)


def test_a_marked_corner_stays_sharp_and_its_sides_straight() -> None:
    points = np.array([[-40.0, -80], [-30, -60], [-20, -40], [-10, -20], [0, 0], [40, 0], [80, 0]])
    curve = Curve.through(points[None], corners=(4,))
    s = np.linspace(0, curve.s[0, -1], 57)[None]
    found = curve.at(s)[0]
    assert (
        np.abs(np.where(found[:, 0] < 0, found[:, 1] - 2 * found[:, 0], found[:, 1])).max() < 1e-9
    )


def test_without_the_mark_the_same_corner_rings() -> None:
    points = np.array([[-40.0, -80], [-30, -60], [-20, -40], [-10, -20], [0, 0], [40, 0], [80, 0]])
    curve = Curve.through(points[None])
    assert curve.at(np.linspace(0, curve.s[0, -1], 57)[None])[0, :, 1].max() > 1.0


def test_length_of_half_a_circle() -> None:
    short = 150 * np.pi * (np.pi / DENSE) ** 2 / 24  # chords instead of arcs
    assert Curve.through(HALF[None]).length()[0] == pytest.approx(150 * np.pi, abs=short + 1e-3)


@pytest.mark.parametrize("height", [40.0, 0.0, -25.0])
def test_feet_stand_at_the_height_cut_or_run_on(height: float) -> None:
    even = Curve.through(HALF[None]).even(height, 161)[0]
    assert even[[0, -1], 1] == pytest.approx([height, height], abs=1e-6)
    steps = np.hypot(*np.diff(even, axis=0).T)
    assert np.ptp(steps) < 1e-3 * steps.mean()
    assert np.hypot(*even[even[:, 1] > 0].T) == pytest.approx(150, abs=0.002)


def test_a_flat_end_is_run_on_straight_down() -> None:
    points = np.array([[-200.0, -60], [-150, -60], [-100, -55], [0, 0], [100, -55], [150, -60]])
    foot = Curve.through(points[None]).even(-90.0, 81)[0, 0]
    assert foot == pytest.approx([-200, -90], abs=1e-6)


def test_points_that_coincide_are_refused() -> None:
    with pytest.raises(ValueError, match="two neighbouring points of a section coincide"):
        Curve.through(np.array([[[0.0, 0], [0, 0], [10, 5]]]))


def test_one_point_is_no_section() -> None:
    with pytest.raises(ValueError, match="a section needs 2 points or more, got 1"):
        Curve.through(np.zeros((1, 1, 2)))


def test_a_cut_above_the_top_is_refused() -> None:
    with pytest.raises(ValueError, match="a section lies wholly below 160"):
        Curve.through(HALF[None]).even(160.0, 9)
