"""What is said of wires in a hole, under carpet and round a bend."""

import pytest
from msgspec.structs import replace

from tests.invented_loom import LOOM, loom_build, loom_cabin
from trimwright.build import Build, edited, parse
from trimwright.checks.wiring import bundle
from trimwright.findings import Finding
from trimwright.wiring import bundlings


def _said(one: Build) -> dict[str, Finding]:
    """Return what is said of a build whose trunks only differ from the invented loom's."""
    before = loom_cabin(one.unit).wiring
    assert before is not None
    assert one.wiring is not None
    found = replace(before, wiring=one.wiring)
    return {said.place: said for said in bundle.findings(found, one.unit)}


def _with(old: str, new: str, unit: str = "mm") -> Build:
    text = LOOM.format(unit=unit)
    assert old in text
    return parse(text.replace(old, new)).build


def test_a_full_hole_is_hard_to_pull_through() -> None:
    one = _said(loom_build())["hole from engine bay to fuse box"]
    # wires of 4.3, 3 and 3 mm and two of 0.6 mm wrap in 9 mm
    assert one.grade == "change"
    assert one.figure == pytest.approx(8.743, abs=0.001)
    assert one.limit == pytest.approx(7.2)
    assert one.remedies[0].says.startswith("Drill the hole to 11 mm")
    assert one.remedies[0].edits[0].value == "11 mm"
    assert one.remedies[1].says == "Or lay 1 wire of it along another way: feed 1."


def test_a_hole_that_is_too_small_is_a_stop_that_names_the_wires() -> None:
    one = _said(_with("hole: 9 mm", "hole: 8 mm"))["hole from engine bay to fuse box"]
    assert (one.grade, one.limit) == ("stop", 8.0)
    assert one.margin == pytest.approx(8.0 - 8.743, abs=0.001)
    assert "Its wires: feed 1, lamp 2, lamp 3." in one.why


@pytest.mark.parametrize("hole", ["8 mm", "9 mm"])
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_the_hole_drilled_as_advised_does(hole: str, unit: str) -> None:
    before = _with("hole: 9 mm", f"hole: {hole}", unit)
    place = "hole from engine bay to fuse box"
    (edit,) = _said(before)[place].remedies[0].edits
    text = LOOM.format(unit=unit).replace("hole: 9 mm", f"hole: {hole}")
    after = parse(edited(text, (edit,))).build
    assert _said(after)[place].grade == "good"


def test_wires_laid_elsewhere_as_advised_leave_a_bundle_that_passes() -> None:
    one = _said(loom_build())["hole from engine bay to fuse box"]
    # without the feed there are two wires of 3 mm and the wrap: 7.2 mm, the limit itself
    assert one.limit == pytest.approx(7.2)
    assert one.remedies[1].says.endswith("feed 1.")


def test_known_wires_that_are_too_thick_are_told_beside_an_unknown_one() -> None:
    said = _said(loom_build())
    assert said["room from fuse box to dash"].grade == "change"
    assert "bundle from fuse box to dash" not in said  # it can only be worse


def test_known_wires_that_pass_prove_nothing_beside_an_unknown_one() -> None:
    one = _said(_with("room: 4 mm", "room: 40 mm"))["bundle from fuse box to dash"]
    assert (one.grade, one.figure) == ("look", None)
    assert one.missing == ("the outside diameter of clock 1",)


def test_a_wire_alone_bears_a_tighter_bend_than_a_bundle() -> None:
    one = _said(loom_build())["bend from dash to door"]
    # one wire of 0.75 mm2 is 1.9 mm: 4 times that is 7.6 mm, and there are 10
    assert (one.grade, one.figure) == ("good", 10.0)
    assert one.limit == pytest.approx(7.6)
    tight = _said(_with("bends: 10 mm", "bends: 7 mm"))["bend from dash to door"]
    assert tight.grade == "change"
    assert tight.remedies[0].edits[0].value == "8 mm"


def test_a_trunk_without_limits_is_not_spoken_of() -> None:
    assert not [place for place in _said(loom_build()) if "tunnel" in place]


def test_loose_wires_are_advised_where_each_alone_bears_the_bend() -> None:
    said = _said(_with("zone: engine bay, hole: 9 mm", "bends: 20 mm"))
    one = said["bend from engine bay to fuse box"]
    # the thickest is 4.3 mm: 4 times that is 17.2 mm
    assert one.remedies[1].says.endswith("each wire alone bears 17.5 mm.")
    said = _said(_with("zone: engine bay, hole: 9 mm", "bends: 17 mm"))
    assert len(said["bend from engine bay to fuse box"].remedies) == 1


def test_a_bundle_of_one_has_no_wrap() -> None:
    found = loom_cabin().wiring
    assert found is not None
    wraps = {one.number: one.bundle.wrap_mm for one in bundlings(found) if one.bundle}
    assert wraps == {0: 0.6, 1: 0.6, 2: 0.6, 3: 0.0, 4: 0.0}
    assert replace(bundlings(found)[0], bundle=None).passage is None
