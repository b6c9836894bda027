"""Ways of measuring."""

import pytest

from trimwright.quantities import Doubt
from trimwright.stock import tool_error, way, ways

READING_MM = 300.0  # a long reading in a cabin


@pytest.mark.parametrize("name", [one.name for one in ways()])
def test_no_way_is_better_than_its_tool(name: str) -> None:
    assert way(name).doubt_mm >= tool_error(way(name).tool, READING_MM)


def test_the_ways_a_builder_has_are_there() -> None:
    assert {
        *("tape", "steel rule", "contour gauge", "tick stick", "caliper", "pin gauge"),
        *("straightedge and tape", "clay ball", "folded card", "photo"),
    } <= {one.name for one in ways()}


def test_a_way_carries_both_its_doubts() -> None:
    gauge = way("contour gauge")
    assert (gauge.doubt, gauge.setup) == (Doubt("normal", 1.0, 1.0), Doubt("normal", 1.5, 1.5))
    assert all(one.minutes > 0 for one in ways())


def test_a_tool_error_steps_at_whole_metres() -> None:
    errors = [tool_error("class II tape", mm) for mm in (0.0, 1.0, 1000.0, 1000.1)]
    assert errors == pytest.approx([0.3, 0.5, 0.5, 0.7])


@pytest.mark.parametrize("length_mm", [-1.0, 1000.5])
def test_a_tool_measures_no_further_than_it_is_long(length_mm: float) -> None:
    with pytest.raises(ValueError, match="length_mm must be from 0 to 1000"):
        tool_error("class I rule", length_mm)
