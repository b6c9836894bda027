"""What stands on a panel's drawing: outline, bevels, recesses, datum, waste, on named layers."""

import math
from types import SimpleNamespace

import pytest
from shapely import Polygon

from tests.unit.papers.wood import carcass
from trimwright.build import Build, parse
from trimwright.cabin import Cabin, cabin
from trimwright.drawing import Fill, Line, Text, flat
from trimwright.papers import template
from trimwright.papers.panel_drawing import corner, panel_drawing, panel_piece, turned
from trimwright.papers.panel_waste import taken

TEXT = """build: Wrenfold Teal, 1970
unit: {unit}
car:
  datum: {{marks: two scribed lines, top of tunnel here: bare metal}}
  tunnel:
    - {{at: 50 mm behind, top: 200 mm above floor, down 10 mm: {{left: 50 mm, right: 54 mm}},
       down 40 mm: {{left: 80 mm, right: 86 mm}}, down 90 mm: {{left: 110 mm, right: 112 mm}},
       down 150 mm: {{left: 130 mm, right: 131 mm}}}}
    - {{at: 350 mm behind, top: 200 mm above floor, down 10 mm: {{left: 60 mm, right: 64 mm}},
       down 40 mm: {{left: 95 mm, right: 96 mm}}, down 90 mm: {{left: 120 mm, right: 122 mm}},
       down 150 mm: {{left: 140 mm, right: 141 mm}}}}
console:
  deck height: 170 mm
  width: 84 mm
  from: 140 mm ahead
  to: 340 mm behind
  walls: {{lean: {lean} deg, deck joint: rebate, joint depth: 6 mm}}
  scribe: {{over: bare metal, edge: bevelled}}
  openings:
    - {{name: gear lever, at: 150 mm behind, long: 90 mm, wide: 40 mm, corner: 15 mm}}
  trims: {{front shorter by: {front} mm}}
"""


@pytest.fixture(autouse=True)
def _uncut(monkeypatch: pytest.MonkeyPatch) -> None:
    """Leave the least cut out: it needs the resting console."""
    monkeypatch.setattr(Cabin, "plan", property(lambda _: None))


def made(unit: str = "mm", lean: float = 0, front: float = 0) -> Cabin:
    return cabin(parse(TEXT.format(unit=unit, lean=lean, front=front)).build)


def words(found: Cabin, name: str) -> list[str]:
    drawing = panel_drawing(found, carcass(found).panel(name))
    return [one.words for one in drawing.elements if isinstance(one, Text)]


def on(found: Cabin, name: str, layer: str) -> list[Line]:
    drawing = panel_drawing(found, carcass(found).panel(name))
    lines = [one for one in flat(drawing.elements) if isinstance(one, Line)]
    return [line for line in lines if line.layer == layer]


def test_the_nose_is_where_the_words_say() -> None:
    found = made()
    left, right = (carcass(found).panel(f"{side} wall") for side in ("left", "right"))
    assert turned(left) == "outside face up, nose to the left"
    assert turned(right) == "outside face up, nose to the right"
    # the datum, 140 behind the nose of a console 480 long, stands on that side
    for panel, share in ((left, 140 / 480), (right, 340 / 480)):
        line = next(one for one in on(found, panel.name, "datum") if one.pen == "centre")
        us = [u for u, _ in panel.outer]
        at = line.points[0][0] - corner(panel)[0]
        assert (at - min(us)) / (max(us) - min(us)) == pytest.approx(share, abs=1e-9)


def test_words_stand_on_their_page_beside_what_they_speak_of() -> None:
    found = made(lean=4)
    beside = {"datum": 0, "4°": 0}
    for leaf in template.leaves(found, (), "A4"):
        marks = [one for one in leaf.elements if isinstance(one, Fill | Line)]
        for text in leaf.elements:
            if isinstance(text, Text) and text.words in beside:
                layer = "datum" if text.words == "datum" else "bevel"
                near = [
                    math.dist(text.at, point)
                    for mark in marks
                    if mark.layer == layer
                    for point in mark.points
                ]
                assert min(near) < 8.0
                beside[text.words] += 1
    assert beside == {"datum": 3, "4°": 4}


def test_leaning_walls_show_both_faces_and_the_angle() -> None:
    plain, leaning = made(lean=0), made(lean=4)
    assert on(plain, "deck", "other face") == []
    assert len(on(leaning, "deck", "other face")) == 1
    # a deck's edge against a wall that leans 4 deg across the car, level along it
    assert "4°" in words(leaning, "deck")
    assert "4°" not in words(plain, "deck")


def test_the_scribe_has_the_angle_of_the_metal_at_each_arrow() -> None:
    found = made()
    edge = next(one for one in carcass(found).lower_edges if one.panel == "left wall")
    shown = {f"{slope:.1f}".removesuffix(".0") + "°" for slope in edge.slope_deg}
    angles = [word for word in words(found, "left wall") if word.endswith("°")]
    assert len(angles) == 7  # 480 less 14 at both ends, one every 80 at most
    assert set(angles) <= shown
    # the tunnel is flatter where the wall meets it at the rear than at the nose
    at_ends = {f"{slope:.1f}".removesuffix(".0") + "°" for slope in edge.slope_deg[[3, -3]]}
    assert len(at_ends) == 2
    assert len(set(angles)) > 2
    assert any("bevel as arrowed" in word for word in words(found, "left wall"))


def test_rebates_are_dashed_and_say_how_deep() -> None:
    found = made()
    lines = on(found, "left wall", "recess")
    assert [line.pen for line in lines] == ["hidden"]
    assert Polygon(lines[0].points).area == pytest.approx(480 * 12, rel=1e-6)
    assert "6 mm deep, on the other face" in words(found, "left wall")


@pytest.mark.parametrize(("unit", "ahead"), [("mm", "100 ahead"), ("in", "4 ahead")])
def test_places_along_are_in_the_unit_of_the_build(unit: str, ahead: str) -> None:
    said = words(made(unit), "deck")
    assert ahead in said
    assert "datum" in said


def test_what_was_trimmed_is_hatched_with_its_amount() -> None:
    found = made(front=7.5)
    panel = carcass(found).panel("left wall")
    assert [(one.state, one.words) for one in taken(found, panel)] == [
        ("waste", "cut away 7.5 mm before covering")
    ]
    piece = panel_piece(found, panel)
    areas = [one for one in piece.lines if isinstance(one, Fill) and one.layer == "waste"]
    height = max(v for _, v in panel.outer) - min(v for _, v in panel.outer)
    assert len(areas) == 1
    assert Polygon(areas[0].points).area == pytest.approx(7.5 * height, rel=0.02)
    # ahead of the nose, which is at the left of a left wall
    assert max(x for x, _ in areas[0].points) == pytest.approx(
        corner(panel)[0] + min(u for u, _ in panel.outer), abs=1e-6
    )
    assert taken(made(), carcass(made()).panel("left wall")) == ()


def test_an_opening_has_its_size_and_a_cross_in_its_middle() -> None:
    found = made()
    deck = carcass(found).panel("deck")
    cross = on(found, "deck", "centre")
    x, y = corner(deck)[0] + deck.holes[0].centre[0], corner(deck)[1] - deck.holes[0].centre[1]
    for line in cross:
        middle = [sum(axis) / 2 for axis in zip(*line.points, strict=True)]
        assert middle == pytest.approx([x, y], abs=1e-9)
    said = " ".join(words(found, "deck"))
    assert "gear lever: 90 x 40, corners 15, square through" in said
    assert math.dist(*cross[0].points) == 16.0


def test_a_cut_still_asked_for_is_hatched_where_it_takes_wood(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    text = TEXT.replace("deck height: 170", "deck height: 171")

    def shorter(build: Build, amount: float) -> Build:
        return parse(text.format(unit=build.unit, lean=0, front=amount)).build

    found = cabin(parse(text.format(unit="mm", lean=0, front=0)).build)

    cut = SimpleNamespace(applied=shorter, verb="Cut {} off the front end")
    plan = SimpleNamespace(cuts=((cut, 12.0),))
    monkeypatch.setattr(Cabin, "plan", property(lambda _: plan))
    panel = carcass(found).panel("left wall")
    (one,) = taken(found, panel)
    assert (one.state, one.words) == ("open", "open: Cut 12 mm off the front end")
    ((ring, holes),) = one.areas
    assert holes == ()
    us = [u for u, _ in panel.outer]
    left, _, right, _ = Polygon(ring).bounds
    # the nose of the left wall is at its left
    assert (left, right) == pytest.approx((min(us), min(us) + 12.0), abs=1e-6)
