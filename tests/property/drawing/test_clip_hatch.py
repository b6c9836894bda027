"""Clipping and hatching against shapely, which does both another way."""

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from trimwright.drawing import Fill, Line, Point, flat
from trimwright.drawing.clip import cut_area, cut_line
from trimwright.drawing.hatch import RULINGS

places = st.tuples(
    st.integers(-60, 60).map(lambda v: v / 2 + 0.1), st.integers(-60, 60).map(lambda v: v / 2 + 0.1)
)
outlines = st.lists(places, min_size=3, max_size=8, unique=True).map(tuple)


def window(turn: float, width: float, height: float) -> tuple[Point, ...]:
    cos, sin = math.cos(turn), math.sin(turn)
    corners = ((-width, -height), (width, -height), (width, height), (-width, height))
    return tuple((x * cos - y * sin, x * sin + y * cos) for x, y in corners)


windows = st.builds(window, st.floats(0, 3), st.floats(5, 20), st.floats(5, 20))


@given(outlines, windows)
def test_cut_line_is_the_part_inside(points: tuple[Point, ...], edge: tuple[Point, ...]) -> None:
    runs = cut_line(points, edge)
    pieces = [shapely.LineString([p, q]) for p, q in pairwise(points)]
    inside = sum(piece.intersection(shapely.Polygon(edge)).length for piece in pieces)
    assert sum(shapely.LineString(run).length for run, _ in runs) == pytest.approx(inside, abs=1e-6)


@given(outlines, windows)
def test_cut_line_knows_how_far_along_it_begins(
    points: tuple[Point, ...], edge: tuple[Point, ...]
) -> None:
    line = shapely.LineString(points)
    for run, start in cut_line(points, edge):
        at = line.interpolate(start)
        assert math.dist(run[0], (at.x, at.y)) < 1e-6


@given(outlines, windows)
def test_cut_area_has_the_area_inside(points: tuple[Point, ...], edge: tuple[Point, ...]) -> None:
    shape = shapely.Polygon(points)
    if shape.is_valid:
        left = cut_area(points, edge)
        area = shapely.Polygon(left).area if left else 0.0
        assert area == pytest.approx(shape.intersection(shapely.Polygon(edge)).area, abs=1e-6)


@given(outlines, st.sampled_from(("ply", "waste", "metal")))
def test_hatch_is_the_ruling_cut_by_the_area(points: tuple[Point, ...], name: str) -> None:
    shape = shapely.Polygon(points)
    if not shape.is_valid or shape.area < 0.01:  # corners in one line
        return
    drawn = flat((Fill(points, hatch=name),))  # type: ignore[arg-type]  # drawn from the names
    wanted = 0.0
    for ruling in RULINGS[name]:  # type: ignore[index]  # as above
        turn = math.radians(ruling.turn_deg)
        along, across = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
        for row in range(-60, 61):
            level = ruling.shift_mm + row * ruling.spacing_mm
            foot = (across[0] * level, across[1] * level)
            ends = [(foot[0] + along[0] * t, foot[1] + along[1] * t) for t in (-99.0, 99.0)]
            wanted += shape.intersection(shapely.LineString(ends)).length
    lengths = [shapely.LineString(line.points).length for line in drawn if isinstance(line, Line)]
    assert math.fsum(lengths) == pytest.approx(wanted, abs=1e-6)


@given(outlines, st.sampled_from(("foam", "carpet")))
def test_strokes_of_a_hatch_stay_inside(points: tuple[Point, ...], name: str) -> None:
    shape = shapely.Polygon(points)
    if not shape.is_valid:
        return
    grown = shape.buffer(1e-6)
    drawn = flat((Fill(points, hatch=name),))  # type: ignore[arg-type]  # drawn from the names
    assert all(grown.covers(shapely.LineString(l.points)) for l in drawn if isinstance(l, Line))


def test_hatch_spares_the_hole() -> None:
    outer = ((0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0))
    hole = ((10.0, 10.0), (30.0, 10.0), (30.0, 30.0), (10.0, 30.0))
    drawn = flat((Fill(outer, (hole,), hatch="waste"),))
    inner = shapely.Polygon(hole).buffer(-1e-6)
    assert drawn
    assert not any(
        inner.intersects(shapely.LineString(line.points))
        for line in drawn
        if isinstance(line, Line)
    )


def test_waste_leans_the_other_way_than_ply() -> None:
    square = ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0))
    leans = {}
    for name in ("ply", "waste"):
        line = flat((Fill(square, hatch=name),))[1]
        assert isinstance(line, Line)
        (x1, y1), (x2, y2) = line.points
        leans[name] = (y2 - y1) / (x2 - x1)
    assert leans == {"ply": pytest.approx(1.0), "waste": pytest.approx(-1.0)}
