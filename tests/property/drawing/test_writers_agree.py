"""Whatever is drawn, PDF, SVG and DXF hold the same lines: each read again by another library."""

import tempfile
from io import BytesIO, StringIO
from itertools import pairwise
from pathlib import Path as FilePath
from typing import Literal

import numpy as np
import pdfplumber
import pyogrio
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from svgelements import SVG, Shape
from svgelements import Path as ReadPath

from trimwright.drawing import (
    ArcTo,
    Box,
    Circle,
    CurveTo,
    Document,
    Drawing,
    Element,
    Fill,
    Group,
    Line,
    LineTo,
    Page,
    Path,
    PenName,
    Step,
    dxf,
    flat,
    pdf,
    svg,
)
from trimwright.drawing.flat import outline

NEAR_MM = 0.05
WIDTH, HEIGHT = 210.0, 297.0
MM = 25.4 / 72

places = st.tuples(
    st.integers(40, 380).map(lambda v: v / 2 + 0.13),
    st.integers(40, 540).map(lambda v: v / 2 + 0.07),
)
names: tuple[PenName, ...] = ("cut", "thin", "hidden", "saw")
pens: st.SearchStrategy[PenName] = st.sampled_from(names)
lines = st.builds(
    lambda points, pen: Line(tuple(points), pen),
    st.lists(places, min_size=2, max_size=5, unique=True),
    pens,
)


@st.composite
def paths(draw: st.DrawFn) -> Path:
    """Return a path through places that all differ."""
    start, *ends = draw(st.lists(places, min_size=2, max_size=4, unique=True))
    steps: list[Step] = []
    for end in ends:
        way: Literal["clockwise", "anticlockwise"] = (
            "clockwise" if draw(st.booleans()) else "anticlockwise"
        )
        arc = ArcTo(end, draw(st.floats(100, 180)), way)
        curve = CurveTo(draw(places), draw(places), end)
        kinds: tuple[Step, ...] = (LineTo(end), arc, curve)
        steps.append(kinds[draw(st.integers(0, 2))])
    return Path(start, tuple(steps), draw(pens))


circles = st.builds(Circle, places, st.floats(1, 15))
fills = st.builds(
    lambda corner, hatch: Fill(Box(corner[0], corner[1], 12.0, 9.0).corners, hatch=hatch),
    places,
    st.sampled_from(("ply", "waste", "metal")),
)
groups = st.builds(
    lambda inner, turn: Group(
        tuple(inner), move=(205.0, 4.0), turn_deg=turn, mirror="across", clip=Box(20, 20, 130, 150)
    ),
    st.lists(st.one_of(lines, paths(), circles), min_size=1, max_size=2),
    st.floats(-3, 3),
)
drawings = st.lists(st.one_of(lines, paths(), circles, fills, groups), min_size=1, max_size=4).map(
    tuple
)


def drawn(elements: tuple[Element, ...]) -> shapely.MultiLineString:
    """Return the strokes as the model has them, y down."""
    return shapely.MultiLineString([outline(shape) for shape in flat(elements)])


def from_pdf(elements: tuple[Element, ...]) -> shapely.MultiLineString:
    made = pdf(Document((Page("A4", Drawing(WIDTH, HEIGHT, elements)),)))
    page = pdfplumber.open(BytesIO(made)).pages[0]
    found = []
    for shape in (*page.lines, *page.curves, *page.rects):
        points: list[tuple[float, float]] = []
        for name, *at in shape["path"]:
            ends = [(x * MM, y * MM) for x, y in at]
            if name == "c":
                points.extend(bezier(points[-1], *ends))
            elif name == "h":
                points.append(points[0])
            else:
                points.extend(ends)
        found.append(points)
    return shapely.MultiLineString(found)


def bezier(*handles: tuple[float, float]) -> list[tuple[float, float]]:
    p, q, r, s = (np.array(point) for point in handles)
    t = np.linspace(0, 1, 240)[1:, None]
    at: NDArray[np.float64] = (
        (1 - t) ** 3 * p + 3 * (1 - t) ** 2 * t * q + 3 * (1 - t) * t**2 * r + t**3 * s
    )
    return [(float(x), float(y)) for x, y in at]


def from_svg(elements: tuple[Element, ...]) -> shapely.MultiLineString:
    text = svg(Page("A4", Drawing(WIDTH, HEIGHT, elements)))
    shapes = SVG.parse(StringIO(text), reify=True, ppi=25.4).elements()
    found = []
    for shape in [shape for shape in shapes if isinstance(shape, Shape)][1:]:
        points = [
            segment.point(t)
            for segment in ReadPath(shape)
            for t in (
                np.linspace(0, 1, 240) if type(segment).__name__ in ("Arc", "CubicBezier") else (1,)
            )
        ]
        found.append([(point.x, point.y) for point in points])
    return shapely.MultiLineString([points for points in found if len(points) > 1])


def from_dxf(elements: tuple[Element, ...]) -> shapely.MultiLineString:
    with tempfile.TemporaryDirectory() as folder:
        file = FilePath(folder) / "drawing.dxf"
        file.write_bytes(dxf(Drawing(WIDTH, HEIGHT, elements)))
        pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": 1.0})
        _, _, shapes, _ = pyogrio.raw.read(file)
    found = shapely.MultiLineString(list(shapely.from_wkb(shapes)))
    return shapely.transform(found, lambda at: at * [1, -1] + [0, HEIGHT])


def apart(a: shapely.MultiLineString, b: shapely.MultiLineString) -> float:
    """Return how far the two sets of strokes are from each other at most, both ways [mm]."""
    return max(lies_off(a, b), lies_off(b, a))


def lies_off(a: shapely.MultiLineString, b: shapely.MultiLineString) -> float:
    """Return how far a point of one set, every 5 mm, is from the other set at most [mm]."""
    dense = shapely.get_coordinates(shapely.segmentize(a, 5.0))
    shapely.prepare(b)
    return float(shapely.distance(shapely.points(dense), b).max())


@settings(max_examples=12)
@given(drawings)
def test_pdf_has_the_lines_of_the_drawing(elements: tuple[Element, ...]) -> None:
    if flat(elements):
        assert apart(from_pdf(elements), drawn(elements)) < NEAR_MM


@settings(max_examples=12)
@given(drawings)
def test_svg_has_the_lines_of_the_drawing(elements: tuple[Element, ...]) -> None:
    if flat(elements):
        assert apart(from_svg(elements), drawn(elements)) < NEAR_MM


@settings(max_examples=12)
@given(drawings)
def test_dxf_has_the_lines_of_the_drawing(elements: tuple[Element, ...]) -> None:
    if flat(elements):
        assert apart(from_dxf(elements), drawn(elements)) < NEAR_MM


@settings(max_examples=12)
@given(paths())
def test_no_straight_piece_leaves_its_curve(path: Path) -> None:
    # the same path with a hundredth of the tolerance is as good as the curve
    from trimwright.drawing import points_of  # noqa: PLC0415  used once

    fine = shapely.LineString(points_of(path, tolerance_mm=0.0001))
    for p, q in pairwise(points_of(path, tolerance_mm=0.05)):
        middle = shapely.Point((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)
        assert fine.distance(middle) <= 0.0502
