"""What a loom under the carpet does to the console, as it is said."""

from functools import cache

import pytest

from tests.unit.fit.test_model import CAR, CONSOLE
from trimwright.build import InputError, edited, parse
from trimwright.cabin import Cabin, cabin
from trimwright.checks.wiring import under_carpet
from trimwright.findings import Finding

WIRING = """wiring:
  places:
    - {{name: front}}
    - {{name: rear}}
  trunks:
    - from: front
      to: rear
      long: 900
      under carpet:
{path}
  feeds:
    - {{name: always, at: front}}
  grounds:
    - {{name: stud, at: front}}
  loads:
    - {{name: lamp, at: rear, kind: lamp, takes: 5 W}}
    - {{name: pump, at: rear, kind: motor, takes: 5 A}}
  paths:
    - {{name: lamp, goes: [always, lamp, stud], size: {size}}}
    - {{name: pump, goes: [always, pump, stud], size: {size}}}
"""
ACROSS = ("560 behind, 160 left", "560 behind, 160 right")
FRONT = ("20 behind, 160 left", "20 behind, 160 right")
INSIDE = ("40 behind, 0 left", "600 behind, 0 left")


def text(path: tuple[str, ...] = ACROSS, size: str = "2.5 mm2", console: str = CONSOLE) -> str:
    """Return a car, its console, and a loom of four wires under its carpet."""
    lines = "\n".join(f"        - {one}" for one in path)
    car = "build: Test car\nunit: mm\ncar:\n" + "\n".join(CAR.values()) + "\n"
    return car + console + WIRING.format(path=lines, size=size)


@cache
def made(*of: str, size: str = "2.5 mm2") -> Cabin:
    """Return its cabin."""
    return cabin(parse(text(of or ACROSS, size)).build)


def _said(one: Cabin) -> Finding:
    (said,) = under_carpet.findings(one)
    return said


def test_a_loom_across_the_rear_lifts_it_and_says_how_far() -> None:
    one = _said(made())
    assert one.grade == "change"
    assert one.figure is not None
    assert one.figure > 0.5
    assert "rear" in one.says
    bare, over = made().pose_over(()), made().pose
    assert bare is not None
    assert over is not None
    assert over.up_mm(690.0, 0.0) - bare.up_mm(690.0, 0.0) > one.figure - 0.5
    assert over.up_mm(-70.0, 0.0) < bare.up_mm(-70.0, 0.0)


def test_a_relief_is_told_for_each_edge_that_the_loom_passes() -> None:
    last = _said(made()).remedies[-2].says
    assert "left wall 560 mm behind" in last
    assert "right wall 560 mm behind" in last
    # four wires of 3 mm in a wrap: 8.45 mm thick, and carpet of 15 mm over it
    assert "32 mm wide and 8.5 mm high" in last


def test_cut_out_as_advised_the_edges_stand_beside_the_loom() -> None:
    before = _said(made())
    relief = next(one for one in before.remedies if "relief" in one.says)
    after = cabin(parse(edited(text(), relief.edits)).build)
    assert _said(after).grade == "good"
    assert after.model is not None
    assert after.model.rest is not None
    points = after.model.rest.bed.points
    assert len(points)
    assert min(abs(float(one[0]) - 560.0) for one in points) > 15.0


def test_the_gaps_are_those_over_the_loom() -> None:
    assert made().nominal != made().nominal_over(())
    bare = cabin(parse(text()).build.model_copy(update={"wiring": None}))
    assert made().nominal_over(()) == bare.nominal


def test_a_thicker_loom_under_the_nose_never_widens_the_gap_under_the_dash() -> None:
    looms = [made(*FRONT, size=size) for size in ("0.75 mm2", "2.5 mm2", "6 mm2")]
    model = looms[0].model
    assert model is not None
    under = next(k for k, gap in enumerate(model.gaps) if gap.name.startswith("nose"))
    gaps = [looms[0].nominal_over(())[under], *(one.nominal[under] for one in looms)]
    assert gaps == sorted(gaps, reverse=True)
    assert gaps[-1] < gaps[0] - 1.0


def test_a_thicker_loom_lifts_more() -> None:
    assert _lifted(made(size="6 mm2")) > _lifted(made()) > _lifted(made(size="0.75 mm2")) > 0


def _lifted(one: Cabin) -> float:
    bare, over = one.pose_over(()), one.pose
    assert bare is not None
    assert over is not None
    return over.up_mm(690.0, 0.0) - bare.up_mm(690.0, 0.0)


def test_a_loom_inside_all_edges_changes_nothing() -> None:
    one = made(*INSIDE)
    assert one.nominal == one.nominal_over(())
    assert (_said(one).grade, _said(one).figure) == ("good", 0.0)


def test_laid_flat_as_advised_it_lifts_less() -> None:
    before = _said(made())
    after = _said(cabin(parse(edited(text(), before.remedies[0].edits)).build))
    assert before.figure is not None
    assert after.figure is not None
    assert after.figure < before.figure
    assert not any("side by side" in remedy.says for remedy in after.remedies)


ASIDE = CONSOLE.replace(
    "  width: 232\n",
    """  widths:
    - {at: 70 ahead, left: 116, right: 116}
    - {at: 690 behind, left: 116, right: 92}
""",
)
RIGHT = ("420 behind, 80 right", "680 behind, 70 right")


def test_led_on_the_other_side_as_advised_it_lifts_less() -> None:
    # the right wall runs in at the rear: the loom lies under it, and beside the left wall mirrored
    before = _said(cabin(parse(text(RIGHT, console=ASIDE)).build))
    other = next(one for one in before.remedies if "other side" in one.says)
    after = _said(cabin(parse(edited(text(RIGHT, console=ASIDE), other.edits)).build))
    assert before.figure is not None
    assert after.figure is not None
    assert after.figure < before.figure - 0.5


def test_wires_of_no_known_thickness_are_never_a_pass() -> None:
    found = under_carpet.findings(made(*INSIDE, size="9 mm2"))
    assert [one.grade for one in found] == ["look"]
    assert found[0].missing[0] == "the outside diameter of lamp 1"


def test_one_place_is_no_way() -> None:
    with pytest.raises(InputError, match="found one place; expected two places at least"):
        parse(text(ACROSS[:1]))


def test_without_a_console_it_is_not_checked() -> None:
    one = _said(cabin(parse(text(console="")).build))
    assert (one.grade, one.figure) == ("look", None)


def test_no_loom_under_the_carpet_nothing_said() -> None:
    bare = (
        text().replace("      under carpet:\n", "").replace("        - 560 behind, 160 left\n", "")
    )
    bare = bare.replace("        - 560 behind, 160 right\n", "")
    assert under_carpet.findings(cabin(parse(bare).build)) == ()
