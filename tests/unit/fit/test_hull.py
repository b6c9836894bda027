"""Skins of convex bodies known by their corners."""

import numpy as np
import pytest
from scipy.spatial import ConvexHull

from trimwright.fit.convex import rod, separation
from trimwright.fit.hull import hull


def test_hull_has_the_faces_scipy_finds() -> None:
    corners = np.random.default_rng(8).normal(0, 50, (14, 3))
    theirs = ConvexHull(corners)
    ours = hull(corners)
    assert {tuple(sorted(t)) for t in ours.triangles.tolist()} == {
        tuple(sorted(t)) for t in theirs.simplices.tolist()
    }


def test_room_to_a_round_bar_of_24_sides() -> None:
    # sides touch the circle of 30 mm, so the bar is met 30 mm from its middle
    turn = 2 * np.pi * np.arange(24) / 24
    ring = 30 / np.cos(np.pi / 24) * np.stack([np.cos(turn), np.sin(turn)], axis=-1)
    ends = [np.column_stack([ring, np.full(24, z)]) for z in (0.0, 200.0)]
    way = np.array([np.cos(np.pi / 24), np.sin(np.pi / 24), 0.0])
    point = 50 * way + [0, 0, 80]
    found = separation(hull(np.concatenate(ends)), rod(point, point, 0.0))
    assert found.distance == pytest.approx(20.0, abs=1e-9)


def test_a_flat_body_is_refused() -> None:
    flat = np.array([[0.0, 0, 0], [1, 0, 0], [1, 1, 0], [0, 1, 0]])
    with pytest.raises(ValueError, match="corners must not lie in one plane"):
        hull(flat)
