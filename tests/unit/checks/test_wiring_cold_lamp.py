"""Rule 'fuse': lamps that come on cold, where nobody wrote what they take at first."""

import pytest

from tests.small_wiring import changed, told
from trimwright.build import edited, parse
from trimwright.wiring import ColdLamps, cold_lamps

LED = "{name: lamp, at: dash, kind: LED, takes: 6 W}"
PLACE = "cold lamps behind fuse 2"


def lit(takes: str, rated: str = "5 A") -> str:
    return changed(
        (LED, f"{{name: lamp, at: dash, kind: lamp, takes: {takes}}}"),
        ("name: fuse 2, at: box, rated: 5 A", f"name: fuse 2, at: box, rated: {rated}"),
        ("lamp, dash stud], size: 1 mm2", "lamp, dash stud], size: 4 mm2"),
    )


def cold(text: str) -> dict[str, ColdLamps]:
    own = parse(text).build.wiring
    assert own is not None
    return {one.fuse: one for one in cold_lamps(own, "mm")}


def test_a_lamp_takes_what_its_cold_filament_does_behind_its_way() -> None:
    one = cold(lit("21 W"))["fuse 2"]
    assert one.names == ("lamp",)
    # by hand: 13.5 V squared by 21 W, a 15.4th of it is 0.564 ohm; before it 0.02 in the alternator
    # and in fuse 2, 0.02 in wires and contacts, 14.2 V with the engine running
    assert one.firsts_a[0] == pytest.approx(14.2 / (0.564 + 0.06), rel=0.02)
    assert one.currents_a[0] == one.firsts_a[0]
    assert one.currents_a[-1] == pytest.approx(21 / 13.5 * (14.1 / 13.5) ** 0.55, rel=0.02)
    assert {*cold(lit("21 W"))} == {"main fuse", "fuse 2"}


def test_what_is_written_is_taken_instead() -> None:
    text = lit("21 W, starts with: 20 A")
    assert cold(text) == {}
    assert any("takes 20 A for 0.3 s at a time, as written" in w for w in told(text)["fuse 2"].why)


def test_the_fuse_says_what_was_solved() -> None:
    (why,) = (w for w in told(lit("21 W"))["fuse 2"].why if w.startswith("Cold, solved"))
    assert "lamp 22.7 A" in why
    assert "24 A²s opens it" in why
    assert PLACE not in told(lit("21 W"))


def test_the_switch_says_what_was_solved() -> None:
    assert any(
        "Lamp takes 22.7 A cold, solved" in why
        for why in told(lit("21 W"))["contacts of lamp switch"].why
    )


def test_a_fuse_that_cold_lamps_may_open_is_told_with_the_next_that_stays_whole() -> None:
    text = lit("110 W, on for: 1 s", "7.5 A")
    found = told(text)[PLACE]
    assert (found.grade, found.limit, found.rule) == ("change", 7.5, "fuse")
    assert found.figure is not None
    assert 7.5 < found.figure < 10.0
    (remedy,) = found.remedies
    assert remedy.says.startswith("Take 10 A for fuse 2")
    assert PLACE not in told(edited(text, remedy.edits))


def test_lamps_that_come_on_together_are_added() -> None:
    one = cold(lit("21 W"))["fuse 2"]
    both = lit("21 W").replace(
        "  paths:\n", "    - {name: twin, at: dash, kind: lamp, takes: 21 W}\n  paths:\n"
    )
    both += "    - {name: twin, goes: [lamp switch out, twin, dash stud], size: 4 mm2}\n"
    two = cold(both)["fuse 2"]
    assert two.names == ("lamp", "twin")
    assert 1.6 * one.currents_a[0] < two.currents_a[0] < 2 * one.currents_a[0]


def test_what_opens_a_glass_fuse_so_soon_is_said_not_to_be_known() -> None:
    text = lit("21 W", "5 A, type: glass")
    assert any("so soon is not printed" in why for why in told(text)["fuse 2"].why)
    assert PLACE not in told(text)
