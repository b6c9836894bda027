"""A rigid bar on a bed of springs with a bump under it, and carpet over a round, in closed form.

On a linear bed (Winkler) that touches all along, a bump h(x) raises a bar of length L by the mean of
h, and turns it by 12 / L^3 times the integral of h x. Carpet t thick on a round of radius r on flat
metal is an arc of radius r + t above 2 sqrt(r t) either side; its area is elementary.
"""

from math import asin, sqrt

import numpy as np
import pytest
from msgspec.structs import replace
from numpy.typing import NDArray

from tests.reference.fit.test_bed_closed_forms import PowerBed
from tests.reference.fit.test_cylinder_tunnel import cylinder
from trimwright.car import Ridge, World
from trimwright.car import tunnel as tunnel_of
from trimwright.fit import gap_model
from trimwright.fit.footing import footing_of
from trimwright.fit.pose import Contact, Load, resting_pose

R, T = 5.0, 14.0
LONG = 700.0
ROUND = Ridge(((0.0, -50.0), (0.0, 50.0)), 2 * R, 2 * R)


def area() -> float:
    """Return the area by which the round raises the carpet's top [mm2]."""
    half = 2 * sqrt(R * T)
    return half * (R - T) + (R + T) ** 2 * asin(half / (R + T))


def bar(at: float) -> tuple[float, float]:
    """Return how far a bar on a linear bed is raised and turned by the round under a place."""
    count = 14000
    x = (np.arange(count) + 0.5) / count * LONG - LONG / 2
    bump = ROUND.rise(np.abs(x - at), np.array([T]))
    rail = np.concatenate([x, x])  # two rails, so that it stands
    y = np.repeat([-100.0, 100.0], count)
    every = np.full((1, 2 * count), LONG / count * 12.0)
    found = [
        resting_pose(
            Contact(rail, y, 8.0 + np.tile(up, (1, 2)), np.ones(2 * count), every),
            Load(np.array([400.0]), np.zeros(1), np.zeros(1)),
            PowerBed(2.0),
        ).motion[0]
        for up in (np.zeros_like(bump), bump)
    ]
    moved = found[1] - found[0]
    return float(moved[0]), float(moved[1])


@pytest.mark.parametrize("at", [0.0, 150.0, -210.0])
def test_a_bump_under_a_bar_on_springs(at: float) -> None:
    up, turn = bar(at)
    assert up == pytest.approx(area() / LONG, rel=1e-4)
    # z = -turn x: a bump behind the middle raises the rear
    assert turn == pytest.approx(-12 / LONG**3 * area() * at, rel=1e-3, abs=1e-9)


def test_the_top_of_the_carpet_is_the_round_itself() -> None:
    assert ROUND.rise(np.array([0.0]), np.array([T]))[0, 0] == pytest.approx(2 * R)
    off = np.linspace(0.0, ROUND.reach_mm(T) - 1e-6, 50)
    above = ROUND.rise(off, np.array([T]))[0] + T - R  # over the round's centre
    assert np.hypot(off, above) == pytest.approx(R + T)


def _rest(ridges: tuple[Ridge, ...]) -> NDArray[np.float64]:
    """Return where the console on the cylinder comes to rest with ridges under its carpet."""
    model, carcass = cylinder()
    skin = replace(tunnel_of(model.build.car), ridges=ridges)
    return np.asarray(gap_model(model.build, model.ledger, skin, carcass).nominal().poses[0])


def test_a_broad_ridge_under_all_of_it_is_a_layer() -> None:
    model, carcass = cylinder()
    broad = Ridge(((-150.0, 0.0), (750.0, 0.0)), 4.0, 4000.0)
    bare = _rest(())
    over = _rest((broad,))
    world = World.nominal(model.build, model.ledger)
    footing, _ = footing_of(world, tunnel_of(model.build.car), carcass)
    assert footing is not None
    # the walls stand at 94 to 106 mm on a round of 162 mm: 4 mm square to it is 4 / upright up
    upright = footing.rest.bed.normal[:, 2]
    assert 4.0 / upright.max() < over[0] - bare[0] < 4.0 / upright.min()


def test_a_ridge_beside_every_edge_changes_nothing() -> None:
    between = Ridge(((-40.0, 0.0), (600.0, 0.0)), 16.0, 16.0)
    assert _rest((between,)).tolist() == _rest(()).tolist()


def test_a_ridge_across_the_rear_raises_the_rear_more_than_the_nose() -> None:
    across = Ridge(((600.0, -140.0), (600.0, 140.0)), 12.0, 12.0)
    bare, over = _rest(()), _rest((across,))
    moved = over - bare
    assert moved[0] > 0
    assert moved[1] < 0  # nose down about the middle
    assert moved[2] == pytest.approx(0.0, abs=1e-4)


def test_a_ridge_under_the_right_wall_rolls_it_to_the_left() -> None:
    right = Ridge(((-60.0, 100.0), (680.0, 100.0)), 6.0, 6.0)
    moved = _rest((right,)) - _rest(())
    assert moved[2] > 0
    left = Ridge(((-60.0, -100.0), (680.0, -100.0)), 6.0, 6.0)
    other = _rest((left,)) - _rest(())
    assert other[2] == pytest.approx(-moved[2], rel=1e-3)
    assert other[0] == pytest.approx(moved[0], rel=1e-3)


def test_a_thicker_loom_never_raises_it_less() -> None:
    heights = [
        float(_rest((Ridge(((600.0, -140.0), (600.0, 140.0)), high, high),))[0])
        for high in (2.0, 5.0, 9.0, 14.0)
    ]
    assert heights == sorted(heights)


def test_gauss_points_are_close_enough_over_a_ridge() -> None:
    places = [Ridge(((at, -140.0), (at, 140.0)), 12.0, 12.0) for at in (600.0, 604.0, 608.0)]
    lifts = [float(_rest((one,))[0]) for one in places]
    assert max(lifts) - min(lifts) < 0.15  # mm; a few millimetres further on change it little
