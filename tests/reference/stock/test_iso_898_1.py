"""Nominal stress areas follow from thread geometry.

ISO 898-1: As = pi/4 ((d2 + d3)/2)^2 = pi/4 (d - 0.938 2 P)^2, by the basic profile of ISO 68-1 and
the diameters of ISO 724. ASME B1.1: As = pi (E/2 - 3 H/16)^2, E the pitch diameter to the four
decimals that it prints, H = 0.866 025/n.
"""

import math

import pytest

from trimwright.stock import bolt, rows


def half_last_digit(printed: str) -> float:
    return 0.5 * 10.0 ** -len(printed.partition(".")[2])


@pytest.mark.parametrize("name", [row["name"] for row in rows("bolt")])
def test_metric_stress_area(name: str) -> None:
    printed = next(row["area_mm2"] for row in rows("bolt") if row["name"] == name)
    thread = bolt(name)
    area = math.pi / 4 * (thread.diameter_mm - 0.9382 * thread.pitch_mm) ** 2
    assert float(printed) == pytest.approx(area, abs=half_last_digit(printed))


@pytest.mark.parametrize("name", [row["name"] for row in rows("bolt")])
def test_metric_stress_area_from_pitch_and_root_diameters(name: str) -> None:
    """ISO 724: d2 = d - 0.649 519 P; ISO 898-1: d3 = d1 - H/6, d1 = d - 1.082 532 P."""
    printed = next(row["area_mm2"] for row in rows("bolt") if row["name"] == name)
    thread = bolt(name)
    height = 0.866_025 * thread.pitch_mm
    pitch_diameter = thread.diameter_mm - 0.649_519 * thread.pitch_mm
    root_diameter = thread.diameter_mm - 1.082_532 * thread.pitch_mm - height / 6
    area = math.pi / 4 * ((pitch_diameter + root_diameter) / 2) ** 2
    assert thread.area_mm2 == pytest.approx(area, abs=half_last_digit(printed))


@pytest.mark.parametrize("name", [row["name"] for row in rows("inch_bolt")])
def test_inch_stress_area(name: str) -> None:
    printed = next(row for row in rows("inch_bolt") if row["name"] == name)
    diameter, per_inch = float(printed["diameter_in"]), float(printed["threads_per_in"])
    pitch_diameter = round(diameter - 0.649_519 / per_inch, 4)
    area = math.pi * (pitch_diameter / 2 - 3 * 0.866_025 / per_inch / 16) ** 2
    assert float(printed["area_in2"]) == pytest.approx(
        area, abs=half_last_digit(printed["area_in2"])
    )
    assert bolt(name).area_mm2 == pytest.approx(float(printed["area_in2"]) * 645.16, rel=1e-12)
