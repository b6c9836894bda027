"""Rows for wiring: each wire has its conductor and insulation, each kind of load its contact."""

import pytest

from trimwright.stock import (
    bend,
    bundle_factors,
    colours,
    conductor,
    contact_factor,
    fuse_class,
    least_area,
    load_kinds,
    rows,
    standby_figure,
    wire,
    wires,
)

CLASSES = sorted({row["name"] for row in rows("fuse_class")})


def test_every_wire_is_in_one_system_thinnest_first() -> None:
    listed = [one for system in ("awg", "metric") for one in wires(system)]
    assert sorted(one.name for one in listed) == sorted(row["name"] for row in rows("wire"))
    for system in ("awg", "metric"):
        areas = [one.conductor.area_mm2 for one in wires(system)]
        assert areas == sorted(areas)


@pytest.mark.parametrize("row", rows("wire"), ids=lambda row: str(row["name"]))
def test_a_wire_is_wider_than_its_copper(row: dict[str, str]) -> None:
    found = wire(row["name"])
    assert found.outside_mm > (4 * found.conductor.area_mm2 / 3.14159) ** 0.5
    assert found.k_m_per_w > 0
    assert found.excursion_c >= found.class_c


def test_a_row_read_in_one_place_says_that_it_is_unconfirmed() -> None:
    assert [row["name"] for row in rows("wire") if not wire(row["name"]).confirmed] == ["0.35 mm2"]
    assert not conductor("0.35 mm2").confirmed


@pytest.mark.parametrize("name", CLASSES)
def test_bands_narrow_with_current(name: str) -> None:
    points = fuse_class(name).points
    assert all(one.least_s <= one.most_s for one in points)
    assert [one.most_s for one in points] == sorted((one.most_s for one in points), reverse=True)
    assert [one.least_s for one in points] == sorted((one.least_s for one in points), reverse=True)


def test_every_kind_of_load_has_a_contact_factor() -> None:
    assert all(contact_factor(one.contact).factor >= 1 for one in load_kinds())
    assert all(0 < one.drop <= 0.15 for one in load_kinds())


def test_fuller_bundles_carry_less() -> None:
    factors = [one.factor for one in bundle_factors()]
    assert factors == sorted(factors, reverse=True)
    assert len(set(factors)) == len(factors)


def test_colours_have_codes_of_their_own() -> None:
    assert len(colours()) == len(rows("colour")) == 15
    assert colours()["GNYE"] == "green-and-yellow"


def test_small_tables_answer_by_name() -> None:
    assert bend("bundle").value > bend("single wire").value
    assert least_area("wire on its own").area_mm2 == 1.0
    with pytest.raises(ValueError, match="standby 'zzz' is not in the table"):
        standby_figure("zzz")
