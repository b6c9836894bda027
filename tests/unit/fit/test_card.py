"""A card gauge shows daylight only where the skin differs from the card, never from the car."""

from pathlib import Path

import numpy as np
import pytest

from trimwright.build import load
from trimwright.car import World, ledger, tunnel
from trimwright.fit.card import CardPlace, card_daylight

DEMO = Path(__file__).resolve().parents[3] / "examples" / "dunlin" / "after-remedies.yaml"
BUILD = load(DEMO).build
LEDGER, TUNNEL = ledger(BUILD), tunnel(BUILD.car)
PLACE = CardPlace(380.0, -100.0)


def _world(**off: float) -> World:
    rows = np.zeros((1, len(LEDGER)))
    for key, value in off.items():
        rows[0, LEDGER.index(key)] = value
    return World(BUILD, LEDGER, rows)


def test_no_daylight_where_the_car_is_as_read() -> None:
    assert card_daylight(TUNNEL, _world(), PLACE)[0] == pytest.approx(0.0, abs=1e-9)


def test_a_string_that_hung_low_shows_none_for_the_card_comes_down_with_the_skin() -> None:
    world = _world(**{"car.datum.string above tunnel": -5.0})
    assert card_daylight(TUNNEL, world, PLACE)[0] == pytest.approx(
        0.0, abs=0.01
    )  # the skin is linearised


def test_daylight_is_the_normal_part_of_what_is_missing_there() -> None:
    key = "car.tunnel.2.down 35.left"
    world = _world(**{key: -6.0})
    x, y = np.array([PLACE.at_mm]), np.array([PLACE.across_mm])
    here = TUNNEL.plumb(x, y)
    fallen = (here.z[0] - here.hit(world).z[0, 0]) * here.normal[0, 2]
    seen = card_daylight(TUNNEL, world, PLACE)[0]
    along = np.linspace(-164.0, 163.0, 200)
    all_over = TUNNEL.plumb(np.full(200, PLACE.at_mm), along)
    rise = float((all_over.hit(world).z[0] - all_over.z).max())
    assert fallen > 1.0
    # the spline lifts a little elsewhere, and the card then stands that much higher
    assert fallen <= seen <= fallen + rise


def test_daylight_is_never_less_than_none() -> None:
    rng = np.random.default_rng(3)
    scores = rng.standard_normal((200, len(LEDGER)))
    world = World(BUILD, LEDGER, LEDGER.deviations(scores))
    assert card_daylight(TUNNEL, world, PLACE).min() >= 0.0
