"""The faces: the built ones if this install has them, the PDF stand-ins if not; both are tried."""

from io import BytesIO
from pathlib import Path
from typing import get_args

import pdfplumber
import pytest

from trimwright.drawing import (
    Document,
    Drawing,
    FaceName,
    Page,
    Text,
    face,
    fonts_used,
    pdf,
    text_width,
    unprintable,
)

FACES: tuple[FaceName, ...] = get_args(FaceName)
MM = 25.4 / 72


@pytest.fixture
def _no_fonts(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Stand where the build could not fetch the fonts."""
    monkeypatch.setattr(face, "FOLDER", tmp_path)


def test_this_install_has_all_faces_or_none(record_property: pytest.FixtureRequest) -> None:
    used = fonts_used()
    record_property("faces", ", ".join(used.values()))  # type: ignore[operator]  # pytest types it loosely
    assert list(used) == list(FACES)
    assert set(used.values()) in (
        {"say.ttf", "count.ttf", "count-bold.ttf"},
        {"Helvetica", "Helvetica-Bold"},
    )


@pytest.mark.usefixtures("_no_fonts")
def test_without_fonts_the_stand_ins_are_named() -> None:
    assert fonts_used() == {
        "say": "Helvetica-Bold",
        "count": "Helvetica",
        "count-bold": "Helvetica-Bold",
    }


@pytest.mark.usefixtures("_no_fonts")
def test_stand_ins_have_the_widths_that_adobe_printed() -> None:
    # Adobe Core 14 AFM, Helvetica: A 667, space 278, five 556; Helvetica-Bold: A 722 [1/1000]
    assert text_width("A 5", 1000.0, "count") == pytest.approx(667 + 278 + 556)
    assert text_width("A", 1000.0, "count-bold") == pytest.approx(722)


@pytest.mark.usefixtures("_no_fonts")
@pytest.mark.parametrize(
    ("words", "shown"),
    [
        ("9\u200913/16\u2033", '9 13/16"'),
        ("\u22124.2", "\u20134.2"),
        ("6\u2032 2\u2033", "6' 2\""),
        ("\u2265 3 \u03a9", ">= 3 ohm"),
        ("Škoda", "Škoda"),
        ("Łódź", "?ódz"),
    ],
)
def test_stand_ins_print_what_they_can(words: str, shown: str) -> None:
    assert face.printed(words, "count") == shown


@pytest.mark.usefixtures("_no_fonts")
def test_paper_without_fonts_is_as_wide_as_measured() -> None:
    words = "nose to dash \u22124.2, 9\u200913/16"
    page = Page("A4", Drawing(210.0, 297.0, (Text((20.0, 50.0), words, 5.0),)))
    chars = pdfplumber.open(BytesIO(pdf(Document((page,))))).pages[0].chars
    width = (max(c["x1"] for c in chars) - min(c["x0"] for c in chars)) * MM
    assert width == pytest.approx(text_width(words, 5.0), abs=0.05)
    assert {c["fontname"] for c in chars} == {"Helvetica"}


def test_figures_do_not_jump_in_width() -> None:
    for name in FACES:
        widths = {round(text_width(digit, 3.0, name), 9) for digit in "0123456789"}
        assert len(widths) == 1, name


def test_characters_without_a_form_are_named() -> None:
    assert unprintable("車 nose 車?", "say") == "車"
    assert unprintable("Größe 12.5 \u03a9 \u22123 \u00b10.5\u2033", "count") == ""


def test_fraction_is_narrower_than_its_figures() -> None:
    plain = text_width("13", 3.0) + text_width("/", 3.0) + text_width("16", 3.0)
    assert text_width("13/16", 3.0) < 0.9 * plain


@pytest.mark.parametrize("words", ["13/15", "1/3", "12/12/2026", "0.5/8", "3/4.5"])
def test_what_is_no_fraction_of_an_inch_stays_as_it_is(words: str) -> None:
    apart = sum(text_width(char, 3.0) for char in words)
    assert text_width(words, 3.0) == pytest.approx(apart)
