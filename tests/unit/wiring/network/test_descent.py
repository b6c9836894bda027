"""What counts as the upper of two solutions."""

import numpy as np
import pytest

from trimwright.wiring.network import Circuit, ConstantPower
from trimwright.wiring.network.descent import Core, descended
from trimwright.wiring.network.law import Laws
from trimwright.wiring.network.reduction import Network

ROWS = 3
LOADS = Circuit("0", tuple(ConstantPower(name, name, "0", 16.0, 0.0) for name in ("a", "b")))


def core() -> Core:
    """Return two loads of 16 W, each on 12 V behind 1 ohm of its own, three times over."""
    matrix = np.diag([2.0, 1.0, 1.0]) - np.array([[0, 1, 1], [1, 0, 0], [1, 0, 0.0]])
    network = Network(np.tile(matrix, (ROWS, 1, 1)), np.tile([-24.0, 12, 12], (ROWS, 1)))
    none = np.zeros(2, np.bool_)
    laws = Laws(none, none, ~none, LOADS.states(ROWS))
    return Core(network, LOADS.ends, laws, np.full(ROWS, 12.0))


ON = np.ones((ROWS, 2), np.bool_)


def test_voltages_below_the_limit_of_any_load_are_not_of_the_upper_kind() -> None:
    # 1 ohm carries 16 W down to sqrt(16 W x 1 ohm) = 4 V
    voltages = np.array([[0, 4.1, 4.1], [0, 3.9, 4.1], [0, 4.1, 3.9]])
    assert core().upheld(voltages, ON).tolist() == [True, False, False]


def test_voltages_against_a_load_are_not_of_the_upper_kind() -> None:
    voltages = np.array([[0, 4.1, 4.1], [0, -9.0, 9.0], [0, 9.0, -9.0]])
    assert core().upheld(voltages, ON).tolist() == [True, False, False]
    off = ON & [True, False]
    assert core().upheld(voltages, off).tolist() == [True, False, True]


def test_steps_from_above_end_at_the_upper_solution() -> None:
    # u^2 - 12 u + 16 = 0
    start = np.array([[0, 12.0, 12.0], [0, 50.0, 12.0], [0, 4.5, 11.0]])
    voltages, reached = descended(core(), ON, start)
    assert reached.all()
    assert voltages[:, 1:] == pytest.approx(6 + np.sqrt(20))


def test_from_below_the_limit_the_start_is_raised() -> None:
    voltages, reached = descended(core(), ON, np.array([[0, 1.0, 3.0]] * ROWS))
    assert reached.all()
    assert voltages[:, 1:] == pytest.approx(6 + np.sqrt(20))
