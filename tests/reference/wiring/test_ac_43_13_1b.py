"""FAA AC 43.13-1B, chapter 11: wire, drop, contacts and derating for light aircraft.

Tables 11-4, 11-7, 11-8 and 11-9, paragraphs 11-66 and 11-67, typed as they are printed. Two rows
of the drop tables are held against their own arithmetic: 88 ft of 0.00202 ohm/ft at 20 A prints
3.60 for 3.5552, and 19.5 ft of 0.00126 prints .366 for 0.4914.
"""

import pytest

from trimwright.stock import conductor, contact_factor, wires
from trimwright.wiring.copper import (
    Laid,
    ampacity,
    bundle_factor,
    contact_rating,
    derated,
    length_factor,
    wire_resistance,
)

FOOT_M = 0.3048


@pytest.mark.parametrize(
    ("size", "ohm_per_1000_ft", "mohm_per_m", "mm2"),
    [
        ("24 AWG", 28.40, 93.1759, 0.2407),
        ("22 AWG", 16.20, 53.1496, 0.3826),
        ("20 AWG", 9.88, 32.4147, 0.6162),
        ("18 AWG", 6.23, 20.4396, 0.9627),
        ("16 AWG", 4.81, 15.7808, 1.2293),
        ("14 AWG", 3.06, 10.0394, 1.9412),
        ("12 AWG", 2.02, 6.6273, 2.9764),
        ("10 AWG", 1.26, 4.1339, 4.7397),
        ("8 AWG", 0.70, 2.2966, 8.6054),
        ("6 AWG", 0.44, 1.4436, 13.5889),
        ("4 AWG", 0.28, 0.9186, 21.5933),
        ("2 AWG", 0.18, 0.5906, 33.6960),
        ("1 AWG", 0.15, 0.4921, 41.3980),
        ("1/0 AWG", 0.12, 0.3937, 52.9509),
        ("2/0 AWG", 0.09, 0.2953, 67.3921),
        ("3/0 AWG", 0.07, 0.2297, 84.3668),
        ("4/0 AWG", 0.06, 0.1969, 106.8646),
    ],
)
def test_resistance_and_area_of_table_11_9(
    size: str, ohm_per_1000_ft: float, mohm_per_m: float, mm2: float
) -> None:
    found = conductor(size)
    assert found.ohm_per_m * 1000 == pytest.approx(mohm_per_m, abs=5e-5)
    assert found.area_mm2 == pytest.approx(mm2, abs=5e-5)
    assert float(wire_resistance(found.ohm_per_m, 1000 * FOOT_M)) == pytest.approx(ohm_per_1000_ft)


@pytest.mark.parametrize(
    "size", [f"{gauge} AWG" for gauge in (22, 20, 18, 16, 14, 12, 10, 8, 6, 4)]
)
def test_tinned_wire_resists_more_than_its_area_of_copper(size: str) -> None:
    found = conductor(size)
    assert 1.93e-2 < found.ohm_per_m * found.area_mm2 < 2.04e-2  # ohm mm2/m; pure copper 1.724e-2


@pytest.mark.parametrize(
    ("ohm_per_ft", "feet", "volts"),
    [
        (0.00044, 107, 0.941600),
        (0.00028, 90, 0.504000),
        (0.00202, 88, 3.555200),
        (0.00306, 100, 6.120000),
        (0.00126, 39, 0.982800),
        (0.00126, 19.5, 0.491400),
        (0.00126, 156, 3.931200),
        (0.00126, 273, 6.879600),
    ],
)
def test_voltage_drop_of_tables_11_7_and_11_8(ohm_per_ft: float, feet: float, volts: float) -> None:
    ohm = float(wire_resistance(ohm_per_ft / FOOT_M, feet * FOOT_M))
    assert 20 * ohm == pytest.approx(volts, rel=1e-9)


@pytest.mark.parametrize(
    ("celsius", "factor"), [(50.0, 0.894552), (85.0, 0.796557), (105.0, 0.749632)]
)
def test_run_length_shrinks_with_heat(celsius: float, factor: float) -> None:
    assert length_factor(celsius) == pytest.approx(factor, abs=5e-7)


def test_run_length_shrinks_in_aluminium() -> None:
    assert length_factor(50.0, "aluminium") == pytest.approx(0.895869, abs=5e-7)


def test_derating_chain_of_example_2() -> None:
    assert derated(47.0, 0.91) == pytest.approx(42.77)
    assert derated(47.0, 0.91, 0.6) == pytest.approx(25.662, abs=1e-9)


def test_a_bundle_is_never_rated_kinder_than_in_example_2() -> None:
    assert bundle_factor(8, load_share=0.6) <= 0.6  # 8 wires at 60 % of their load


@pytest.mark.parametrize(
    ("system_v", "load", "factor"),
    [
        (28.0, "lamp", 8),
        (28.0, "inductive", 4),
        (28.0, "resistive", 2),
        (28.0, "motor", 3),
        (12.0, "lamp", 5),
        (12.0, "inductive", 2),
        (12.0, "resistive", 1),
        (12.0, "motor", 2),
    ],
)
def test_contact_factors_of_table_11_4(system_v: float, load: str, factor: float) -> None:
    assert contact_factor(load, system_v=system_v).factor == factor
    assert contact_rating(5.0, load, system_v=system_v) == 5 * factor


@pytest.mark.parametrize(
    ("size", "printed_a"),
    [
        ("20 AWG", 4),
        ("18 AWG", 6),
        ("16 AWG", 7),
        ("14 AWG", 10),
        ("12 AWG", 13),
        ("10 AWG", 17),
        ("8 AWG", 38),
    ],
)
def test_a_wire_alone_at_sea_level_bears_more_than_in_the_crowded_case_of_table_11_9(
    size: str, printed_a: float
) -> None:
    # the table's case is 33 wires (9 of size 8), at 60 000 ft, in air of 70 degC, copper at 105
    found = next(one for one in wires("awg") if one.name == size)
    assert ampacity(Laid(found, 70.0), limit_c=105.0) > printed_a
