"""Convex bodies against python-fcl, exact distances, and overlaps one can do in the head."""

import fcl
import numpy as np
import pytest
from numpy.typing import NDArray

from trimwright.fit.convex import Piece, prisms, rod, room_along, separation

Floats = NDArray[np.float64]


def block(size: tuple[float, float, float], turn: Floats, at: Floats) -> Piece:
    """Return a box, turned about its middle and then moved."""
    x, y, z = np.array(size) / 2
    ends = np.array([[[-x, -y, h], [x, -y, h], [x, y, h], [-x, y, h]] for h in (-z, z)])
    ends = ends @ turn.T + at
    return prisms(ends[:1], ends[1:])[0]


def about_z(degrees: float) -> Floats:
    """Return a turn about the upright axis."""
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    return np.array([[c, -s, 0], [s, c, 0], [0, 0, 1.0]])


def any_turn(rng: np.random.Generator) -> Floats:
    """Return a rotation, evenly spread."""
    q, r = np.linalg.qr(rng.normal(size=(3, 3)))
    q = q * np.sign(np.diag(r))
    return np.asarray(q * np.sign(np.linalg.det(q)))


def fcl_distance(one: fcl.CollisionObject, other: fcl.CollisionObject) -> float:
    """Return the distance of two bodies from python-fcl."""
    request = fcl.DistanceRequest(enable_nearest_points=True)
    return float(fcl.distance(one, other, request, fcl.DistanceResult()))


def test_box_and_turned_cube() -> None:
    # exact, and python-fcl agrees to its last digit: 42.6794919243
    still = block((100, 50, 20), np.eye(3), np.zeros(3))
    turned = block((40, 40, 40), about_z(30), np.array([120.0, 0, 0]))
    assert separation(still, turned).distance == pytest.approx(42.6794919243, abs=5e-11)


def test_box_and_ball() -> None:
    still = block((100, 50, 20), np.eye(3), np.zeros(3))
    at = np.array([100.0, 80, 60])
    assert separation(still, rod(at, at, 25.0)).distance == pytest.approx(64.5823643358, abs=5e-11)


def test_boxes_equal_fcl_in_every_attitude() -> None:
    rng = np.random.default_rng(11)
    ours, theirs = [], []
    for _ in range(40):
        sizes = rng.uniform(10, 120, (2, 3))
        turns = [any_turn(rng), any_turn(rng)]
        places = rng.uniform(-140, 140, (2, 3))
        pieces = [
            block((s[0], s[1], s[2]), t, p) for s, t, p in zip(sizes, turns, places, strict=True)
        ]
        objects = [
            fcl.CollisionObject(fcl.Box(*s), fcl.Transform(t, p))
            for s, t, p in zip(sizes, turns, places, strict=True)
        ]
        ours.append(separation(*pieces).distance)
        theirs.append(fcl_distance(*objects))
    apart = np.array(ours) > 0
    assert 20 < apart.sum() < 40
    assert (np.array(theirs)[~apart] <= 0).all()
    assert np.array(ours)[apart] == pytest.approx(np.array(theirs)[apart], abs=1e-9)


def test_nearest_points_lie_the_distance_apart() -> None:
    a = block((100, 50, 20), np.eye(3), np.zeros(3))
    found = separation(a, block((30, 30, 30), about_z(45), np.array([90.0, 70, 30])))
    assert np.linalg.norm(found.on_b - found.on_a) == pytest.approx(found.distance, abs=1e-9)
    assert found.on_b - found.on_a == pytest.approx(found.distance * found.direction, abs=1e-9)


@pytest.mark.parametrize(
    ("at", "deep"),
    [((45.0, 0, 0), -5.0), ((0.0, 0, 28), -2.0), ((0.0, 33, 0), -7.0), ((0.0, 0, 0), -30.0)],
)
def test_overlap_is_the_shortest_way_out(at: tuple[float, float, float], deep: float) -> None:
    # boxes 60 x 50 x 40 and 40 x 30 x 20, square to each other
    a = block((60, 50, 40), np.eye(3), np.zeros(3))
    b = block((40, 30, 20), np.eye(3), np.array(at))
    assert separation(a, b).distance == pytest.approx(deep, abs=1e-9)


def test_rod_inside_a_box_counts_its_radius() -> None:
    a = block((100, 100, 40), np.eye(3), np.zeros(3))
    inside = rod(np.array([0.0, 0, 12]), np.array([30.0, 0, 12]), 5.0)
    assert separation(a, inside).distance == pytest.approx(-13.0, abs=1e-9)


def test_a_few_directions_never_promise_more_room() -> None:
    rng = np.random.default_rng(3)
    a = block((80, 50, 30), any_turn(rng), np.zeros(3))
    b = block((60, 40, 40), any_turn(rng), np.array([110.0, 40, 20]))
    nominal = separation(a, b)
    shifts = rng.normal(0, 4, (50, 3))
    rows = b.corners[None] + shifts[:, None]
    bound = room_along(a.corners, rows, nominal.direction[None])[:, 0]
    true = np.array([separation(a, Piece(r, b.triangles, b.edges)).distance for r in rows])
    assert (bound <= true + 1e-9).all()
    # the moved nearest points are still that far apart at most: Pythagoras bounds what is lost
    longest = np.linalg.norm(nominal.distance * nominal.direction + shifts, axis=1)
    assert (true <= longest + 1e-9).all()
    assert bound == pytest.approx(nominal.distance + shifts @ nominal.direction, abs=1e-9)
