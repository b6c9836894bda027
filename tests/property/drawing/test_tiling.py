"""A drawing cut into pages and laid together again is the drawing."""

from io import BytesIO

import numpy as np
import pdfplumber
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from trimwright.drawing import (
    ArcTo,
    Circle,
    Document,
    Drawing,
    Element,
    Fill,
    Group,
    Line,
    LineTo,
    Page,
    Path,
    Tile,
    flat,
    pdf,
    reassembled,
    tiles,
)
from trimwright.drawing.flat import outline

WINDOW = (186.0, 150.0)
WIDTH, HEIGHT = 520.0, 400.0
NEAR_MM = 0.05
MM = 25.4 / 72

places = st.tuples(
    st.integers(4, 2076).map(lambda v: v / 4 + 0.07),
    st.integers(4, 1596).map(lambda v: v / 4 + 0.03),
)
lines = st.builds(
    lambda points, closed: Line(tuple(points), "saw", closed=closed),
    st.lists(places, min_size=2, max_size=6, unique=True),
    st.booleans(),
)
arcs = st.builds(
    lambda at: Path(at[0], (ArcTo(at[1], 400.0), LineTo(at[2])), "saw"),
    st.lists(places, min_size=3, max_size=3, unique=True),
)
circles = st.builds(lambda at: Circle(at, 0.9), places)


def patch(at: tuple[float, float]) -> Fill:
    """Return a small hatched area."""
    x, y = min(at[0], 490.0), min(at[1], 370.0)
    return Fill(((x, y), (x + 24.0, y + 4.0), (x + 9.0, y + 22.0)), hatch="waste")


hatched = st.builds(patch, places)
wholes = st.lists(st.one_of(lines, arcs, circles, hatched), min_size=1, max_size=3).map(
    lambda elements: Drawing(WIDTH, HEIGHT, tuple(elements))
)
Strokes = NDArray[np.object_]  # of shapely lines, one a stroke: never noded with each other


def strokes(elements: tuple[Element, ...]) -> Strokes:
    return np.array([shapely.LineString(outline(shape)) for shape in flat(elements)], dtype=object)


def within(lines: Strokes, x0: float, y0: float, x1: float, y1: float) -> Strokes:
    return np.asarray(shapely.clip_by_rect(lines, x0, y0, x1, y1), dtype=object)


def lies_off(a: Strokes, b: Strokes) -> float:
    """Return how far a point of one set, every 5 mm, is from the other at most [mm]."""
    places = shapely.get_coordinates(shapely.segmentize(a, 5.0))
    if len(places) == 0:
        return 0.0
    tree = shapely.STRtree(b)
    _, gone = tree.query_nearest(shapely.points(places), return_distance=True, all_matches=False)
    return float(gone.max())


@settings(max_examples=30)
@given(wholes)
def test_pages_laid_together_are_the_drawing(whole: Drawing) -> None:
    there, back = strokes(whole.elements), strokes(reassembled(tiles(whole, WINDOW)))
    # an arc may leave the drawing's bounds, a page does not
    assert lies_off(within(there, 0.0, 0.0, WIDTH, HEIGHT), back) < NEAR_MM
    assert lies_off(back, there) < NEAR_MM


def printed(tile: Tile) -> list[shapely.LineString]:
    """Return a page's lines, read from its PDF and moved back into the drawing."""
    page = Page("A4", Drawing(210.0, 297.0, (Group(tile.elements, move=(12.0, 12.0)),)))
    read = pdfplumber.open(BytesIO(pdf(Document((page,))))).pages[0]
    shift = (tile.window.x - 12.0, tile.window.y - 12.0)
    found = []
    for shape in (*read.lines, *read.curves, *read.rects):
        points = [at for _, *ends in shape["path"] for at in ends]
        if shape["path"][-1][0] == "h":
            points.append(points[0])
        moved = [(x * MM + shift[0], y * MM + shift[1]) for x, y in points]
        found.append(shapely.LineString(moved))
    return found


@settings(max_examples=10)
@given(st.lists(st.one_of(lines, hatched), min_size=1, max_size=2).map(tuple))
def test_printed_pages_laid_together_are_the_drawing(elements: tuple[Element, ...]) -> None:
    whole = Drawing(WIDTH, HEIGHT, elements)
    back = np.array([line for tile in tiles(whole, WINDOW) for line in printed(tile)], dtype=object)
    assert lies_off(strokes(elements), back) < NEAR_MM
    assert lies_off(back, strokes(elements)) < NEAR_MM


@settings(max_examples=20)
@given(wholes)
def test_neighbours_show_the_same_in_their_overlap(whole: Drawing) -> None:
    pages = {(tile.row, tile.column): tile for tile in tiles(whole, WINDOW)}
    for (row, column), tile in pages.items():
        right = pages.get((row, column + 1))
        if right is None:
            continue
        assert tile.window.right - right.window.x == pytest.approx(10.0)
        x0, x1 = right.window.x + 0.01, tile.window.right - 0.01
        both = [
            within(strokes(reassembled((page,))), x0, tile.window.y, x1, tile.window.bottom)
            for page in (tile, right)
        ]
        left, again = (shapely.length(lines).sum() for lines in both)
        assert left == pytest.approx(again, abs=0.01)


@settings(max_examples=20)
@given(wholes)
def test_no_page_shows_only_what_others_show(whole: Drawing) -> None:
    pages = tiles(whole, WINDOW)
    for tile in pages:
        left = 10.0 if tile.window.x else 0.0
        top = 10.0 if tile.window.y else 0.0
        own = within(strokes(tile.elements), left, top, *WINDOW)
        assert shapely.length(own).sum() > 0
