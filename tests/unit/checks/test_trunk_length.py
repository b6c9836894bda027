"""A trunk is not written shorter than its places are apart: Pythagoras' 3, 4, 12, 13 as the outside."""

import pytest

from tests.small_wiring import changed, told
from trimwright.build import edited

AT = "{name: bay, at: 1300 ahead, off middle: 300 left, up: 220 up}"
PLACES = (
    ("{name: bay}", AT),
    ("{name: box}", "{name: box, at: 100 ahead, off middle: 0, up: 180 down}"),
)  # 1200, 300 and 400 apart: 1300


def _with(long: str) -> str:
    return changed(*PLACES, ("from: bay, to: box, long: 1000", f"from: bay, to: box, long: {long}"))


def test_a_trunk_that_cannot_be_so_short_is_told_with_the_least_it_can_be() -> None:
    text = _with("1290")
    found = told(text)["trunk from bay to box"]
    assert found.grade == "change"
    assert found.limit == pytest.approx(1300.0)
    assert "10 mm shorter than straight" in found.says.replace("\N{THIN SPACE}", " ").replace(
        "\N{NO-BREAK SPACE}", " "
    )
    mended = told(edited(text, found.remedies[0].edits))
    assert "trunk from bay to box" not in mended
    assert mended["trunks"].grade == "good"


@pytest.mark.parametrize("long", ["1300", "1299.6", "2000"])
def test_a_trunk_that_may_be_so_long_passes(long: str) -> None:
    found = told(_with(long))
    assert found["trunks"].grade == "good"
    assert "trunk from bay to box" not in found


def test_where_a_place_is_not_known_in_full_nothing_is_said() -> None:
    found = told(changed(("{name: bay}", AT.replace(", up: 220 up", "")), *PLACES[1:]))
    assert not {"trunks", "trunk from bay to box"} & set(found)
