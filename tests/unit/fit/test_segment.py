"""Rods against python-fcl and against distances one can do in the head."""

import fcl
import numpy as np
import pytest

from trimwright.fit.segment import nearest_on_segments, segment_distance


def fcl_rod_distance(a: np.ndarray, b: np.ndarray, radius_mm: float) -> float:
    """Return the distance between two rods with round ends, from python-fcl."""

    def rod(ends: np.ndarray) -> fcl.CollisionObject:
        along = ends[1] - ends[0]
        length = float(np.linalg.norm(along))
        z = along / length
        x = np.cross(z, np.eye(3)[int(np.argmin(np.abs(z)))])
        x /= np.linalg.norm(x)
        turn = np.stack([x, np.cross(z, x), z], axis=1)
        shape = fcl.Capsule(radius_mm, length)
        return fcl.CollisionObject(shape, fcl.Transform(turn, ends.mean(axis=0)))

    request, result = fcl.DistanceRequest(), fcl.DistanceResult()
    return float(fcl.distance(rod(a), rod(b), request, result))


def test_distance_equals_fcl_for_rods_in_every_attitude() -> None:
    ends = np.random.default_rng(5).uniform(-200, 200, (60, 2, 2, 3))
    ours = segment_distance(ends[:, 0, 0], ends[:, 0, 1], ends[:, 1, 0], ends[:, 1, 1]) - 2.0
    theirs = [fcl_rod_distance(a, b, 1.0) for a, b in ends]
    apart = ours > 0.5  # fcl measures overlap another way
    assert apart.sum() > 40
    assert ours[apart] == pytest.approx(np.array(theirs)[apart], abs=1e-9)


@pytest.mark.parametrize(
    ("a", "b", "far"),
    [
        ([[0, 0, 0], [10, 0, 0]], [[0, 3, 0], [10, 3, 0]], 3.0),  # side by side
        ([[0, 0, 0], [10, 0, 0]], [[13, 4, 0], [20, 4, 0]], 5.0),  # parallel, end to end
        ([[0, 0, 0], [0, 0, 0]], [[-5, 12, 0], [5, 12, 0]], 12.0),  # a point and a rod
        ([[1, 2, 3], [1, 2, 3]], [[1, 2, 10], [1, 2, 10]], 7.0),  # two points
        ([[0, 0, -5], [0, 0, 5]], [[-5, 0, 0], [5, 0, 0]], 0.0),  # crossing
    ],
)
def test_hand_cases(a: list[list[float]], b: list[list[float]], far: float) -> None:
    p, q = np.array(a, float), np.array(b, float)
    assert float(segment_distance(p[0], p[1], q[0], q[1])) == pytest.approx(far, abs=1e-12)


def test_leading_axes_broadcast() -> None:
    on_a, _ = nearest_on_segments(
        np.zeros((4, 1, 3)), np.ones((4, 1, 3)), np.zeros((1, 5, 3)), np.full((1, 5, 3), 2.0)
    )
    assert on_a.shape == (4, 5, 3)
