"""Shafts in openings against a search over a finely drawn rim."""

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import minimize_scalar

from trimwright.fit.rim import Rim, room_to_rim

Floats = NDArray[np.float64]
RIM = Rim(np.array(65.0), np.array(55.0), np.array(25.0))


def rim_point(s: float) -> Floats:
    """Return a point of the rim at an angle about the corner centres, by quadrant."""
    corner = np.array([np.sign(np.cos(s)) * 40, np.sign(np.sin(s)) * 30])
    return np.asarray(corner + 25 * np.array([np.cos(s), np.sin(s)]))


def searched(place: Floats, way: Floats) -> float:
    """Return the distance from a line to the rim by a search over arcs and straight edges."""
    unit = way / np.linalg.norm(way)

    def far(point: Floats) -> float:
        to = np.array([*(point - place), 0.0])
        return float(np.linalg.norm(to - (to @ unit) * unit))

    best = []
    for quadrant in range(4):
        low = quadrant * np.pi / 2
        found = minimize_scalar(
            lambda s: far(rim_point(s)),
            bounds=(low + 1e-9, low + np.pi / 2 - 1e-9),
            method="bounded",
            options={"xatol": 1e-12},
        )
        best.append(float(found.fun))
    for a, b in (([-40, 55], [40, 55]), ([-40, -55], [40, -55]), ([65, -30], [65, 30])):
        for flip in (1, -1):
            start, end = np.array(a) * flip, np.array(b) * flip
            found = minimize_scalar(
                lambda t, p=start, q=end: far(p + t * (q - p)), bounds=(0, 1), method="bounded"
            )
            best.append(float(found.fun))
    return min(best)


@pytest.mark.parametrize("seed", range(4))
def test_room_equals_a_search_over_the_rim(seed: int) -> None:
    rng = np.random.default_rng(seed)
    place = rng.uniform([-62, -52], [62, 52], (40, 2))
    tilt, turn = np.radians(rng.uniform(0, 14, 40)), rng.uniform(0, 2 * np.pi, 40)
    way = np.stack(
        [np.sin(tilt) * np.cos(turn), np.sin(tilt) * np.sin(turn), np.cos(tilt)], axis=-1
    )
    ours = room_to_rim(RIM, place, way)
    inside = ours > 0
    theirs = np.array([searched(p, w) for p, w in zip(place, way, strict=True)])
    assert inside.sum() > 30
    # (room x tilt)^2 / (2 corner) for a tangent in place of an arc; room up to 55 mm
    bend = (ours * np.tan(tilt)) ** 2 / 50 + 1e-3
    assert (np.abs(ours - theirs)[inside] <= bend[inside]).all()


def test_outside_the_rim_is_below_zero() -> None:
    # the unsigned distance would be +2.6 here
    room = room_to_rim(RIM, np.array([67.6, 0.0]), np.array([0.0, 0, 1]))
    assert float(room) == pytest.approx(-2.6, abs=1e-12)


def test_a_leaning_shaft_has_less_room() -> None:
    # a shaft that leans 30 degrees towards an edge 20 mm off passes it at 20 cos 30
    way = np.array([np.sin(np.radians(30)), 0, np.cos(np.radians(30))])
    room = room_to_rim(RIM, np.array([45.0, 0.0]), way)
    assert float(room) == pytest.approx(20 * np.cos(np.radians(30)), abs=1e-12)
