"""Our PDF, read again by two readers that are not ours: pdfplumber (pdfminer) and PDFium."""

from io import BytesIO
from typing import Any

import numpy as np
import pdfplumber
import pypdfium2
import pytest

from trimwright.drawing import (
    ArcTo,
    Box,
    Circle,
    CurveTo,
    Document,
    Drawing,
    Element,
    FaceName,
    Fill,
    Group,
    Line,
    Page,
    Path,
    Size,
    Text,
    check_squares,
    pdf,
    pdfs,
    text_width,
)

MM = 25.4 / 72  # of a PDF point: ISO 32000-1, 8.3.2.3
NEAR_MM = 0.05  # a third of the thinnest line


def read(elements: tuple[Element, ...], size: Size = "A4") -> Any:  # noqa: ANN401  no types
    page = Page(size, Drawing(300.0, 300.0, elements), "a page")
    return pdfplumber.open(BytesIO(pdf(Document((page,), "a name", "1")))).pages[0]


def on_page(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return pdfplumber's points (y down from the top, in points) in page millimetres."""
    return [(x * MM, y * MM) for x, y in points]


@pytest.mark.parametrize(
    ("size", "width", "height"),
    [("A4", 210.0, 297.0), ("Letter", 215.9, 279.4), ((900, 600), 900, 600)],
)
def test_page_has_the_size_of_its_paper(size: Size, width: float, height: float) -> None:
    page = read((), size)
    assert (float(page.width) * MM, float(page.height) * MM) == pytest.approx((width, height))


def test_check_squares_measure_100_mm_and_4_in() -> None:
    page = read(check_squares((14.0, 178.0)))
    inner, outer = page.rects
    for rect, side in ((inner, 100.0), (outer, 4 * 25.4)):
        assert rect["width"] * MM == pytest.approx(side, abs=0.01)
        assert rect["height"] * MM == pytest.approx(side, abs=0.01)
        assert (rect["x0"] * MM, rect["top"] * MM) == pytest.approx((14.0, 178.0), abs=0.01)


def test_check_square_measures_100_mm_where_it_is_printed() -> None:
    document = Document((Page("A4", Drawing(210.0, 297.0, check_squares((14.0, 178.0)))),))
    dots_per_mm = 20.0
    scale = 25.4 * dots_per_mm / 72
    bitmap = pypdfium2.PdfDocument(pdf(document))[0].render(scale=scale, grayscale=True)
    dark = bitmap.to_numpy().squeeze() < 128
    row = dark[round(250.3 * dots_per_mm)]  # no tick at this height
    edges = np.flatnonzero(row)
    runs = np.split(edges, np.flatnonzero(np.diff(edges) > 1) + 1)
    middles = [float(run.mean() + 0.5) / dots_per_mm for run in runs]
    assert middles == pytest.approx([14.0, 114.0, 115.6], abs=1 / dots_per_mm)


def test_line_lies_where_it_was_drawn() -> None:
    points = ((20.0, 30.0), (120.5, 41.25), (77.7, 200.0))
    (curve,) = read((Line(points, "saw"),)).curves
    assert on_page(curve["pts"]) == [pytest.approx(point, abs=0.001) for point in points]
    assert curve["linewidth"] * MM == pytest.approx(0.35, abs=0.001)


def test_quarter_of_a_circle_bulges_as_a_circle_does() -> None:
    # from three o'clock, clockwise on the page, to six: the middle lies at 45 degrees down
    (curve,) = read((Path((150.0, 100.0), (ArcTo((100.0, 150.0), 50.0),)),)).curves
    xs, ys = zip(*on_page(curve["pts"]), strict=True)
    middle = (100 + 50 * 0.5**0.5, 100 + 50 * 0.5**0.5)
    assert min(np.hypot(np.subtract(xs, middle[0]), np.subtract(ys, middle[1]))) < 0.01
    assert max(np.hypot(np.subtract(xs, 100.0), np.subtract(ys, 100.0))) < 52.0


def test_curve_keeps_its_handles() -> None:
    step = CurveTo((30.0, 80.0), (90.0, 80.0), (100.0, 20.0))
    (curve,) = read((Path((20.0, 20.0), (step,)),)).curves
    commands = [(name, on_page(list(points))) for name, *points in curve["path"]]
    expected = [(30.0, 80.0), (90.0, 80.0), (100.0, 20.0)]
    name, points = commands[1]
    assert name == "c"
    assert points == [pytest.approx(point, abs=0.001) for point in expected]


def test_circle_has_its_diameter() -> None:
    (curve,) = read((Circle((60.0, 70.0), 12.5, "thin"),)).curves
    assert (curve["width"] * MM, curve["height"] * MM) == pytest.approx((25.0, 25.0), abs=0.01)


def test_hole_in_an_area_stays_white() -> None:
    outer = Box(20.0, 20.0, 40.0, 40.0).corners
    hole = Box(30.0, 30.0, 20.0, 20.0).corners
    page = Page("A4", Drawing(210.0, 297.0, (Fill(outer, (hole,), "ink"),)))
    dots_per_mm = 4.0
    made = pypdfium2.PdfDocument(pdf(Document((page,))))
    seen = made[0].render(scale=25.4 * dots_per_mm / 72, grayscale=True).to_numpy().squeeze()
    assert [int(seen[round(at * dots_per_mm)][round(at * dots_per_mm)]) for at in (25, 40)] == [
        0,
        255,
    ]


def test_words_are_as_wide_as_they_were_measured() -> None:
    words = "Left wall 248.5 ±0.5 9\u200913/16\u2033"
    page = read((Text((20.0, 50.0), words, 5.0, "say"), Text((20.0, 70.0), words, 5.0, "count")))
    faces: tuple[tuple[float, FaceName], ...] = ((50.0, "say"), (70.0, "count"))
    for top, face in faces:
        chars = [c for c in page.chars if abs(c["bottom"] * MM - top) < 4.0]
        width = max(c["x1"] for c in chars) - min(c["x0"] for c in chars)
        assert width * MM == pytest.approx(text_width(words, 5.0, face), abs=NEAR_MM)


def test_words_can_be_read_out_of_the_file() -> None:
    assert (
        "nose to dash \u22124.2 mm"
        in read((Text((20.0, 50.0), "nose to dash \u22124.2 mm"),)).extract_text()
    )


def test_words_end_where_an_end_anchor_stands() -> None:
    page = read((Text((150.0, 50.0), "248.5", 4.0, anchor="end"),))
    assert max(c["x1"] for c in page.chars) * MM == pytest.approx(150.0, abs=NEAR_MM)


def test_turned_words_run_up_the_page() -> None:
    page = read((Text((50.0, 100.0), "lay over", 4.0, turn_deg=-90.0),))
    tops = [c["top"] for c in page.chars if c["text"].strip()]
    assert tops == sorted(tops, reverse=True)
    assert page.chars[0]["x1"] * MM == pytest.approx(50.0, abs=1.5)


def test_printer_is_asked_not_to_scale() -> None:
    import pypdf  # noqa: PLC0415  used once

    made = pdf(Document((Page("A4", Drawing(210.0, 297.0)),), "Corvane", "B"))
    reader = pypdf.PdfReader(BytesIO(made))
    assert reader.viewer_preferences is not None
    assert str(reader.viewer_preferences.print_scaling) == "/None"
    assert reader.metadata is not None
    assert (reader.metadata.title, reader.metadata.creator) == ("Corvane", "Trimwright")


def test_clip_of_a_turned_group_cuts_where_it_should() -> None:
    line = Line(((-50.0, 0.0), (50.0, 0.0)), "thin")
    group = Group((line,), move=(100.0, 100.0), turn_deg=90.0, clip=Box(-10.0, -5.0, 30.0, 10.0))
    (drawn,) = read((group,)).lines
    assert (drawn["top"] * MM, drawn["bottom"] * MM) == pytest.approx((90.0, 120.0), abs=0.001)


def test_a_page_is_the_same_in_every_file_it_stands_in() -> None:
    said = ("Größe Ω 9 13/16", "± 0.5", "other words, other letters: Ω ≥")
    pages = tuple(
        Page("A4", Drawing(210.0, 297.0, (Text((20.0, 50.0), one),)), one) for one in said
    )
    files = pdfs(
        {"first": Document(pages[:1]), "all": Document(pages), "last": Document(pages[2:])}
    )
    for name, number, words in (("first", 0, said[0]), ("all", 2, said[2]), ("last", 0, said[2])):
        alone = pdfplumber.open(
            BytesIO(pdf(Document((Page("A4", pages[said.index(words)].drawing),))))
        )
        page = pdfplumber.open(BytesIO(files[name])).pages[number]
        places = [
            [(c["text"], c["x0"], c["top"]) for c in one.chars] for one in (page, alone.pages[0])
        ]
        assert places[0] == places[1]
    read = pypdfium2.PdfDocument(files["all"])
    assert [read[k].get_textpage().get_text_range() for k in range(3)] == [
        pypdfium2.PdfDocument(pdf(Document((page,))))[0].get_textpage().get_text_range()
        for page in pages
    ]


def test_a_pen_or_font_that_is_clipped_away_leaves_the_next_words_alone() -> None:
    clipped = Group((Text((20.0, 50.0), "cut", 9.0, "say"),), clip=Box(20.0, 40.0, 8.0, 20.0))
    before, after = Text((20.0, 30.0), "no", 3.0), Text((20.0, 90.0), "yes", 9.0, "say")
    chars = {c["text"]: (c["size"], c["fontname"]) for c in read((before, clipped, after)).chars}
    assert chars["y"] == chars["u"]
    assert chars["u"][0] == pytest.approx(3 * chars["n"][0])


def test_a_dashed_line_that_is_cut_goes_on_where_its_pattern_was() -> None:
    line = Line(((10.0, 20.0), (110.0, 20.0)), "hidden")
    whole, cut = read((line, Group((line,), clip=Box(17.5, 10.0, 50.0, 20.0)))).lines
    dashes, phase = cut["dash"]
    assert [dash * MM for dash in dashes] == pytest.approx([2.0, 1.0], abs=0.001)
    assert whole["dash"][1] == 0
    # 7.5 mm into a pattern of 3 mm
    assert phase * MM == pytest.approx(1.5, abs=0.001)


def test_document_without_pages_is_refused() -> None:
    with pytest.raises(ValueError, match="document must have at least one page, got none"):
        pdf(Document(()))
