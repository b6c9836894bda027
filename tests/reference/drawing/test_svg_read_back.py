"""Our SVG, read again by svgelements."""

from io import StringIO

import pytest
from svgelements import SVG, Matrix, Shape
from svgelements import Circle as ReadCircle
from svgelements import Path as ReadPath
from svgelements import Text as ReadText

from trimwright.drawing import (
    ArcTo,
    Box,
    Circle,
    CurveTo,
    Drawing,
    Element,
    Line,
    Page,
    Path,
    Text,
    check_squares,
    svg,
)


def read(elements: tuple[Element, ...]) -> list[Shape]:
    page = Page("A4", Drawing(210.0, 297.0, elements), "Left wall & lid")
    # one user unit a millimetre: the reader is told that 1 in has 25.4 of them
    drawn = SVG.parse(StringIO(svg(page)), reify=True, ppi=25.4)
    assert (drawn.width, drawn.height) == pytest.approx((210.0, 297.0))
    return [shape for shape in drawn.elements() if isinstance(shape, Shape | ReadText)][1:]


def test_check_squares_measure_100_mm_and_4_in() -> None:
    inner, outer, *_ = read(check_squares((14.0, 178.0)))
    assert inner.bbox(with_stroke=False) == pytest.approx((14.0, 178.0, 114.0, 278.0), abs=0.001)
    assert outer.bbox(with_stroke=False) == pytest.approx((14.0, 178.0, 115.6, 279.6), abs=0.001)


def test_arc_passes_where_geometry_says() -> None:
    # centre (100, 100), from three o'clock clockwise on the page to six
    (arc,) = read((Path((150.0, 100.0), (ArcTo((100.0, 150.0), 50.0),)),))
    middle = ReadPath(arc)[1].point(0.5)
    half = 50 * 0.5**0.5
    assert (middle.x, middle.y) == pytest.approx((100 + half, 100 + half), abs=0.001)


def test_longer_anticlockwise_arc_goes_the_long_way() -> None:
    step = ArcTo((100.0, 150.0), 50.0, "anticlockwise", longer=True)
    (arc,) = read((Path((150.0, 100.0), (step,)),))
    middle = ReadPath(arc)[1].point(0.5)
    half = 50 * 0.5**0.5
    assert (middle.x, middle.y) == pytest.approx((100 - half, 100 - half), abs=0.001)


def test_curve_and_circle_keep_their_points() -> None:
    step = CurveTo((30.0, 80.0), (90.0, 80.0), (100.0, 20.0))
    curve, circle = read((Path((20.0, 20.0), (step,)), Circle((60.0, 70.0), 12.5)))
    # the middle of a cubic is (p + 3q + 3r + s) / 8
    middle = ReadPath(curve)[1].point(0.5)
    assert (middle.x, middle.y) == pytest.approx((60.0, 65.0), abs=0.001)
    assert isinstance(circle, ReadCircle)
    assert circle.rx == pytest.approx(12.5)


def test_line_style_is_that_of_its_pen() -> None:
    (line,) = read((Line(((0.0, 0.0), (50.0, 0.0)), "hidden"),))
    assert float(line.stroke_width) == pytest.approx(0.25)
    assert line.values["stroke-dasharray"] == "2 1"


def test_words_stay_words_and_stand_where_they_were_set() -> None:
    (words,) = read((Text((30.0, 40.0), "nose & dash < 3", 5.0, "say", "middle", -90.0),))
    assert words.text == "nose & dash < 3"
    assert (words.anchor, words.font_family.split(",")[0]) == ("middle", "Bitter")
    at = Matrix(words.transform).point_in_matrix_space((0.0, 0.0))
    assert (at.x, at.y) == pytest.approx((30.0, 40.0))


def test_page_has_a_title_and_says_what_it_shows() -> None:
    page = Page("A4", Drawing(210.0, 297.0), "Left wall & lid")
    drawn = svg(page, says="The left wall, outer face up.")
    assert "<title>Left wall &amp; lid</title>" in drawn
    assert "<desc>The left wall, outer face up.</desc>" in drawn


def test_words_cut_by_a_window_are_cut_on_screen_too() -> None:
    from trimwright.drawing import Group  # noqa: PLC0415  used once

    group = Group((Text((0.0, 5.0), "half of this is seen"),), clip=Box(0.0, 0.0, 10.0, 10.0))
    drawn = svg(Page("A4", Drawing(210.0, 297.0, (group,))))
    assert '<clipPath id="clip-' in drawn
    assert '<path d="M0 0L10 0L10 10L0 10Z"/>' in drawn
