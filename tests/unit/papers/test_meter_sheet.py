"""The meter sheet: a row a chosen reading, in words that can be entered, once with its caution."""

import pytest

from tests.small_wiring import build
from trimwright.build import meter_names
from trimwright.cabin import cabin
from trimwright.drawing import Size, Text, flat
from trimwright.papers import meter_sheet


def words(size: Size) -> list[str]:
    """Return the words of the sheet in the order they are drawn."""
    drawn = (
        one for leaf in meter_sheet.leaves(cabin(build()), size) for one in flat(leaf.elements)
    )
    return [one.words for one in drawn if isinstance(one, Text)]


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_every_row_says_where_the_probes_go_and_what_is_expected(size: Size) -> None:
    said = words(size)
    wiring = build().wiring
    assert wiring is not None
    names = [one for one in said if one in meter_names(wiring)]
    assert names == ["lamp", "heater"]
    assert said.count("red") == said.count("black") == 2
    # 11.62 to 12.55 V, rounded away from each other
    assert "expected 11.6 to 12.6 V" in " ".join(said)
    assert "heater switch worked" in " ".join(said)
    assert " ".join(said).count("rings and watch off") == 1
    assert "safe" not in " ".join(said)


def test_without_a_battery_there_is_no_sheet() -> None:
    assert meter_sheet.leaves(cabin(build((", inside: 10 mohm", ""))), "A4") == ()
