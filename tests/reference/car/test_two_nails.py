"""Closed form: a point by its distances from two nails, and how far it may be off.

Two circles cross where the triangle closes; the point's own doubt is that of a distance
intersection in surveying, u(P) = hypot(u(a), u(b)) / sin g, g the angle at which the two distances
cross (from memory of surveying textbooks; the same follows from JCGM 100, clause 5.1.2).
"""

import numpy as np
import pytest
from numpy.typing import NDArray

from trimwright.build import Build, parse
from trimwright.car import World, ledger
from trimwright.car.nail import below_nails
from trimwright.car.reading_sum import Sum
from trimwright.car.touched import places_of

Floats = NDArray[np.float64]

WIDE, TALL = 160.0, 130.0  # half axes of an ellipse whose top is the middle mark
LEFT, RIGHT = np.array([-260.0, -40]), np.array([240.0, -40])  # the nails: right, down
TURNS = np.radians([-85.0, -60, -35, -12, 12, 35, 60, 85])
POINTS = np.stack([WIDE * np.sin(TURNS), TALL * (1 - np.cos(TURNS))], axis=-1)


def _build(doubts: tuple[float, float] = (1.5, 1.5)) -> Build:
    """Return a car with one section on the ellipse, measured exactly."""

    def told(point: Floats) -> str:
        a, b = (float(np.hypot(*(point - nail))) for nail in (LEFT, RIGHT))
        return f"from left {a:.12f} ± {doubts[0]}, from right {b:.12f} ± {doubts[1]}"

    text = (
        "build: Larkfield saloon\nunit: mm\ncar:\n  tunnel:\n    - at: 300 behind\n      nails:\n"
    )
    text += f"        apart: 500\n        middle: {told(np.zeros(2))}\n        points:\n"
    return parse(text + "".join(f"          - {told(one)}\n" for one in POINTS)).build


def test_points_of_an_ellipse_are_given_back() -> None:
    places = places_of(_build().car.tunnel[0], Sum())
    found = np.array([[y.value, -z.value] for y, z in places])
    assert len(found) == len(POINTS) + 1  # and the top, which is the middle mark
    assert np.delete(found, 4, axis=0) == pytest.approx(POINTS, abs=1e-9)
    assert found[4] == pytest.approx([0, 0], abs=1e-9)


@pytest.mark.parametrize("number", range(len(POINTS)))
@pytest.mark.parametrize("doubts", [(1.5, 1.5), (1.0, 3.0)])
def test_a_point_is_off_by_the_crossing_of_its_distances(
    number: int, doubts: tuple[float, float]
) -> None:
    build = _build(doubts)
    place = places_of(build.car.tunnel[0], Sum())[number + (number >= 4)]
    own = f"car.tunnel.0.nails.points.{number}."
    sigmas = {f.key: f.doubt.sigma for f in ledger(build).factors}
    squares = [
        (times * sigmas[key]) ** 2
        for axis in place
        for key, _, times in axis.parts
        if key.startswith(own)
    ]
    a, b = POINTS[number] - LEFT, POINTS[number] - RIGHT
    crossing = float(a @ b / np.linalg.norm(a) / np.linalg.norm(b))
    expected = np.hypot(*doubts) / 2 / np.sqrt(1 - crossing**2)
    assert np.sqrt(sum(squares)) == pytest.approx(expected, rel=1e-6)


def test_a_point_follows_its_readings_as_lines_along_them() -> None:
    # a longer left length moves the point square to its right one: by 1 / sin g
    places = places_of(_build().car.tunnel[0], Sum())
    y, z = places[0]
    move = np.array(
        [next(t for key, _, t in axis.parts if key.endswith("points.0.left")) for axis in (y, z)]
    )
    to_right = (POINTS[0] - RIGHT) * [1, -1]
    assert move @ to_right == pytest.approx(0, abs=1e-6)


def test_an_error_of_the_middle_mark_moves_all_points_alike() -> None:
    build = _build()
    key = "car.tunnel.0.nails.middle.left"
    places = places_of(build.car.tunnel[0], Sum())
    moves = {
        tuple(round(sum(t for k, _, t in axis.parts if k == key), 6) for axis in place)
        for place in places
        if place[0].parts
    }
    (move,) = moves
    a, b = -LEFT, -RIGHT
    crossing = float(a @ b / np.linalg.norm(a) / np.linalg.norm(b))
    assert np.hypot(move[0], move[1]) == pytest.approx(1 / np.sqrt(1 - crossing**2), rel=1e-5)
    book = ledger(build)
    assert World.nominal(build, book).of(key)[0] > 0


@pytest.mark.parametrize(("left", "right"), [(100.0, 700.0), (200.0, 200.0), (700.0, 100.0)])
def test_lengths_that_do_not_meet_are_refused(left: float, right: float) -> None:
    with pytest.raises(ValueError, match="left_mm and right_mm must meet below the nails"):
        below_nails(500.0, left, right)
