"""Copper of 100 % IACS, 1/58 ohm mm2/m at 20 degC, and the American wire gauge by its definition.

The gauge: d = 0.127 mm x 92^((36 - n)/39). Resistance by temperature with 0.00393 a degree.
"""

import pytest

from trimwright.wiring.copper import (
    IACS_OHM_MM2_M,
    awg_area_mm2,
    awg_diameter_mm,
    resistance_factor,
)

CIRCULAR_MIL_MM2 = 5.067074790975e-4


def test_resistivity_of_copper() -> None:
    assert pytest.approx(17.241379e-3, rel=1e-7) == IACS_OHM_MM2_M


@pytest.mark.parametrize(
    ("celsius", "factor"),
    [
        (-20.0, 0.842800),
        (0.0, 0.921400),
        (50.0, 1.117900),
        (60.0, 1.157200),
        (85.0, 1.255450),
        (105.0, 1.334050),
    ],
)
def test_resistance_by_temperature(celsius: float, factor: float) -> None:
    assert float(resistance_factor(celsius)) == pytest.approx(factor, rel=1e-6)


@pytest.mark.parametrize(
    ("gauge", "diameter", "area", "mils", "mohm_per_m"),
    [
        (24, 0.510559, 0.204730, 404.04, 84.215080),
        (22, 0.643803, 0.325534, 642.45, 52.963385),
        (20, 0.811821, 0.517619, 1021.53, 33.309000),
        (18, 1.023687, 0.823047, 1624.30, 20.948236),
        (16, 1.290846, 1.308696, 2582.74, 13.174475),
        (14, 1.627727, 2.080908, 4106.72, 8.285509),
        (12, 2.052525, 3.308773, 6529.95, 5.210808),
        (10, 2.588187, 5.261155, 10383.02, 3.277109),
        (8, 3.263643, 8.365564, 16509.65, 2.060994),
        (6, 4.115378, 13.301768, 26251.37, 1.296172),
        (4, 5.189396, 21.150639, 41741.32, 0.815171),
        (2, 6.543707, 33.630834, 66371.30, 0.512666),
    ],
)
def test_a_solid_wire_of_a_gauge(
    gauge: int, diameter: float, area: float, mils: float, mohm_per_m: float
) -> None:
    assert awg_diameter_mm(gauge) == pytest.approx(diameter, abs=5e-7)
    assert awg_area_mm2(gauge) == pytest.approx(area, abs=5e-7)
    assert awg_area_mm2(gauge) / CIRCULAR_MIL_MM2 == pytest.approx(mils, abs=5e-3)
    assert IACS_OHM_MM2_M / awg_area_mm2(gauge) * 1000 == pytest.approx(mohm_per_m, abs=5e-7)
