"""Bolts, saws and friction."""

import pytest

from trimwright.stock import bolt, friction, kerf, nut_factor, rows, tilt


def test_a_bigger_bolt_carries_more() -> None:
    areas = [bolt(row["name"]).area_mm2 for row in rows("bolt")]
    assert areas == sorted(areas)


def test_an_inch_bolt_is_given_in_mm() -> None:
    quarter = bolt("1/4-20")
    assert (quarter.diameter_mm, quarter.pitch_mm) == pytest.approx((6.35, 1.27))
    assert bolt("M6").area_mm2 < quarter.area_mm2 < bolt("M7").area_mm2


def test_a_finer_thread_carries_more() -> None:
    for coarse, fine in (("#10-24", "#10-32"), ("1/4-20", "1/4-28"), ("3/8-16", "3/8-24")):
        assert bolt(coarse).area_mm2 < bolt(fine).area_mm2


def test_oil_lowers_the_nut_factor() -> None:
    dry, oiled = nut_factor("dry steel"), nut_factor("oiled steel")
    assert (oiled.low, oiled.high) < (dry.low, dry.high)


def test_a_kerf_printed_in_inches_is_given_in_mm() -> None:
    assert kerf("band saw").low_mm == pytest.approx(0.508)
    assert kerf("thin-kerf table saw").high_mm < kerf("full-kerf table saw").low_mm


def test_every_saw_that_tilts_stops_before_it_lies_flat() -> None:
    assert all(0 < tilt(row["name"]).largest_deg < 90 for row in rows("tilt"))


def test_friction_is_the_middle_of_its_range() -> None:
    found = friction("wood on smooth steel").coefficient
    assert found.value == pytest.approx(0.2)
    assert found.doubt is not None
    assert found.doubt.worst(1) == pytest.approx(0.1)
