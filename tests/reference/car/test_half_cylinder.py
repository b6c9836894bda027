"""Closed form: carpet t thick on a cylinder R is a cylinder R + t, z(y) = sqrt((R + t)^2 - y^2).

And its neighbours: the cone, the ellipse. Sections every 5 degrees, agreement 0.01 mm.
"""

from collections.abc import Callable

import numpy as np
import pytest
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.car import tunnel

Writer = Callable[..., Build]
Rows = Callable[..., list[tuple[float, float, float]]]

CLOSE = 0.01  # mm
STATIONS = (-100.0, 100.0, 300.0, 500.0, 700.0)


def _height(points: NDArray[np.float64], y: float) -> float:
    """Return the height of a row of grid points at y, by a parabola through the nearest three."""
    near = np.argsort(np.abs(points[:, 1] - y), kind="stable")[:3]
    return float(np.polyval(np.polyfit(points[near, 1] - y, points[near, 2], 2), 0.0))


@pytest.mark.parametrize(
    ("radius", "thick", "y", "expected"),
    [
        (150, 0, 0, 150.0),
        (150, 0, 50, 141.421356),
        (150, 0, 100, 111.803399),
        (150, 0, 140, 53.851648),
        (150, 12, 0, 162.0),
        (150, 12, 50, 154.090882),
        (150, 12, 100, 127.451952),
        (150, 12, 150, 61.188234),
        (180, 8, 0, 188.0),
        (180, 8, 60, 178.168460),
        (180, 8, 120, 144.720420),
        (180, 8, 170, 80.274529),
    ],
)
def test_carpet_on_a_half_cylinder(
    write: Writer, half_round: Rows, radius: float, thick: float, y: float, expected: float
) -> None:
    build = write([(x, 0.0, half_round(radius)) for x in STATIONS])
    grid = tunnel(build.car).surface(float(thick))
    for row in (0, len(grid.x) // 2):
        assert _height(grid.points[row], y) + radius == pytest.approx(expected, abs=CLOSE)


@pytest.mark.parametrize(("y", "short"), [(100, 3.648553), (140, 15.659087)])
def test_lifting_straight_up_is_short_by_what_geometry_says(
    write: Writer, half_round: Rows, y: float, short: float
) -> None:
    skin = tunnel(write([(x, 0.0, half_round(150)) for x in STATIONS]).car)
    lifted = skin.under(np.array([200.0]), np.array([float(y)])).z[0, 0] + 12
    assert _height(skin.surface(12.0).points[30], y) - lifted == pytest.approx(short, abs=CLOSE)


def test_plumb_lines_on_a_half_cylinder(write: Writer, half_round: Rows) -> None:
    skin = tunnel(write([(x, 0.0, half_round(150)) for x in STATIONS]).car)
    y = np.linspace(-145, 145, 59)
    hit = skin.under(np.linspace(-90, 690, 59), y)
    assert hit.z[0] + 150 == pytest.approx(np.sqrt(150**2 - y**2), abs=CLOSE)
    assert hit.normal[:, 1] == pytest.approx(y / 150, abs=1e-3)


def test_plumb_lines_on_a_cone(write: Writer, half_round: Rows) -> None:
    # r(x) = 150 - x / 20 about a level axis 150 below the datum: a right circular cone
    radius = [150 - x / 20 for x in STATIONS]
    build = write([(x, r - 150, half_round(r)) for x, r in zip(STATIONS, radius, strict=True)])
    x, y = np.linspace(-90, 690, 40), np.linspace(-100, 100, 40)
    hit = tunnel(build.car).under(x, y)
    local = 150 - x / 20
    z = np.sqrt(local**2 - y**2)
    assert hit.z[0] + 150 == pytest.approx(z, abs=CLOSE)
    normal = np.stack([local / 20, y, z], axis=-1)
    normal /= np.linalg.norm(normal, axis=-1, keepdims=True)
    assert np.abs(hit.normal - normal).max() < 2e-3


def test_plumb_lines_on_an_ellipse(write: Writer, half_round: Rows) -> None:
    build = write([(x, 0.0, half_round(160, 120)) for x in STATIONS])
    y = np.linspace(-150, 150, 61)
    hit = tunnel(build.car).under(np.full(61, 240.0), y)
    assert hit.z[0] + 120 == pytest.approx(120 * np.sqrt(1 - (y / 160) ** 2), abs=CLOSE)
