"""Sections are what a saw would lay bare, and the rest is where the pose says."""

import numpy as np
import pytest
from shapely import MultiPoint, MultiPolygon, Polygon

from tests.unit.papers.wood import carcass
from trimwright.build import parse
from trimwright.cabin import Cabin, cabin
from trimwright.papers.car_shape import Rest, sliced
from trimwright.papers.view_sheet import capsule, hull

TEXT = """build: Wrenfold Teal, 1970
unit: mm
car:
  datum: {marks: two scribed lines, top of tunnel here: bare metal}
  tunnel:
    - {at: 50 behind, top: 200 above floor, down 10: {left: 50, right: 54},
       down 40: {left: 80, right: 86}, down 150: {left: 130, right: 131}}
console:
  deck height: 120
  width: 140
  from: 40 behind
  to: 260 behind
  scribe: {over: bare metal, edge: square}
  openings: [{name: gear lever, at: 150 behind, long: 60, wide: 50}]
"""


@pytest.fixture(scope="module")
def found() -> Cabin:
    return cabin(parse(TEXT).build)


def area(found: Cabin, x: float, rest: Rest) -> MultiPolygon:
    return MultiPolygon([Polygon(ring) for ring in sliced(carcass(found), x, rest)])


def test_a_section_has_the_wood_of_deck_and_walls(found: Cabin) -> None:
    here = Rest(0.0, 0.0, 0.0)
    whole = area(found, 80.0, here)
    edges = [edge for edge in carcass(found).lower_edges if "wall" in edge.panel]
    # two walls of 12 from their feet to the deck's top, and 116 of deck between them
    feet = [float(np.interp(80.0, e.outer[:, 0], e.outer[:, 2])) for e in edges]
    wood = sum(12.0 * (120.0 - foot) for foot in feet) + 116.0 * 12.0
    assert whole.area == pytest.approx(wood, rel=0.01)
    # through the opening, 50 of the deck are missing
    assert wood - area(found, 150.0, here).area == pytest.approx(50.0 * 12.0, rel=0.03)


def test_a_console_that_rests_higher_is_drawn_higher(found: Cabin) -> None:
    low = area(found, 200.0, Rest(0.0, 0.0, 0.0)).bounds
    high = area(found, 200.0, Rest(40.0, 9.0, 0.01)).bounds
    # nose 9 up and 0.01 rad nose up about it: 160 behind the nose it is 9 - 1.6 up
    assert high[3] - low[3] == pytest.approx(7.4, abs=1e-9)


def test_a_capsule_is_as_long_and_wide_as_its_bar() -> None:
    ring = capsule(np.array([0.0, 0.0]), np.array([100.0, 0.0]), 10.0)
    assert ring.min(axis=0).tolist() == pytest.approx([-10.0, -10.0])
    assert ring.max(axis=0).tolist() == pytest.approx([110.0, 10.0])


def test_a_hull_holds_every_point_and_only_corners() -> None:
    points = np.random.default_rng(3).normal(size=(60, 2))
    ours, theirs = Polygon(hull(points)), MultiPoint(points).convex_hull
    assert isinstance(theirs, Polygon)
    assert ours.symmetric_difference(theirs).area == pytest.approx(0.0, abs=1e-12)
    assert len(hull(points)) == len(theirs.exterior.coords) - 1
