"""IEC 60228, class 5: conductors as cable makers print them keep the thickest strand allowed.

Strandings as commonly printed beside the class: 16, 24 and 32 of 0.20 mm, 30 and 50 of 0.25 mm, 56
and 84 of 0.30 mm, 80, 126 and 196 of 0.40 mm. One step fewer and thicker breaks it.
"""

import pytest

from trimwright.stock import flex_strand, wire


@pytest.mark.parametrize(
    ("area_mm2", "strand_mm"),
    [
        (0.5, 0.20),
        (0.75, 0.20),
        (1.0, 0.20),
        (1.5, 0.25),
        (2.5, 0.25),
        (4.0, 0.30),
        (6.0, 0.30),
        (10.0, 0.40),
        (16.0, 0.40),
        (25.0, 0.40),
    ],
)
def test_class_5_as_printed_passes_and_the_next_thicker_does_not(
    area_mm2: float, strand_mm: float
) -> None:
    assert strand_mm <= flex_strand(area_mm2).value < strand_mm + 0.05


@pytest.mark.parametrize(
    ("size", "strand_mm"),
    [("16 AWG", "0.286"), ("18 AWG", "0.255"), ("20 AWG", "0.321"), ("12 AWG", "0.455")],
)
def test_strands_by_gauge_are_those_of_the_wire_tables(size: str, strand_mm: str) -> None:
    # ASTM B258, in mm: 29, 30, 28 and 25 AWG
    half_last_digit = 0.5 * 10 ** -len(strand_mm.split(".")[1])
    assert wire(size).strand_mm == pytest.approx(float(strand_mm), abs=half_last_digit)
