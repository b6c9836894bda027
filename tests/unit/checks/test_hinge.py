"""What is said of a loom over a hinge."""

import pytest

from tests.unit.wiring.test_crossing import hinged
from trimwright.build import Build, edited, parse
from trimwright.checks.wiring import hinge
from trimwright.findings import Finding
from trimwright.wiring import wiring_outcome

TEXT = """build: Wrenfold Teal, its door
unit: {unit}
wiring:
  places:
    - {{name: pillar}}
    - {{name: door}}
  trunks:
    - {{from: pillar, to: door, long: 700 mm, hinge: {{body hole: 90 mm, door hole: 120 mm,
        closed: 150 mm, opens: 160 deg{more}}}}}
  feeds:
    - {{name: always, at: pillar}}
  grounds:
    - {{name: stud, at: pillar}}
  loads:
    - {{name: lamp, at: door, kind: lamp, takes: 5 W}}
  paths:
    - {{name: lamp, goes: [always, lamp, stud], size: 0.5 mm2}}
"""
REACH, BEND, STRANDS = (
    "reach from pillar to door",
    "bend over the hinge from pillar to door",
    "strands from pillar to door",
)


def _text(more: str, unit: str = "mm") -> str:
    return TEXT.format(more=more, unit=unit)


def _said(text: str) -> dict[str, Finding]:
    one: Build = parse(text).build
    assert one.wiring is not None
    found = wiring_outcome(one.wiring, one.unit)
    return {said.place: said for said in hinge.findings(found, one.unit)}


def test_a_loom_too_short_in_the_middle_of_the_swing_is_a_stop() -> None:
    # opened 90 deg the holes are in line: 90 and 120; closed they are 150 apart, open 132
    one = _said(_text(", free: 195 mm"))[REACH]
    assert one.grade == "stop"
    assert one.figure == 195.0
    assert one.limit == pytest.approx(210.0)
    assert one.margin == pytest.approx(-15.0)
    assert "opened 90°" in one.says


def test_a_loom_that_is_long_enough_at_both_ends_only_is_not_passed() -> None:
    assert _said(_text(", free: 151 mm"))[REACH].grade == "stop"


def test_a_stretched_loom_is_not_told_of_its_bend() -> None:
    assert BEND not in _said(_text(", free: 195 mm"))


def test_nobody_said_how_long_it_is() -> None:
    one = _said(_text(""))[REACH]
    assert (one.grade, one.figure) == ("look", None)
    assert one.missing == ("how long the loom is between the holes of its hinge",)
    assert "cut for 210 mm" in one.says


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize(
    "more", ["", ", free: 195 mm", ", free: 225 mm, leaves body: 90 deg, leaves door: 90 deg"]
)
def test_as_long_as_advised_it_passes(more: str, unit: str) -> None:
    text = _text(more, unit)
    wrong = [one for one in _said(text).values() if one.place != STRANDS and one.grade != "good"]
    assert len(wrong) == 1
    (edit,) = wrong[0].remedies[0].edits
    after = _said(edited(text, (edit,)))
    assert (after[REACH].grade, after[BEND].grade) == ("good", "good")


def test_a_bend_too_tight_names_the_opening_and_both_radii() -> None:
    one = _said(_text(", free: 225 mm, leaves body: 90 deg, leaves door: 90 deg"))[BEND]
    assert one.grade == "change"
    assert one.figure is not None
    assert one.limit is not None
    assert one.figure < one.limit
    assert one.margin == pytest.approx(one.figure - one.limit)


def test_let_turn_as_advised_it_passes() -> None:
    text = _text(", free: 225 mm, leaves body: 90 deg, leaves door: 90 deg")
    turning = next(r for r in _said(text)[BEND].remedies if "turn freely" in r.says)
    assert _said(edited(text, turning.edits))[BEND].grade == "good"


def test_thick_wires_make_a_loom_bend_too_tight() -> None:
    text = _text(", free: 240 mm")
    assert _said(text)[BEND].grade == "good"
    assert _said(text.replace("0.5 mm2", "6 mm2"))[BEND].grade == "change"


def test_left_loose_as_advised_each_wire_alone_is_held_to_its_own_bend() -> None:
    text = _text(", free: 240 mm").replace("0.5 mm2", "6 mm2")
    loose = next(r for r in _said(text)[BEND].remedies if "leave the wrap off" in r.says)
    after = _said(edited(text, loose.edits))[BEND]
    assert after.grade == "good"
    assert after.limit == pytest.approx(5 * 4.3)  # five times a wire of 6 mm2, 4.3 mm thick


def test_coarse_strands_are_told_with_the_wire_to_take() -> None:
    text = _text(", free: 300 mm").replace("0.5 mm2", "2.5 mm2")
    one = _said(text)[STRANDS]
    # 35 strands of 0.30 mm, where class 5 has 0.26 at most
    assert (one.grade, one.figure, one.limit) == ("change", 0.3, 0.26)
    (edit,) = one.remedies[0].edits
    assert _said(edited(text, (edit,)))[STRANDS].grade == "good"


def test_strands_of_class_5_pass_as_sold() -> None:
    assert _said(_text(", free: 300 mm"))[STRANDS].grade == "good"


def test_an_unknown_thickness_is_never_a_pass() -> None:
    one = _said(_text(", free: 300 mm").replace("0.5 mm2", "9 mm2"))[BEND]
    assert one.grade == "look"
    assert one.missing == ("the outside diameter of lamp 1", "the outside diameter of lamp 2")


def test_no_hinge_nothing_said() -> None:
    bare = hinged()
    found = wiring_outcome(bare.model_copy(update={"trunks": bare.trunks[:3]}), "mm")
    assert hinge.findings(found, "mm") == ()
