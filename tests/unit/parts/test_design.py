"""From the words of a build file to a carcass."""

import numpy as np
import pytest

from trimwright.build import Build, parse
from trimwright.car import tunnel
from trimwright.parts import Carcass, bare_opening, console, cover_stack, covering_thickness, waste

TEXT = """
build: Sandpiper van, 1969
unit: mm
car:
  layers:
    - {name: deadener, thick: 2, from: 100 ahead, to: 800 behind}
  carpet:
    loose: 15
  tunnel:
    - at: 100 ahead
      top: 0 below string
      over: bare metal
      down 30: {left: 88, right: 88}
      down 100: {left: 131, right: 131}
      down 190: {left: 166, right: 166}
    - at: 800 behind
      top: 0 below string
      over: bare metal
      down 30: {left: 88, right: 88}
      down 100: {left: 131, right: 131}
      down 190: {left: 166, right: 166}
  datum:
    marks: two scribed lines on the sills
    top of tunnel here: bare metal
    string above tunnel: 0
console:
  sheet: birch plywood 12
  deck height: 150
  width: 216
  from: 70 ahead
  to: 690 behind
  walls: {deck joint: rebate, joint depth: 6}
  scribe: {over: carpet, edge: as suits}
  bulkheads:
    - {name: box, at: 430 behind}
  openings:
    - {name: lever, at: 190 behind, long: 130, wide: 100, corner: 25}
covers:
  deck: {foam: 3, leather: 1.2}
"""


AS_BUILT = """  as built:
    - {panel: left wall, what: thickness, reads: 11.5}
    - {panel: deck, what: height, reads: 80}
    - {panel: lid, what: thickness, reads: 9}
  bulkheads:"""


def build(*changes: tuple[str, str]) -> Build:
    text = TEXT
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return parse(text).build


def made(*changes: tuple[str, str]) -> Carcass:
    one = build(*changes)
    return console(one, tunnel(one.car))


def test_names_places_and_sizes_are_those_of_the_file() -> None:
    carcass = made()
    assert carcass.unbuildable == ()
    names = [panel.name for panel in carcass.panels]
    assert names == ["deck", "left wall", "right wall", "box"]
    # the file gives the front face of a bulkhead; its outer face looks rearward
    assert carcass.panel("box").frame.origin[0] == pytest.approx(442.0)
    assert carcass.deck_top(np.array([0.0])) == pytest.approx([150.0])
    (hole,) = carcass.panel("deck").holes
    assert (hole.name, hole.long, hole.wide) == ("lever", 130.0, 100.0)


@pytest.mark.parametrize(
    ("over", "thick"), [("carpet", 17.0), ("deadener", 2.0), ("bare metal", 0.0)]
)
def test_scribe_follows_the_layers_asked_for(over: str, thick: float) -> None:
    one = build(("over: carpet", f"over: {over}"))
    found, notes = covering_thickness(one, tunnel(one.car))
    x = tunnel(one.car).grid_x()
    assert found[(x > -90) & (x < 790)] == pytest.approx(thick)
    assert notes == ()


def test_unknown_carpet_is_said() -> None:
    one = build(("  carpet:\n    loose: 15\n", ""))
    carcass = console(one, tunnel(one.car))
    assert any("carpet's thickness is not known" in note for note in carcass.notes)


def test_density_is_the_printed_one_where_there_is_one() -> None:
    assert made().panel("deck").density != made(("plywood 12", "plywood 13")).panel("deck").density


def test_rebated_bulkhead_is_told() -> None:
    carcass = made(("at: 430 behind}", "at: 430 behind, joint: rebate}"))
    assert [fault.key for fault in carcass.unbuildable] == ["console.bulkheads.0.joint"]
    assert carcass.panels == ()


def test_trims_are_waste_of_the_design() -> None:
    trims = ("  bulkheads:", "  trims: {nose lower by: 8, front shorter by: 10}\n  bulkheads:")
    one = build(trims)
    surface = tunnel(one.car)
    designed, trimmed = console(one, surface, "designed"), console(one, surface)
    assert trimmed.deck_top(np.array([-60.0])) < designed.deck_top(np.array([-60.0]))
    assert trimmed.shape.plan.start == -60.0
    areas = {cut.panel: cut.area_mm2 for cut in waste(designed, trimmed) if cut.face == "outer"}
    # 10 mm off a deck 216 - 2 x 6 wide
    assert areas["deck"] == pytest.approx(10.0 * 204.0, rel=1e-3)
    assert areas["left wall"] > 0


def test_readings_of_finished_panels_count_or_say_why_not() -> None:
    carcass = made(
        (
            "  bulkheads:",
            AS_BUILT,
        )
    )
    assert carcass.panel("left wall").thickness == 11.5
    assert carcass.panel("right wall").thickness == 12.0
    assert any(note.startswith("as built 2: a deck has no height") for note in carcass.notes)
    assert any("as built 3: there is no panel 'lid'" in note for note in carcass.notes)


def test_cover_adds_its_layers_on_the_face_and_leather_alone_inside() -> None:
    stack = cover_stack(build(), "deck")
    assert stack.thickness_mm == pytest.approx(4.2)
    # a 22.3 mm hole wanted, 1.2 mm of leather turned in on both sides
    assert bare_opening(22.3, stack.turned_in_mm) == pytest.approx(24.7, abs=1e-12)


def test_build_without_a_console_is_refused() -> None:
    text = TEXT[: TEXT.index("console:")]
    one = parse(text).build
    with pytest.raises(ValueError, match="must have a console"):
        console(one, tunnel(one.car))
