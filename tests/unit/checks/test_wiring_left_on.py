"""Rule 'battery': how long it starts with something left on, against how long it should."""

import pytest

from tests.small_wiring import changed, told

PLACE = "forgotten, ignition on, engine stopped"
# what may go at worst, by hand: 60 Ah, 40 % of it, 70 % left by age, 64 % by 0 degC (1 at 80 F and
# 0.40 at 0 F, a straight line between)
WORST_AH = 60 * 0.4 * 0.7 * 0.64


def test_what_is_left_on_is_held_to_an_hour_where_nothing_is_written() -> None:
    found = told(changed())[PLACE]
    # the heater, 6 A at 12 V and so 2 ohm, with some 0.06 ohm on its way from 12.6 V
    assert found.figure == pytest.approx(60 * WORST_AH / (12.6 / 2.06), rel=0.01)
    assert (found.grade, found.limit, found.measure) == ("good", 60.0, "minutes")
    assert found.figure is not None
    assert f"it starts after {int(found.figure)} minutes" in found.says


def test_what_is_left_on_for_longer_than_it_bears_is_to_be_changed() -> None:
    long = changed(("holds: 60 Ah", "holds: 60 Ah, left on for: 180 min"))
    found = told(long)[PLACE]
    assert (found.grade, found.limit) == ("change", 180.0)
    assert found.figure is not None
    assert found.margin == pytest.approx(found.figure - 180.0)
    assert "may not start after" in found.says
    (remedy,) = found.remedies
    ah = remedy.says.split("battery of ")[1].split(" Ah")[0]
    assert told(long.replace("holds: 60 Ah", f"holds: {ah} Ah"))[PLACE].grade == "good"


def test_hours_are_told_as_such_and_never_more_than_there_are() -> None:
    found = told(changed(("takes: 6 A, measured at", "takes: 1 A, measured at")))[PLACE]
    assert found.figure is not None
    assert f"it starts after {int(found.figure // 60)} hours" in found.says


def test_no_finding_with_a_figure_is_only_a_look() -> None:
    for one in told(changed()).values():
        assert one.grade != "look" or one.figure is None
