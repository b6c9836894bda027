"""Bolts are drawn where they stand: on the panels they pass, on the views, beside the walls."""

import math
from io import StringIO

import ezdxf
import numpy as np
import pytest

from tests.unit.papers.wood import carcass
from trimwright.build import parse
from trimwright.cabin import Cabin, cabin
from trimwright.drawing import Circle, Element, Line, Text, dxf, flat
from trimwright.papers import template, view
from trimwright.papers.bolt_place import bolt_places, passed
from trimwright.papers.panel_drawing import corner, panel_drawing

TEXT = """build: Wrenfold Teal, 1970
unit: {unit}
car:
  datum: {{marks: two scribed lines, top of tunnel here: bare metal}}
  tunnel:
    - {{at: 50 mm behind, top: 200 mm above floor, down 10 mm: {{left: 50 mm, right: 50 mm}},
       down 40 mm: {{left: 80 mm, right: 80 mm}}, down 150 mm: {{left: 130 mm, right: 130 mm}}}}
    - {{at: 350 mm behind, top: 200 mm above floor, down 10 mm: {{left: 50 mm, right: 50 mm}},
       down 40 mm: {{left: 80 mm, right: 80 mm}}, down 150 mm: {{left: 130 mm, right: 130 mm}}}}
console:
  deck height: {high} mm
  width: 120 mm
  from: 40 mm behind
  to: 340 mm behind
  openings:
    - {{name: gear lever, at: 100 mm behind, long: 90 mm, wide: 60 mm}}
  held by:
    - {{bolt: M6, at: 250 mm behind, off middle: 30 mm right}}
    - {{bolt: M6, at: 100 mm behind}}
    - {{bolt: 1/4-20, at: 320 mm behind, off middle: 20 mm left}}
"""


@pytest.fixture(autouse=True)
def _uncut(monkeypatch: pytest.MonkeyPatch) -> None:
    """Leave out what needs the resting console."""
    for slow in ("plan", "pose", "outcome", "bare"):
        monkeypatch.setattr(Cabin, slow, property(lambda _: None))


def made(high: float = 40.0, unit: str = "mm") -> Cabin:
    return cabin(parse(TEXT.format(high=high, unit=unit)).build)


def drawn(found: Cabin, panel: str) -> tuple[Element, ...]:
    return flat(panel_drawing(found, carcass(found).panel(panel)).elements)


def said(elements: tuple[Element, ...]) -> str:
    return " ".join(one.words for one in elements if isinstance(one, Text))


def test_a_hole_is_where_its_bolt_stands_and_as_wide_as_it_says() -> None:
    found = made()
    panel = carcass(found).panel("deck")
    holes = [o for o in drawn(found, "deck") if isinstance(o, Circle) and o.layer == "drill"]
    # ISO 273:1979, medium series, M6: 6.6; a quarter of an inch and a tenth of it
    assert [2 * one.radius for one in holes] == pytest.approx([6.6, 6.35 * 1.1])
    x0, y0 = corner(panel)
    for hole, at in zip(holes, ((250.0, 30.0), (320.0, -20.0)), strict=True):
        u, v = hole.centre[0] - x0, y0 - hole.centre[1]
        x, y, _ = panel.frame.placed(np.array([[u, v]]))[0]
        assert (x, y) == pytest.approx(at, abs=1e-9)


def test_a_bolt_under_an_opening_or_far_below_passes_no_panel() -> None:
    low, high = made(40.0), made(170.0)
    assert [one.bolt.number for one in passed(low, carcass(low).panel("deck"))] == [1, 3]
    assert passed(high, carcass(high).panel("deck")) == ()
    for name in ("left wall", "right wall"):
        assert passed(low, carcass(low).panel(name)) == ()


def test_the_words_give_hole_and_way_to_the_metal() -> None:
    found = made(40.0)
    words = said(drawn(found, "deck"))
    assert "bolt 1, M6: hole 6.6 mm," in words
    one = passed(found, carcass(found).panel("deck"))[0]
    # 30 beside the middle the metal is below the tunnel's top, at most the 10 read at 50
    high = float(one.words.split(", ")[2].split(" ")[0])
    assert 40.0 < high < 50.0


def test_walls_have_the_bolts_of_their_side_beside_them() -> None:
    found = made(170.0)
    words = {name: said(drawn(found, name)) for name in ("left wall", "right wall")}
    assert "bolt 1, M6: 250 mm behind, 30 right" in words["right wall"]
    assert "bolt 1" not in words["left wall"]
    assert "bolt 3, 1/4-20: 320 mm behind, 20 left" in words["left wall"]
    assert all("bolt 2, M6: 100 mm behind, in the middle" in one for one in words.values())


def test_views_show_every_bolt_by_name() -> None:
    found = made(170.0)
    leaf = view.leaves(found, (), "A4")[0]
    words = said(flat(leaf.elements))
    for place in bolt_places(found.build):
        assert words.count(place.name) == 2  # from the side and from above
    scale = float(leaf.scale.split(":")[1])
    circles = [one for one in leaf.elements if isinstance(one, Circle)]
    holes = [one for one in circles if one.radius * scale == pytest.approx(3.3)]
    (x1, y1), (x2, y2) = (one.centre for one in holes)
    assert ((x1 - x2) * scale, (y2 - y1) * scale) == pytest.approx((150.0, 30.0))


def test_templates_and_files_have_the_hole_on_a_layer_of_its_own() -> None:
    found = made()
    leaves = template.leaves(found, (), "A4")
    assert "hole for a bolt" in said(leaves[0].elements)
    circles = [o for leaf in leaves[1:] for o in leaf.elements if isinstance(o, Circle)]
    assert [one.layer for one in circles].count("drill") == 2
    text = dxf(panel_drawing(found, carcass(found).panel("deck"))).decode()
    holes = ezdxf.read(StringIO(text)).modelspace().query('CIRCLE[layer=="drill"]')
    assert [2 * one.dxf.radius for one in holes] == pytest.approx([6.6, 6.985])


def test_a_cross_meets_in_the_middle_of_its_hole() -> None:
    elements = drawn(made(), "deck")
    hole = next(o for o in elements if isinstance(o, Circle) and o.layer == "drill")
    arms = [o for o in elements if isinstance(o, Line) and o.layer == "centre"]
    middles = [tuple(sum(axis) / 2 for axis in zip(*one.points, strict=True)) for one in arms]
    assert sum(math.dist(hole.centre, middle) < 1e-9 for middle in middles) == 2
