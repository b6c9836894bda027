"""Panels cut into convex pieces."""

import numpy as np
import pytest

from trimwright.fit.convex import rod, separation
from trimwright.fit.pieces import crossings, panel_pieces

LEVEL = np.array([[0.0, 0, 200], [1, 0, 0], [0, 1, 0]])
BELOW = LEVEL - [[0, 0, 12], [0, 0, 0], [0, 0, 0]]
DECK = np.array([[0.0, -100], [600, -100], [600, 100], [0, 100]])
HOLE = np.array([[200.0, -50], [300, -50], [300, 50], [200, 50]])


def room_at(x: float, y: float, z: float, holes: tuple[np.ndarray, ...] = (HOLE,)) -> float:
    """Return the room from a point to a deck 600 x 200 with a hole."""
    point = rod(np.array([x, y, z]), np.array([x, y, z]), 0.0)
    found = panel_pieces(DECK, DECK, holes, (BELOW, LEVEL))
    return min(separation(piece, point).distance for piece in found)


@pytest.mark.parametrize(
    ("at", "room"),
    [
        ((100.0, 0, 230), 30.0),
        ((250.0, 0, 194), 50.0),  # in the hole's middle, between the faces
        ((250.0, 30, 194), 20.0),
        ((250.0, 0, 240), np.hypot(50, 40)),
        ((640.0, 130, 194), 50.0),
        ((100.0, 20, 194), -6.0),
    ],
)
def test_room_to_a_deck_with_a_hole(at: tuple[float, float, float], room: float) -> None:
    assert room_at(*at) == pytest.approx(room, abs=1e-9)


def test_without_the_hole_the_point_is_in_the_wood() -> None:
    assert room_at(250.0, 0, 194, ()) == pytest.approx(-6.0, abs=1e-9)


def test_a_bulging_edge_is_held_whole() -> None:
    u = np.linspace(0, 600, 121)
    low = np.stack([u, -20 * np.sin(np.pi * u / 600)], axis=-1)  # bulges down 20 mm
    wall = np.concatenate([low, [[600.0, 150], [0, 150]]])
    found = panel_pieces(wall, wall, (), (BELOW, LEVEL))
    points = np.concatenate([low, [[300.0, 149.0]]])
    for x, y in points:
        point = rod(np.array([x, y, 194.0]), np.array([x, y, 194.0]), 0.0)
        assert min(separation(piece, point).distance for piece in found) < 1e-9


def test_a_place_beyond_the_outline_is_refused() -> None:
    with pytest.raises(ValueError, match="u must be within the outline, got 601"):
        crossings(DECK, np.array([300.0, 601.0]))
