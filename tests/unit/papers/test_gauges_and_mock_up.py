"""Card gauges follow the metal; the mock-up's tabs fold; tags stand with their gaps."""

import math
from collections.abc import Callable

import numpy as np
import pytest
from shapely import LineString, Polygon, unary_union
from shapely.ops import polygonize

from tests.unit.papers.wood import carcass
from trimwright.build import parse
from trimwright.cabin import Cabin, cabin
from trimwright.drawing import Box, Circle, Element, Line, Text, flat
from trimwright.findings import Finding
from trimwright.papers import card_gauge, mock_up
from trimwright.papers.clear_place import clear_place
from trimwright.papers.key import MEANS, key
from trimwright.papers.tag_strip import spot, strip

RADIUS = 140.0
# a half round tunnel: half width at a depth d below its top is sqrt(d (2 R - d))
DOWN = (4, 10, 20, 35, 55, 80, 110)
ROWS = ", ".join(
    f"down {d}: {{left: {math.sqrt(d * (2 * RADIUS - d)):.3f},"
    f" right: {math.sqrt(d * (2 * RADIUS - d)):.3f}}}"
    for d in DOWN
)
ROUND = f"""build: Wrenfold Teal, 1970
unit: mm
car:
  datum: {{marks: two scribed lines, top of tunnel here: bare metal}}
  carpet: {{loose: 12, squeezed by hand: 6}}
  tunnel:
    - {{at: 50 behind, top: 200 above floor, {ROWS}}}
"""

KINKED = """build: Wrenfold Teal, 1970
unit: mm
console:
  deck: [{at: 20 ahead, height: 60}, {at: 80 behind, height: 80}, {at: 200 behind, height: 80}]
  width: 150
  from: 20 ahead
  to: 200 behind
"""


def layer(elements: tuple[Element, ...], name: str) -> list[Element]:
    return [one for one in flat(elements) if getattr(one, "layer", "") == name]


def test_a_section_gauge_is_the_circle_that_was_measured() -> None:
    found = cabin(parse(ROUND).build)
    leaves = card_gauge.leaves(found, (900.0, 700.0))
    cut = [one for one in layer(leaves[1].elements, "cut") if isinstance(one, Line)]
    loose = [one for one in layer(leaves[1].elements, "covered") if isinstance(one, Line)]
    middle = next(
        one
        for one in layer(leaves[1].elements, "datum")
        if isinstance(one, Line) and one.pen == "centre"
    ).points[0][0]
    points = np.array(cut[0].points)
    top = points[:, 1].min()
    away = np.hypot(points[:, 0] - middle, points[:, 1] - (top + RADIUS))
    assert away == pytest.approx(np.full(len(away), RADIUS), abs=0.02)
    over = np.array(loose[0].points)
    away = np.hypot(over[:, 0] - middle, over[:, 1] - (top + RADIUS))
    assert away == pytest.approx(np.full(len(away), RADIUS + 12.0), abs=0.02)


def test_what_was_not_measured_is_said() -> None:
    leaves = card_gauge.leaves(cabin(parse(ROUND).build), "A4")
    said = " ".join(t.words for one in leaves for t in one.elements if isinstance(t, Text))
    assert "Not measured, so without a gauge: the dash's underside; the gear lever's knob" in said


def test_the_lever_gauge_has_every_gear(made: Callable[[int], Cabin]) -> None:
    leaves = card_gauge.leaves(made(1), (900.0, 700.0))
    elements = tuple(one for leaf in leaves for one in leaf.elements)
    knobs = [one for one in layer(elements, "knob") if isinstance(one, Circle)]
    assert [one.radius for one in knobs] == [20.0, 20.0]
    # 190 - 150 along, 30 to the left: down the page, where left of the car is
    (x0, y0), (x1, y1) = (one.centre for one in knobs)
    assert (x1 - x0, y1 - y0) == pytest.approx((40.0, 30.0))


def test_tabs_lie_outside_their_panel_and_stand_on_fold_lines(made: Callable[[int], Cabin]) -> None:
    found = made(5)
    leaves = mock_up.leaves(found, (900.0, 900.0))
    elements = tuple(one for leaf in leaves for one in leaf.elements)
    folds = [LineString(one.points) for one in layer(elements, "fold") if isinstance(one, Line)]
    tabs = [Polygon(one.points) for one in layer(elements, "tab") if isinstance(one, Line)]
    assert len(tabs) == len(folds) == 5  # deck to both walls, bulkhead to both walls and the deck
    for tab, fold in zip(tabs, folds, strict=True):
        ends = fold.boundary.geoms
        assert tab.touches(ends[0])
        assert tab.touches(ends[1])
        assert tab.area == pytest.approx(14.0 * (fold.length - 8.0), rel=1e-6)


def test_no_tab_covers_its_own_panel(made: Callable[[int], Cabin]) -> None:
    for leaf in mock_up.leaves(made(5), (900.0, 900.0))[1:]:
        tabs = [Polygon(one.points) for one in layer(leaf.elements, "tab") if isinstance(one, Line)]
        edges = [
            (*one.points, one.points[0]) if one.closed else one.points
            for name in ("cut", "fold")
            for one in layer(leaf.elements, name)
            if isinstance(one, Line)
        ]
        panels = unary_union([one for one in polygonize(edges) if isinstance(one, Polygon)])
        assert panels.area > 0
        assert all(tab.intersection(panels).area < 1e-6 for tab in tabs)


def test_of_two_panels_that_are_mitred_one_has_the_tab(made: Callable[[int], Cabin]) -> None:
    del made
    text = KINKED + ROUND.split("unit: mm\n")[1]
    leaves = mock_up.leaves(cabin(parse(text).build), (900.0, 900.0))
    said = " ".join(one.words for leaf in leaves for one in leaf.elements if isinstance(one, Text))
    assert said.count("behind deck") == said.count("behind deck 2") == 1


def test_a_mock_up_has_the_outside_of_the_console(made: Callable[[int], Cabin]) -> None:
    found = made(5)
    card = carcass(cabin(mock_up.in_card(found.build)))
    for name in ("left wall", "right wall"):
        wood, paper = (one.panel(name).outer for one in (carcass(found), card))
        assert max(v for _, v in paper) == pytest.approx(max(v for _, v in wood), abs=1e-9)
        lengths = [max(u for u, _ in o) - min(u for u, _ in o) for o in (wood, paper)]
        assert lengths[0] == pytest.approx(lengths[1], abs=1e-9)


def test_a_tag_that_has_no_room_is_handed_back() -> None:
    one = Finding(
        "clearance", "nose", "stop", "It hits.", "covering", figure=-1.0, limit=6.0, margin=-7.0
    )
    spots = tuple(spot(k, one, ((20.0 * k, 90.0), (20.0 * k, 95.0))) for k in range(1, 7))
    tags, left = strip(spots, Box(10.0, 10.0, 184.0, 19.0), "mm")
    assert [one.number for one in left] == [5, 6]
    numbers = [t.words for t in flat(tags) if isinstance(t, Text) and t.words in "123456"]
    assert sorted(set(numbers) & set("123456")) == ["1", "2", "3", "4"]
    assert spots[0].turn_deg == 90.0


def test_the_key_has_only_what_is_on_the_page() -> None:
    drawn, high = key((0.0, 0.0), frozenset({"saw", "joint", "leader"}), 88.0)
    said = [one.words for one in drawn if isinstance(one, Text)]
    assert said == [MEANS["saw"], MEANS["joint"]]
    assert high < 15.0


def test_words_stand_clear_of_a_hole() -> None:
    panel = ((0.0, 0.0), (400.0, 0.0), (400.0, 200.0), (0.0, 200.0))
    hole = ((150.0, 40.0), (250.0, 40.0), (250.0, 160.0), (150.0, 160.0))
    (x, _), _ = clear_place((panel, hole), (40.0, 24.0))
    assert min(abs(x - 150.0), abs(x - 250.0), x, 400.0 - x) >= 60.0
    large = ((70.0, 20.0), (370.0, 20.0), (370.0, 180.0), (70.0, 180.0))
    (x, _), _ = clear_place((panel, large), (40.0, 24.0))
    assert 0.0 < x < 70.0  # there is more room in the hole, and no wood
