"""Closed forms of a pile under load: locking laws through stated readings.

8 kg and 120 N on 25 200 mm2 are 7.875127 kPa.
"""

import numpy as np
import pytest

from trimwright.build import parse
from trimwright.car import ledger
from trimwright.car.pile import CarpetBed, locking_stiffness

P = 7.875127


def _bed(loose: float, readings: list[tuple[float, float]]) -> CarpetBed:
    pressure = np.array([[p for p, _ in readings]])
    thick = np.array([[h for _, h in readings]])
    squeeze = loose - thick
    c = locking_stiffness((pressure[:, 0], squeeze[:, 0]), (pressure[:, -1], squeeze[:, -1]))
    return CarpetBed.through(np.array([loose]), pressure, thick, c)


@pytest.mark.parametrize(("pressure", "height"), [(2, 8.0), (P, 4.042062), (20, 2.0)])
def test_locking_law_of_strain(pressure: float, height: float) -> None:
    # p = E e / (1 - e), H = 12 mm, E = 4 kPa, read at 2 and 20 kPa
    bed = _bed(12.0, [(2.0, 8.0), (20.0, 2.0)])
    assert bed.stiffness_kpa == pytest.approx(4.0, abs=1e-9)
    assert bed.thickness_under(np.array([[float(pressure)]]))[0, 0] == pytest.approx(
        height, abs=5e-7
    )


@pytest.mark.parametrize(
    ("pressure", "height"), [(2, 10.0), (P, 7.459428), (20, 5.846154), (200, 4.233010)]
)
def test_three_readings(pressure: float, height: float) -> None:
    # loose 12, 10 mm at 2 kPa, squeezed 4: h = (c H + p h0) / (c + p), c = 6
    bed = _bed(12.0, [(2.0, 10.0), (np.inf, 4.0)])
    assert bed.stiffness_kpa == pytest.approx(6.0, abs=1e-9)
    assert bed.thickness_under(np.array([[float(pressure)]]))[0, 0] == pytest.approx(
        height, abs=5e-7
    )


def _squeeze_at_p(stiffness_kpa: float) -> float:
    """Return the squeeze at P through 2 mm at 2 kPa and 5 mm at 20 kPa with a given c."""
    pressure, thick = np.array([[2.0, 20.0]]), np.array([[8.0, 5.0]])
    bed = CarpetBed.through(np.array([10.0]), pressure, thick, np.array([stiffness_kpa]))
    return 10 - float(bed.thickness_under(np.array([[P]]))[0, 0])


def test_a_law_that_never_locks_is_the_straight_line_between_two_readings() -> None:
    assert _squeeze_at_p(1e6) == pytest.approx(2.979188, abs=1e-4)


def test_the_doubt_of_the_curve_reaches_to_the_power_law() -> None:
    # p = c d^n through the same readings: 3.450602 mm; c = 4 kPa locks through them
    build = parse(
        "build: Larkfield saloon\nunit: mm\ncar:\n"
        "  carpet: {loose: 10, pressed: [{weight: 5 kg, lath: 12 x 200, thick: 8}]}\n"
    ).build
    factors = ledger(build).factors
    half = next(one.doubt.plus for one in factors if one.key == "model:carpet curve")
    assert _squeeze_at_p(4.0 * 2**half) == pytest.approx(3.450602, abs=0.05)
