"""The pieces of a paper: dimensions, tags, marks, frames, tables."""

import pytest

from trimwright.drawing import (
    Box,
    Circle,
    Column,
    Drawing,
    Element,
    Fill,
    GapReading,
    Grade,
    GradeName,
    Group,
    Line,
    Page,
    Row,
    Text,
    Title,
    bevel_arrow,
    datum_tick,
    dimension,
    drill_cross,
    feeler,
    fits_last_change,
    flat,
    frame,
    gap_tag,
    grade_mark,
    grain_arrow,
    head_height,
    overlaps,
    row_height,
    shared_out,
    table,
    tile_name,
    tiles,
    title_block,
)


def words(elements: tuple[Element, ...]) -> list[Text]:
    return [element for element in flat(elements) if isinstance(element, Text)]


def on_a4(elements: tuple[Element, ...]) -> Page:
    return Page("A4", Drawing(210.0, 297.0, elements))


def test_dimension_stands_above_a_level_line() -> None:
    drawn = dimension((20.0, 50.0), (80.0, 50.0), 10.0, "60")
    (line,) = [e for e in drawn if isinstance(e, Line) and e.points[0][1] == e.points[1][1]]
    (figure,) = words(drawn)
    assert line.points == ((20.0, 40.0), (80.0, 40.0))
    assert (figure.at[0], figure.anchor, figure.turn_deg) == (50.0, "middle", 0.0)
    assert figure.at[1] < 40.0


def test_dimension_up_the_page_reads_from_the_right() -> None:
    for a, b in (((50.0, 20.0), (50.0, 80.0)), ((50.0, 80.0), (50.0, 20.0))):
        (figure,) = words(dimension(a, b, 10.0, "60"))
        assert figure.turn_deg == pytest.approx(-90.0)


def test_heads_of_a_dimension_are_one_to_five_and_touch_its_ends() -> None:
    heads = [e for e in dimension((0.0, 0.0), (60.0, 0.0), 10.0, "60") if isinstance(e, Fill)]
    tips = sorted(head.points[0] for head in heads)
    assert tips == [(0.0, -10.0), (60.0, -10.0)]
    for tip, left, right in (head.points for head in heads):
        assert abs(left[1] - right[1]) / abs(tip[0] - left[0]) == pytest.approx(1 / 5)


def test_short_dimension_has_its_figure_outside() -> None:
    (figure,) = words(dimension((20.0, 50.0), (24.0, 50.0), 10.0, "4"))
    assert figure.at[0] > 24.0


def test_dimension_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="the two ends must differ"):
        dimension((1.0, 1.0), (1.0, 1.0), 5.0, "0")


READING = GapReading(2.0, 6.0, 10.0, 8.0, "6.0", "mm", "58 % sure · wanted 8")


def test_tag_is_hatched_where_short_and_solid_where_it_clears() -> None:
    drawn = gap_tag(READING, Grade("change", 3), (100.0, 100.0), (120.0, 80.0))
    areas = [e for e in drawn if isinstance(e, Fill) and e.points[0][1] == 79.0]
    (short,) = [area for area in areas if area.hatch == "waste"]
    (clear,) = [area for area in areas if area.tone == "ink"]
    spans = [e.points[1][0] - e.points[0][0] for e in (short, clear)]
    # from 2 to the wanted 8 it is short, from 8 to 10 it clears: three to one
    assert spans[0] / spans[1] == pytest.approx(3.0)
    assert short.points[1][0] == pytest.approx(clear.points[0][0])


def test_tag_has_its_notch_at_the_wanted_gap_and_its_line_at_the_nominal() -> None:
    drawn = gap_tag(READING, Grade("look", 3), (100.0, 100.0), (120.0, 80.0))
    upright = [e for e in drawn if isinstance(e, Line) and e.points[0][0] == e.points[1][0]]
    notch = next(e for e in upright if e.pen == "cut" and e.points[0][0] > 110.0)
    cross = next(e for e in upright if e.pen == "thin")
    box = next(e for e in drawn if isinstance(e, Line) and e.closed)
    left, right = box.points[0][0], box.points[1][0]
    assert (cross.points[0][0] - left) / (right - left) == pytest.approx((6 - 2) / (10 - 2))
    assert (notch.points[0][0] - left) / (right - left) == pytest.approx((8 - 2) / (10 - 2))


def test_tag_says_its_figure_and_its_doubt() -> None:
    drawn = gap_tag(READING, Grade("stop", 12), (100.0, 100.0), (120.0, 80.0), 30.0)
    assert [text.words for text in words(drawn)] == ["12", "6.0", "mm", "58 % sure · wanted 8"]
    assert overlaps(on_a4(drawn)) == ()


def test_tag_with_readings_out_of_order_is_refused() -> None:
    wrong = GapReading(7.0, 6.0, 10.0, 8.0, "6.0", "mm", "")
    with pytest.raises(ValueError, match="low, nominal, high must be in order, got 7, 6, 10"):
        gap_tag(wrong, Grade("stop", 1), (0.0, 0.0), (10.0, 10.0))


def test_feeler_is_two_bars_either_side_of_the_gap() -> None:
    one, other = feeler((50.0, 50.0), 0.0, gap_mm=2.0)
    assert [bar.points[0][0] for bar in (one, other) if isinstance(bar, Line)] == [49.0, 51.0]


@pytest.mark.parametrize(
    ("kind", "kinds"),
    [("stop", {Fill, Text}), ("change", {Fill, Text}), ("look", {Circle, Text}), ("good", {Line})],
)
def test_grades_differ_by_shape(kind: GradeName, kinds: set[type]) -> None:
    drawn = flat(grade_mark(kind, 7, (50.0, 50.0)))
    assert {type(element) for element in drawn} == kinds


def test_mark_keeps_within_its_size() -> None:
    for kind, corners in (("stop", 4), ("change", 3)):
        area = grade_mark(kind, 1, (50.0, 50.0))[0]  # type: ignore[arg-type]  # both are grades
        assert isinstance(area, Fill)
        assert len(area.points) == corners
        assert all(abs(y - 50.0) <= 2.5 and abs(x - 50.0) <= 3.0 for x, y in area.points)


def test_drill_cross_has_the_true_hole() -> None:
    hole = drill_cross((10.0, 10.0), 4.0)[0]
    assert isinstance(hole, Circle)
    assert (hole.radius, hole.layer) == (2.0, "drill")


@pytest.mark.parametrize("turn", [-90.0, -45.0, 0.0, 90.0, 180.0, 225.0])
def test_bevel_arrow_points_at_its_edge(turn: float) -> None:
    head, tail, triangle, angle = bevel_arrow((50.0, 50.0), turn, "24°")
    assert isinstance(head, Fill)
    assert head.points[0] == (50.0, 50.0)
    assert isinstance(triangle, Line)
    assert triangle.closed
    assert isinstance(tail, Line)
    assert isinstance(angle, Text)
    assert abs(angle.at[0] - 50.0) < 20.0


def test_grain_and_datum_say_what_they_are() -> None:
    drawn = (*grain_arrow((50.0, 50.0), turn_deg=180.0), *datum_tick((90.0, 90.0)))
    assert [(text.words, text.turn_deg % 360) for text in words(drawn)] == [
        ("grain", 0),
        ("datum", 0),
    ]


def test_frame_lies_8_mm_in() -> None:
    assert frame("A4").points == ((8.0, 8.0), (202.0, 8.0), (202.0, 289.0), (8.0, 289.0))


COLUMNS = (Column("piece", 20.0, "picture"), Column("name", 30.0), Column("cut", 9.0, "tick"))


def test_row_is_as_high_as_its_picture_or_its_words() -> None:
    picture = Row(("", "wall", ""), (), (10.0, 17.0))
    long = Row(("", "left wall with a very long name indeed", ""))
    assert row_height(COLUMNS, picture) == pytest.approx(17.0 + 2 * 1.2)
    assert row_height(COLUMNS, long) > row_height(COLUMNS, Row(("", "wall", "")))


def test_picture_stands_in_the_middle_of_its_cell() -> None:
    line = Line(((0.0, 0.0), (10.0, 0.0)), "saw")
    drawn, _ = table((100.0, 50.0), COLUMNS, (Row(("", "wall", ""), (line,), (10.0, 4.0)),))
    (placed,) = [e for e in flat(drawn) if isinstance(e, Line) and e.pen == "saw"]
    assert [x for x, _ in placed.points] == [105.0, 115.0]


def test_rows_are_shared_out_in_order() -> None:
    rows = tuple(Row(("", f"wall {n}", "")) for n in range(10))
    pages = shared_out(COLUMNS, rows, 30.0, 60.0)
    assert tuple(row for page in pages for row in page) == rows
    assert len(pages) > 1


def test_row_higher_than_a_page_is_refused() -> None:
    with pytest.raises(ValueError, match=r"needs 92\.4 mm, a page has"):
        shared_out(COLUMNS, (Row(("", "", ""), (), (5.0, 90.0)),), 50.0, 50.0)


def test_row_without_a_cell_for_each_column_is_refused() -> None:
    with pytest.raises(ValueError, match="cells must be 3, one a column, got 1"):
        row_height(COLUMNS, Row(("wall",)))


def test_overlap_of_turned_words_is_seen() -> None:
    upright = Text((50.0, 60.0), "upright words", 4.0, turn_deg=-90.0)
    assert overlaps(on_a4((upright, Text((40.0, 50.0), "level words", 4.0)))) != ()
    assert overlaps(on_a4((upright, Text((60.0, 50.0), "level words", 4.0)))) == ()


def test_words_off_the_page_or_out_of_their_box_are_seen() -> None:
    off, wide = Text((205.0, 50.0), "off the page"), Text((20.0, 80.0), "too wide", box_mm=5.0)
    found = [(overlap.words, overlap.into) for overlap in overlaps(on_a4((off, wide)))]
    assert found == [
        ("off the page", "the edge of the page"),
        ("too wide", "the edge of its box"),
    ]


def test_words_are_never_mirrored() -> None:
    group = Group((Text((10.0, 0.0), "left", 4.0),), move=(100.0, 50.0), mirror="across")
    (text,) = words((group,))
    assert (text.at, text.anchor, text.turn_deg) == ((90.0, 50.0), "end", 0.0)


def test_words_mirrored_upside_down_stay_upright_in_their_box() -> None:
    (text,) = words((Group((Text((10.0, 20.0), "left", 10.0),), mirror="down"),))
    assert (text.anchor, text.turn_deg) == ("start", 0.0)
    # the box reached 7.6 above and 2.2 below 20; mirrored it reaches 2.2 above and 7.6 below -20
    assert text.at == pytest.approx((10.0, -20.0 + 7.6 - 2.2))


def test_scale_changes_lines_but_neither_pens_nor_words() -> None:
    line, text = Line(((0.0, 0.0), (10.0, 0.0)), "saw"), Text((10.0, 0.0), "left", 4.0)
    scaled, moved = flat((Group((line, text), scale=0.2),))
    assert isinstance(scaled, Line)
    assert isinstance(moved, Text)
    assert (scaled.points[1], scaled.pen) == ((2.0, 0.0), "saw")
    assert (moved.at, moved.size_mm) == ((2.0, 0.0), 4.0)


def test_dashes_run_on_after_a_cut() -> None:
    line = Line(((0.0, 0.0), (100.0, 0.0)), "hidden")
    (cut,) = flat((Group((line,), clip=Box(31.0, -1.0, 40.0, 2.0)),))
    assert isinstance(cut, Line)
    assert (cut.points[0], cut.phase_mm) == ((31.0, 0.0), 31.0)


def test_empty_pages_are_left_out_and_neighbours_named() -> None:
    corner = Line(((5.0, 5.0), (350.0, 5.0), (350.0, 380.0)), "saw")
    pages = tiles(Drawing(400.0, 400.0, (corner,)), (186.0, 150.0))
    assert [page.name for page in pages] == ["A1", "A2", "B2", "C2"]
    assert [(page.before, page.above) for page in pages] == [
        ("", ""),
        ("A1", ""),
        ("", "A2"),
        ("", "B2"),
    ]


def test_overlap_wider_than_half_a_window_is_refused() -> None:
    with pytest.raises(ValueError, match="overlap_mm must be from 0 to below 75, got 80"):
        tiles(Drawing(400.0, 400.0), (186.0, 150.0), 80.0)


def test_rows_past_z_have_two_letters() -> None:
    assert [tile_name(row, 1) for row in (0, 25, 26, 701, 702)] == [
        "A2",
        "Z2",
        "AA2",
        "ZZ2",
        "AAA2",
    ]


FIELDS = ("build", "part", "paper", "page", "sheet", "scale", "last change", "unit", "check")


def test_a_title_has_its_fields_in_one_order_and_ends_in_its_corner() -> None:
    drawn, box = title_block(Title(*(name[:3].upper() for name in FIELDS)), (202.0, 289.0))
    read = [text.words for text in words(drawn)]
    assert read == [said for name in FIELDS for said in (name, name[:3].upper())]
    assert (box.right, box.bottom, box.width) == (202.0, 289.0, 158.0)


def test_a_long_name_makes_a_title_grow_upwards() -> None:
    short, long = (
        title_block(Title(name, *FIELDS[1:]), (202.0, 289.0))[1] for name in ("Elm", "Elm " * 20)
    )
    assert long.height > short.height
    assert long.bottom == short.bottom


def test_a_last_change_fits_its_field_or_does_not() -> None:
    assert fits_last_change("console, deck height 170")
    assert not fits_last_change("Cut 4 mm off the top of the nose; Scribe both walls 8 mm deeper")


def test_a_heading_in_a_table_stands_with_the_row_below_it() -> None:
    rows = (Row(("", "wall", "")), Row((), over="Before covering"), Row(("", "deck", "")))
    heights = [row_height(COLUMNS, row) for row in rows]
    room = head_height(COLUMNS) + sum(heights) - 0.1
    assert shared_out(COLUMNS, rows, room, 90.0) == (rows[:1], rows[1:])
    drawn, high = table((0.0, 0.0), COLUMNS, rows)
    assert high == pytest.approx(room + 0.1)
    assert "Before covering" in [text.words for text in words(drawn)]
