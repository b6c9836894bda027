"""Printed charts of stranded wire.

Bare stranded wire kept with an open engine controller: 18 AWG of 16 strands of 30, 6.48 ohm/1000 ft
(ideal copper: its resistance times its area is 1.71e-8 to 1.73e-8 ohm m). A training page: No. 16,
4.99 ohm/1000 ft, 100 ft there and 100 ft back at 4 A lose 4.0 V, 16.7 % of 24 V.
"""

import pytest

from trimwright.stock import conductor
from trimwright.wiring.copper import wire_resistance

FOOT_M = 0.3048


def test_bare_stranded_wire_is_ideal_copper() -> None:
    found = conductor("18 AWG 16/30")
    assert found.ohm_per_m * 1000 * FOOT_M == pytest.approx(6.48, abs=0.005)
    assert 1.71e-2 < found.ohm_per_m * found.area_mm2 < 1.73e-2


def test_drop_of_a_circuit_there_and_back() -> None:
    volts = 4.0 * float(wire_resistance(4.99 / (1000 * FOOT_M), 2 * 100 * FOOT_M))
    assert volts == pytest.approx(3.992, abs=1e-9)
    assert volts / 24 == pytest.approx(0.166333, abs=5e-7)
