"""What counts as the upper of two solutions."""

import numpy as np
import pytest
from numpy.typing import NDArray

from trimwright.wiring.network import Circuit, ConstantPower
from trimwright.wiring.network.descent import Core, descended
from trimwright.wiring.network.law import Laws

ROWS = 3
FEED_V = 12.0
LOADS = Circuit("0", tuple(ConstantPower(name, name, "0", 16.0, 0.0) for name in ("a", "b")))


def core(beside: float = 0.0) -> Core:
    """Return two loads of 16 W, each on 12 V behind 1 ohm, of which some is shared, three times."""
    ohms = np.array([[1.0, beside], [beside, 1.0]])
    laws = Laws.of(slice(0), slice(0), slice(2), LOADS.states(ROWS))
    feed_v = np.full(ROWS, FEED_V)
    return Core(np.full((ROWS, 2), FEED_V), np.tile(ohms, (ROWS, 1, 1)), laws, feed_v)


ON = np.ones((ROWS, 2), np.bool_)


def upheld(voltages: list[list[float]], on: NDArray[np.bool_]) -> list[bool]:
    """Return which voltages across the loads are of the upper kind."""
    own = core()
    return [bool(one) for one in own.upheld(own.at(FEED_V - np.array(voltages), on), on)]


def test_voltages_below_the_limit_of_any_load_are_not_of_the_upper_kind() -> None:
    # 1 ohm carries 16 W down to sqrt(16 W x 1 ohm) = 4 V
    assert upheld([[4.1, 4.1], [3.9, 4.1], [4.1, 3.9]], ON) == [True, False, False]


def test_loads_that_share_a_feed_reach_its_limit_together() -> None:
    # 32 W on 1 ohm that they share: sqrt(32) = 5.66 V, though either could go down to 4
    own = core(beside=1.0)
    voltages = np.array([[5.7, 5.7], [5.6, 5.6], [4.1, 4.1]])
    alone = ON & [True, False]
    for on, told in ((ON, [True, False, False]), (alone, [True, True, True])):
        assert own.upheld(own.at((FEED_V - voltages) / 2, on), on).tolist() == told


def test_voltages_against_a_load_are_not_of_the_upper_kind() -> None:
    voltages = [[4.1, 4.1], [-9.0, 9.0], [9.0, -9.0]]
    assert upheld(voltages, ON) == [True, False, False]
    assert upheld(voltages, ON & [True, False]) == [True, False, True]


def test_steps_from_above_end_at_the_upper_solution() -> None:
    # u^2 - 12 u + 16 = 0
    own, start = core(), np.array([[12.0, 12.0], [50.0, 12.0], [4.5, 11.0]])
    drawn, reached = descended(own, ON, FEED_V - start)
    assert reached.all()
    assert own.across(drawn) == pytest.approx(6 + np.sqrt(20))


def test_from_below_the_limit_the_start_is_raised() -> None:
    own = core()
    drawn, reached = descended(own, ON, FEED_V - np.array([[1.0, 3.0]] * ROWS))
    assert reached.all()
    assert own.across(drawn) == pytest.approx(6 + np.sqrt(20))


def test_a_load_sees_its_feed_beside_what_others_on_it_take() -> None:
    # 1 ohm that both share, beside 3 S of the other: 1 / (1 + 3) ohm
    slopes = np.tile([-0.1, 3.0], (ROWS, 1))
    seen = core(beside=1.0).seen(slopes, np.array([True, False]))
    assert seen == pytest.approx(np.full((ROWS, 1, 1), 0.25))
