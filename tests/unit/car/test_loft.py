"""The loft through sections made by hand: what a height hangs on, and which face is met first."""

import numpy as np
import pytest
from numpy.typing import NDArray

from trimwright.car.along import between
from trimwright.car.loft import Loft, dropped, station_shares
from trimwright.car.section import Rail

Floats = NDArray[np.float64]


def rails(places: Floats, sizes: Floats, count: int = 61) -> tuple[Rail, ...]:
    """Return half rounds of these radii about z = 0 at these places."""
    turn = np.linspace(-np.pi / 2, np.pi / 2, count)
    circle = np.stack([np.sin(turn), np.cos(turn)], axis=-1)
    none = np.zeros((0, count, 2))
    return tuple(
        Rail(float(at), size * circle, (), none) for at, size in zip(places, sizes, strict=True)
    )


@pytest.mark.parametrize("count", [2, 3, 4, 5, 6, 7, 12])
def test_what_hangs_on_the_near_sections_is_all_there_is(count: int) -> None:
    rng = np.random.default_rng(count)
    places = np.cumsum(rng.uniform(60.0, 140.0, count))
    loft = Loft.through(rails(places, rng.uniform(90.0, 150.0, count)))
    # within half a millimetre of a section too: moved by as much, it passes the plumb line
    x = np.concatenate([places - 0.3, places, places + 0.3, rng.uniform(*loft.span, 40)])
    spot = dropped(loft, x, np.full(len(x), 35.0))
    shares, at_places = station_shares(loft, spot)
    points, x = loft.on_rails(spot.t), spot.x[:, None]
    lean = np.stack([spot.normal[:, 1] / spot.normal[:, 2], np.ones(len(x))], axis=-1)
    half = 0.5 * np.eye(count)
    moved = [_difference(places, points, (half[k][:, None, None], 0.0), x) for k in range(count)]
    for k in range(count):
        assert shares[k] == pytest.approx(moved[k] / sum(moved) * lean, abs=1e-9)
        along = _difference(places, points, (0.0, half[k]), x)
        assert at_places[k] == pytest.approx((along * lean).sum(axis=-1), abs=1e-9)


def _difference(
    places: Floats, points: Floats, by: tuple[Floats | float, Floats | float], x: Floats
) -> Floats:
    """Return how far the run of all sections at x moves while points and places do, either way."""
    ahead, behind = (
        between(places + sign * by[1], points + sign * by[0], x)[0] for sign in (1, -1)
    )
    return ahead - behind


def test_a_plumb_line_meets_the_upper_face_of_a_fold() -> None:
    turn = np.linspace(-2.4, 2.4, 97)  # past the widest place, the side tucks in under itself
    circle = 100.0 * np.stack([np.sin(turn), np.cos(turn)], axis=-1)
    loft = Loft.through(
        tuple(Rail(at, circle, (), np.zeros((0, 97, 2))) for at in (0.0, 200.0, 400.0))
    )
    spot = dropped(loft, np.array([150.0, 150.0]), np.array([80.0, 120.0]))
    assert spot.missed.tolist() == [False, True]
    assert spot.z[0] == pytest.approx(60.0, abs=1e-3)  # 60, 80, 100; the lower face is at -60


def test_the_highest_of_all_that_a_plumb_line_meets_is_found_as_by_looking_at_every_step() -> None:
    turns = [np.linspace(-end, end, 97) for end in (1.4, 1.5, 2.4, 2.4)]  # plain, then tucked in
    circles = [100.0 * np.stack([np.sin(turn), np.cos(turn)], axis=-1) for turn in turns]
    places, none = (0.0, 150.0, 300.0, 450.0), np.zeros((0, 97, 2))
    rails = (Rail(at, one, (), none) for at, one in zip(places, circles, strict=True))
    loft = Loft.through(tuple(rails))
    rng = np.random.default_rng(4)
    x, y = rng.uniform(*loft.span, 800), rng.uniform(-110.0, 110.0, 800)
    y[:20] = 0.0  # through a point of the skin
    spot = dropped(loft, x, y)
    rows = loft.rows(x)[0]
    for k in range(len(x)):
        met = np.flatnonzero((rows[k, :-1, 0] - y[k]) * (rows[k, 1:, 0] - y[k]) <= 0)
        assert spot.missed[k] == (len(met) == 0)
        if len(met):
            left, right = rows[k, met], rows[k, met + 1]
            part = (y[k] - left[:, 0]) / (right[:, 0] - left[:, 0])
            height = left[:, 1] + part * (right[:, 1] - left[:, 1])
            assert spot.z[k] == pytest.approx(height.max(), abs=0.5)  # cubics against straights


@pytest.mark.parametrize("off_mm", [2.0, 60.0], ids=["close by", "far away"])
def test_where_others_met_it_changes_nothing_but_the_time(off_mm: float) -> None:
    loft = Loft.through(rails(np.array([0.0, 150, 300]), np.array([100.0, 110, 105])))
    rng = np.random.default_rng(5)
    x, y = rng.uniform(*loft.span, 200), rng.uniform(-115.0, 115.0, 200)
    alone, after = dropped(loft, x, y), dropped(loft, x, y, dropped(loft, x, y + off_mm))
    for one, other in ((alone.t, after.t), (alone.z, after.z), (alone.missed, after.missed)):
        np.testing.assert_array_equal(one, other)
