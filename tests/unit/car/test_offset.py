import numpy as np
import pytest
from numpy.typing import NDArray

from trimwright.car.offset import offset_grid

Floats = NDArray[np.float64]


def _hollow(radius: float) -> tuple[Floats, Floats]:
    """Return a flange, a hollow fillet and a wall, with their exact normals, as one grid row."""
    turn = np.radians(np.linspace(0, 90, 31))[1:-1]
    flange = np.stack([np.linspace(-200, -radius, 40), np.zeros(40)], axis=-1)
    bend = np.stack([-radius + radius * np.sin(turn), radius * (1 - np.cos(turn))], axis=-1)
    wall = np.stack([np.zeros(40), np.linspace(radius, 120, 40)], axis=-1)
    up, out = np.tile([0.0, 1.0], (40, 1)), np.tile([-1.0, 0.0], (40, 1))
    round_off = np.stack([-np.sin(turn), np.cos(turn)], axis=-1)
    flat = np.concatenate([flange, bend, wall])
    normal = np.concatenate([up, round_off, out])
    zero = np.zeros((len(flat), 1))
    return np.concatenate([zero, flat], axis=1)[None], np.concatenate([zero, normal], axis=1)[None]


def test_hollow_tighter_than_the_carpet_becomes_a_sharp_corner() -> None:
    points, normals = _hollow(10.0)
    found = offset_grid(points, normals, np.array([25.0]))[0, :, 1:]
    corner = np.linalg.norm(found - np.array([-25.0, 25.0]), axis=1)
    assert corner.min() == pytest.approx(0, abs=1e-9)
    assert found[:, 0].max() <= -25 + 1e-9
    assert found[:, 1].min() >= 25 - 1e-9


def test_hollow_wider_than_the_carpet_keeps_its_round() -> None:
    points, normals = _hollow(40.0)
    found = offset_grid(points, normals, np.array([25.0]))[0, 40:69, 1:]
    assert np.linalg.norm(found - np.array([-40.0, 40.0]), axis=1) == pytest.approx(15, abs=1e-9)
