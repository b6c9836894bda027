"""Moving the console as one body, against scipy's rotations."""

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from trimwright.fit.rigid import placed, turn


def test_turn_equals_scipys_rotation() -> None:
    motion = np.random.default_rng(2).uniform(-0.3, 0.3, (20, 3))
    theirs = Rotation.from_euler("xy", motion[:, [2, 1]]).as_matrix()
    assert turn(motion) == pytest.approx(theirs, abs=1e-14)


def test_nose_up_and_right_side_up_are_up() -> None:
    points = np.array([[-300.0, 0, 50], [300, 0, 50], [0, 120, 50], [0, -120, 50]])
    nose = placed(points, np.array([[2.0, 0.01, 0.0]]), np.zeros(3))[0, :, 2] - 50
    side = placed(points, np.array([[0.0, 0.0, 0.01]]), np.zeros(3))[0, :, 2] - 50
    assert nose == pytest.approx([5, -1, 2, 2], abs=0.01)
    assert side == pytest.approx([0, 0, 1.2, -1.2], abs=0.01)


def test_distances_are_kept() -> None:
    points = np.random.default_rng(4).uniform(-400, 400, (6, 3))
    moved = placed(points, np.array([[-8.0, 0.03, -0.02]]), np.array([100.0, 0, 20]))[0]
    before = np.linalg.norm(points[:, None] - points, axis=-1)
    assert np.linalg.norm(moved[:, None] - moved, axis=-1) == pytest.approx(before, abs=1e-9)
