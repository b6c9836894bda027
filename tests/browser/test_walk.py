"""The measuring walk, whole and on the page only: from an empty folder to a printed template."""

import re
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pdfplumber
import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.conftest import Serve, TakePicture, Visit
from trimwright.build import written

MM_PER_POINT = 25.4 / 72
SQUARE_MM, WITHIN_MM = 100.0, 0.05
MOST_TABS = 40
# heading: what the tape reads, in mm and in inches
FIRST = {
    "How thick the carpet is, loose": ("15 ± 2", "5/8"),
    "How thick the carpet is, pressed": ("6 ± 1", "1/4"),
    "From the tunnel up to the dash": ("246", "9 3/4"),
    "From the tunnel up to the dash, at the datum": ("233.5", "9 1/4"),
    "From the datum back to the section": ("300", "12"),
    "From the floor up to the tunnel's top": ("180", "7"),
    "Across the tunnel at its shoulders": ("200", "8"),
    "Across the tunnel at the floor": ("340", "13 1/2"),
    "Between the seats, at the hip": ("266", "10 1/2"),
    "How wide the knob is": ("48", "1 7/8"),
    "Neutral: from the datum back to the knob": ("150", "6"),
    "Neutral: from the tunnel up to the knob": ("290", "11 1/2"),
    "The knob furthest left": ("62", "2 1/2"),
    "The knob furthest right": ("58", "2 1/4"),
    "Furthest back: from the datum to the knob": ("236", "9 1/4"),
    "Furthest back: from the tunnel up to the knob": ("280", "11"),
    "How high the console's deck is to be": ("197", "7 3/4"),
    "How wide the console is to be": ("236", "9 1/4"),
    "From the datum to the console's front end": ("70", "2 3/4"),
    "From the datum to the console's rear end": ("690", "27"),
}
SECTION = {
    "Left of the middle, 30 down": "96",
    "Right of the middle, 30 down": "97",
    "Left of the middle, 90 down": "",
    "Right of the middle, 90 down": "",
    "Left of the middle, 150 down": "157",
    "Right of the middle, 150 down": "158",
}
GIRTH, GIRTH_WRONG = "547", "647"
LAST = [*FIRST][-1]


def heading(page: Page) -> str:
    """Return what the walk asks for."""
    return page.locator(".walk-ask h2").inner_text()


def settled(page: Page) -> None:
    """Wait until the reading that was entered is written, or waits for others."""
    expect(page.locator("main[aria-busy=false]")).to_be_visible()


def key(page: Page, name: str) -> Locator:
    """Return a key of the pad, or one of the words."""
    return page.locator(".keys").get_by_role("button", name=name, exact=True)


def tapped(page: Page, figure: str) -> None:
    """Enter a figure by touch and go on."""
    for one in figure.replace(" ", ""):
        touched(page, one)
    touched(page, "Next")
    settled(page)


def touched(page: Page, name: str) -> None:
    """Touch the middle of a key, as a finger does that does not wait."""
    box = key(page, name).bounding_box()
    assert box is not None
    page.touchscreen.tap(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)


def typed(page: Page, figure: str) -> None:
    """Enter a figure by the keyboard and go on."""
    page.keyboard.type(figure)
    page.keyboard.press("Enter")
    settled(page)


def tab_to(page: Page, words: str) -> None:
    """Walk from one thing to the next with the tabulator until one says these words."""
    for _ in range(MOST_TABS):
        page.keyboard.press("Tab")
        if words == page.evaluate("document.activeElement.textContent"):
            return
    pytest.fail(f"no way to {words!r} by the keyboard")


def begin(page: Page, unit: str) -> None:
    """Begin a build on an empty shelf, by touch."""
    page.get_by_label("What it is called").fill("Larkspur estate")
    page.get_by_role("button", name=unit, exact=True).tap()
    page.get_by_role("button", name="Begin measuring").tap()


def chosen_words(page: Page, words: str) -> None:
    """Choose words where no figure is asked for, by touch."""
    page.get_by_role("button", name=words, exact=True).tap()
    key(page, "Next").tap()
    settled(page)


def template_squares(pdf: bytes) -> list[float]:
    """Return the widths of the squares of about 100 mm on every page of a PDF [mm]."""
    found = []
    with pdfplumber.open(BytesIO(pdf)) as read:
        for page in read.pages:
            for one in (*page.rects, *page.curves):
                wide, high = (one[side] * MM_PER_POINT for side in ("width", "height"))
                if abs(wide - SQUARE_MM) < 1 and abs(high - SQUARE_MM) < 1:
                    found += [wide, high]
    return found


def fetched(page: Page, fetch: Callable[[], None]) -> bytes:
    """Return the file that is fetched."""
    with page.expect_download() as waiting:
        fetch()
    path: Path = waiting.value.path()
    return path.read_bytes()


def test_a_car_is_measured_by_touch_and_its_template_printed(
    tmp_path: Path, serve: Serve, visit: Visit, take_picture: TakePicture
) -> None:
    page = visit(serve(tmp_path), 390, touch=True)
    take_picture(page, "walk-begin.png")
    begin(page, "mm")
    chosen_words(page, "two scribed lines on the sills, string across")
    chosen_words(page, "bare metal")
    skipped = "Between the seats, at the hip"
    for asked, (figure, _) in FIRST.items():
        assert heading(page) == asked
        if asked == skipped:
            key(page, "skip").tap()
            continue
        if asked == "How wide the knob is":
            a_figure_far_off_is_asked_about(page)
            continue
        if asked == "From the tunnel up to the dash, at the datum":
            page.get_by_role("button", name="mm", exact=True).tap()
            take_picture(page, "walk-dash.png")
        tapped(page, figure)
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
    assert heading(page) == skipped  # come back to what was skipped
    tapped(page, FIRST[skipped][0])
    a_section_is_read(page, take_picture)
    a_section_more_goes_in_its_place(page, tmp_path / "larkspur-estate.yaml")
    page.get_by_role("button", name="See what they say").tap()
    what_it_comes_to(page)
    the_template_is_true(page)


def a_figure_far_off_is_asked_about(page: Page) -> None:
    """Mistype a figure: nothing is lost, and what it may be is offered."""
    for one in "480":
        key(page, one).tap()
    key(page, "Next").tap()
    alert = page.locator(".walk-wrong")
    expect(alert).to_contain_text("480 is far off: it is 15 mm to 120 mm in most cars.")
    expect(page.get_by_label("Measured")).to_have_text("480")
    alert.get_by_role("button", name="48 mm", exact=True).tap()
    expect(page.get_by_label("Measured")).to_have_text("48")
    key(page, "Next").tap()
    settled(page)


def a_section_is_read(page: Page, take_picture: TakePicture) -> None:
    """Read points of the section; a slip among them is named with the tape still out."""
    page.get_by_role("button", name=re.compile(": Left of the middle, 30 down$")).first.tap()
    for asked, figure in SECTION.items():
        assert heading(page) == asked
        tapped(page, figure)
    assert heading(page) == "Over the tunnel, from floor to floor"
    tapped(page, GIRTH_WRONG)
    slip = page.locator(".walk-slip")
    expect(slip).to_contain_text("The girth at section 300 behind reads 647 mm")
    take_picture(page, "walk-slip.png")
    slip.get_by_role("button", name="Read it again").tap()
    assert heading(page) == "Again: over the tunnel, from floor to floor"
    tapped(page, GIRTH)
    expect(slip).to_have_count(0)


def a_section_more_goes_in_its_place(page: Page, file: Path) -> None:
    """Read one section more, ahead of the one in the file, wherever the walk asks for it."""
    page.get_by_role("button", name=re.compile("From the datum to one section more$")).tap()
    tapped(page, "70")
    tapped(page, "186")
    for asked, figure in SECTION.items():
        assert heading(page) == asked
        tapped(page, figure and str(int(figure) + 4))
    said = written(file.read_text("utf-8"))
    assert said["car", "tunnel", 0, "at"] == "70 ahead"
    assert said["car", "tunnel", 0, "down 150", "left"] == "161"
    assert said["car", "tunnel", 1, "girth floor to floor"] == GIRTH


def what_it_comes_to(page: Page) -> None:
    """See on the sheet what fits how surely, and what is worth measuring next."""
    slip = page.get_by_role("complementary", name="What needs a hand")
    expect(slip.get_by_role("article").first).to_be_visible()
    slip.locator("details.passed > summary").press("Enter")
    for place in ("knob to deck", "left wall to seat", "nose to dash"):
        line = page.locator(f'[id="line-clearance|{place}"]')
        line.get_by_role("button").first.press("Enter")
        expect(line).to_contain_text(re.compile(r"\d+(\.\d+)? % sure"))
    expect(page.get_by_role("img", name=re.compile("^Detail B: nose to dash"))).to_be_visible()
    expect(slip).to_contain_text(re.compile("Take one section more|Measure again|Read the carpet"))


def the_template_is_true(page: Page) -> None:
    """Fetch the templates alone and measure their check squares."""
    page.get_by_role("combobox").select_option("print")
    sheets = page.get_by_role("checkbox")
    expect(sheets.first).to_be_visible()
    for sheet in sheets.all():
        sheet.set_checked(checked=False) if sheet.is_enabled() else None
    page.get_by_role("checkbox", name=re.compile("^Templates")).check()
    link = page.get_by_role("link", name=re.compile(r"^Fetch \d+ pages? as PDF$"))
    squares = template_squares(fetched(page, link.click))
    assert squares
    assert all(abs(one - SQUARE_MM) <= WITHIN_MM for one in squares)


def test_a_car_is_measured_in_inches_by_the_keyboard_alone(
    tmp_path: Path, serve: Serve, visit: Visit, take_picture: TakePicture
) -> None:
    page = visit(serve(tmp_path), 1280)
    begin_by_keyboard(page)
    for asked, (_, figure) in FIRST.items():
        assert heading(page) == asked
        if asked == "Across the tunnel at its shoulders":
            page.keyboard.type(figure)
            take_picture(page, "walk-tunnel.png")
            page.keyboard.press("Enter")
            settled(page)
        else:
            typed(page, figure)
    said = written((tmp_path / "wrenfold-coupe.yaml").read_text("utf-8"))
    assert said["car", "between seats", "at hip"] == "10 1/2"
    assert said["car", "tunnel", 0, "at"] == "12 behind"
    take_picture(page, "walk-next.png")
    tab_to(page, "See what they say")
    page.keyboard.press("Enter")
    what_it_comes_to(page)
    take_picture(page, "walk-checked.png")
    printed_by_keyboard(page, take_picture)


def begin_by_keyboard(page: Page) -> None:
    """Begin a build in inches and say what is asked for in words."""
    page.get_by_label("What it is called").focus()
    page.keyboard.type("Wrenfold coupe")
    for words in ("in", "Begin measuring"):
        tab_to(page, words)
        page.keyboard.press("Enter")
    for words in ("two scribed lines on the sills, string across", "bare metal"):
        expect(page.get_by_role("button", name=words, exact=True)).to_be_visible()
        for one in (words, "Next"):
            tab_to(page, one)
            page.keyboard.press("Enter")
        settled(page)


def printed_by_keyboard(page: Page, take_picture: TakePicture) -> None:
    """Turn to the print place and fetch the templates alone."""
    tab_to(page, "6print")
    page.keyboard.press("Enter")
    expect(page.get_by_role("checkbox", name=re.compile("^Templates"))).to_be_visible()
    for sheet in page.get_by_role("checkbox").all():
        if sheet.is_enabled() and not sheet.locator("..").inner_text().startswith("Templates"):
            sheet.press("Space")
    expect(page.locator(".page-preview svg").first).to_be_visible()
    take_picture(page, "walk-print.png")
    fetch = page.get_by_role("link", name=re.compile(r"^Fetch \d+ pages? as PDF$"))
    assert template_squares(fetched(page, lambda: fetch.press("Enter")))


def test_fractions_of_the_pad_add_up(tmp_path: Path, serve: Serve, visit: Visit) -> None:
    page = visit(serve(tmp_path), 1280, touch=True)
    begin(page, "in")
    page.get_by_role("button", name=re.compile("^6: ")).tap()
    for one in ("9", "1/2", "1/4", "1/16"):
        key(page, one).tap()
    expect(page.get_by_label("Measured")).to_have_text("9 13/16")
    key(page, "Next").tap()
    settled(page)
    said = written((tmp_path / "larkspur-estate.yaml").read_text("utf-8"))
    assert said["car", "dash above tunnel", "at datum"] == "9 13/16"
