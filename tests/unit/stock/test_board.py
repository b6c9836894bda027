"""Sheets: density, thickness, size."""

import pytest

from trimwright.stock import rows, sheet, sizes, thickness


def test_density_is_the_middle_and_the_ends_are_its_doubt() -> None:
    density = sheet("poplar plywood").density
    assert density.value == 500.0
    assert density.doubt is not None
    assert (density.doubt.worst(-1), density.doubt.worst(1)) == (-50.0, 50.0)


def test_plausible_order_of_weight() -> None:
    order = ["poplar plywood", "pine plywood", "birch plywood", "MDF", "hardboard", "aluminium"]
    densities = [sheet(name).density.value for name in order]
    assert densities == sorted(densities)


def test_wood_floats_and_metal_sinks() -> None:
    water = 1000.0
    floats = {row["name"] for row in rows("sheet") if float(row["high_kg_m3"]) < water}
    assert {"birch plywood", "poplar plywood", "MDF", "HDPE"} <= floats
    assert not floats & {"aluminium", "rigid PVC", "acrylic"}


def test_only_plywood_has_a_grain() -> None:
    grained = {row["name"] for row in rows("sheet") if sheet(row["name"]).grained}
    assert grained == {row["name"] for row in rows("sheet") if "plywood" in row["name"]}


def test_every_thickness_lies_between_its_limits_and_its_density_within_the_sheets() -> None:
    for row in rows("thickness"):
        found = thickness(row["name"], float(row["nominal_mm"]))
        assert found is not None
        assert found.least_mm <= found.mean_mm <= found.most_mm
        assert sheet(row["name"]).low_kg_m3 <= found.density_kg_m3 <= sheet(row["name"]).high_kg_m3


@pytest.mark.parametrize(("name", "nominal"), [("birch plywood", 13.0), ("MDF", 12.0)])
def test_a_thickness_that_nobody_printed_is_none(name: str, nominal: float) -> None:
    assert thickness(name, nominal) is None


def test_the_long_side_comes_first() -> None:
    birch = sizes("Birch plywood")
    assert [(size.long_mm, size.wide_mm) for size in birch][:2] == [(2440, 1220), (3050, 1525)]
    assert sizes("hardboard") == ()


@pytest.mark.parametrize("name", sorted({row["name"] for row in rows("size")}))
def test_every_size_is_of_a_known_sheet(name: str) -> None:
    assert sheet(name).name == name
