"""A sheet of birch plywood weighs what its data sheet prints, kg to a tenth.

Nominal thickness x density x size; so the printed density counts with the nominal thickness.
"""

import pytest

from trimwright.stock import sizes, thickness

SMALL, LARGE = sizes("birch plywood")[:2]


@pytest.mark.parametrize(
    ("nominal", "small_kg", "large_kg"),
    [
        (4, 7.9, 12.3),
        (6.5, 13.0, 20.3),
        (9, 19.0, 29.7),
        (12, 24.8, 38.8),
        (15, 30.8, 48.1),
        (18, 36.7, 57.3),
        (21, 42.5, 66.4),
        (24, 48.6, 75.9),
        (27, 54.1, 84.5),
        (30, 60.0, 93.8),
    ],
)
def test_weight_of_a_sheet(nominal: float, small_kg: float, large_kg: float) -> None:
    found = thickness("birch plywood", nominal)
    assert found is not None
    per_area = found.nominal_mm / 1000 * found.density_kg_m3
    for size, printed in ((SMALL, small_kg), (LARGE, large_kg)):
        area_m2 = size.long_mm * size.wide_mm / 1e6
        assert area_m2 * per_area == pytest.approx(printed, abs=0.05)
