"""Notes and photos on a phone: written at a reading, kept, seen everywhere, undone; refused in words."""

import re
import shutil
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import pytest
from playwright.sync_api import Browser, FilePayload, Locator, Page, expect
from pypdf import PdfReader

from tests.browser.conftest import HEIGHTS, Serve, Visit
from tests.invented_picture import from_phone
from trimwright.build import load

WIDTH = 390
FINGER = 40  # px, of whatever a finger has to meet
LINE, SAYS = "the lip, from below", "taped from the weld, not the seam"


@pytest.fixture
def quarter_hour(root: Path, tmp_path: Path) -> Path:
    """Return a copy of the build of a quarter of an hour, in a folder of its own."""
    return Path(shutil.copy(root / "examples/fifteen-minutes/build.yaml", tmp_path / "petrel.yaml"))


def picture(data: bytes, name: str = "photo.jpg") -> FilePayload:
    """Return a picture as a phone's camera hands it to a page."""
    return {"name": name, "mimeType": "image/jpeg", "buffer": data}


def at_reading(page: Page) -> Locator:
    """Take the fifth reading of the walk in hand."""
    page.get_by_role("button", name=re.compile("^5: ")).click(force=True)
    return page.locator("main.walk")


def keep_photo(page: Page, data: bytes, says: str) -> None:
    """Choose a picture at the reading in hand, write a line under it, and send it."""
    page.get_by_label(re.compile("^Photo at ")).set_input_files(picture(data))
    sheet = page.get_by_role("dialog")
    sheet.get_by_label("a line under it").fill(says)
    sheet.get_by_role("button", name="Keep the photo").click()


def bench(address: str) -> str:
    """Return where the bench is, of the address that opens it."""
    return address.partition("/?")[0]


def walk(address: str, page: Page) -> Locator:
    """Open the walk of the build that is served at an address."""
    page.goto(f"{bench(address)}/petrel/measure")
    return at_reading(page)


def write_note(page: Page, here: Locator, says: str) -> None:
    """Write a note at whatever stands there."""
    here.get_by_role("button", name="Note", exact=True).click()
    page.get_by_label("in your own words").fill(says)
    page.get_by_role("button", name="Write it down").click()


def book_of(page: Page, address: str) -> PdfReader:
    """Return the build book as the page fetches it."""
    path = "/api/builds/petrel/print/A4/files/book.pdf"
    return PdfReader(BytesIO(page.request.get(f"{bench(address)}{path}").body()))


def test_a_note_and_a_photo_at_a_reading(quarter_hour: Path, serve: Serve, visit: Visit) -> None:
    before = quarter_hour.read_bytes()
    address = serve(quarter_hour)
    page, other = visit(address, WIDTH), visit(address, WIDTH)
    here, there = walk(address, page), walk(address, other)
    keep_photo(page, from_phone(900, 600), LINE)
    expect(here.get_by_role("img", name=LINE)).to_be_visible()
    write_note(page, here, SAYS)
    for one in (here, there):  # the other page is told of it
        expect(one.get_by_text(SAYS)).to_be_visible()
        expect(one.get_by_role("img", name=LINE)).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= WIDTH
    page.reload()
    at_reading(page)
    expect(here.get_by_text(SAYS)).to_be_visible()
    shown, note = load(quarter_hour).build.notes
    assert (shown.reading, note.says) == (note.reading, SAYS)
    assert quarter_hour.read_bytes().startswith(before)  # every other line is as it was
    undone(page, there)
    assert quarter_hour.read_bytes() == before
    assert (quarter_hour.parent / str(shown.photo)).is_file()


def undone(page: Page, there: Locator) -> None:
    """Undo both edits on one page; they go on the other as well."""
    page.get_by_role("button", name="Back to the sheet").click()
    undo = page.locator("footer").get_by_role("button", name=re.compile("^Undo"))
    undo.click()
    expect(there.get_by_text(SAYS)).to_be_hidden()
    undo.click()
    expect(there.get_by_role("img", name=LINE)).to_be_hidden()


def test_what_was_added_stands_in_the_book(quarter_hour: Path, serve: Serve, visit: Visit) -> None:
    address = serve(quarter_hour)
    page = visit(address, WIDTH)
    here = walk(address, page)
    keep_photo(page, from_phone(900, 600), LINE)
    write_note(page, here, SAYS)
    expect(here.get_by_text(SAYS)).to_be_visible()
    pages = book_of(page, address).pages
    words = " ".join(" ".join(one.extract_text() for one in pages).split())
    assert SAYS in words
    assert LINE in words
    (printed,) = (one for leaf in pages for one in leaf.images)
    assert printed.image is not None
    assert printed.image.size == (900, 600)


@pytest.fixture
def phone(browser: Browser) -> Iterator[Page]:
    """Return a page whose console may tell of what the server refused."""
    context = browser.new_context(viewport={"width": WIDTH, "height": HEIGHTS[WIDTH]})
    page = context.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    yield page
    context.close()
    assert wrong == []


def test_a_bad_upload_says_why_and_keeps_the_words(
    quarter_hour: Path, serve: Serve, phone: Page
) -> None:
    before = quarter_hour.read_bytes()
    address = serve(quarter_hour)
    phone.goto(address)
    here = walk(address, phone)
    keep_photo(phone, b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>", SAYS)
    sheet = phone.get_by_role("dialog")
    expect(sheet.get_by_role("alert")).to_contain_text("This is no picture that the bench can read")
    expect(sheet.get_by_label("a line under it")).to_have_value(SAYS)
    assert quarter_hour.read_bytes() == before
    sheet.get_by_role("button", name="Close").click()
    expect(sheet).to_be_hidden()
    keep_photo_again = phone.get_by_label(re.compile("^Photo at "))
    keep_photo_again.set_input_files(picture(bytes(12 * 1024 * 1024 + 1)))
    expect(sheet.get_by_label("a line under it")).to_have_value(SAYS)  # typed once
    sheet.get_by_role("button", name="Keep the photo").click()
    expect(sheet.get_by_role("alert")).to_contain_text("13 MiB; at most 12 can be sent")
    sheet.get_by_role("button", name="Close").click()
    keep_photo_again.set_input_files(picture(from_phone()))
    phone.route("**/photos", lambda route: route.abort())  # the bench is away
    sheet.get_by_role("button", name="Keep the photo").click()
    expect(sheet.get_by_role("alert")).to_contain_text("What you wrote stays here")
    expect(sheet.get_by_label("a line under it")).to_have_value(SAYS)
    phone.unroute("**/photos")
    sheet.get_by_role("button", name="Keep the photo").click()
    expect(here.get_by_role("img", name=SAYS)).to_be_visible()


def test_a_photo_is_looked_at_given_other_words_and_taken_out(
    quarter_hour: Path, serve: Serve, visit: Visit
) -> None:
    before = quarter_hour.read_bytes()
    address = serve(quarter_hour)
    page = visit(address, WIDTH)
    here = walk(address, page)
    keep_photo(page, from_phone(900, 600), "first words")
    here.get_by_role("button", name="first words").click()
    sheet = page.get_by_role("dialog")
    large = sheet.get_by_role("img", name="first words")
    expect(large).to_have_js_property("naturalWidth", 900)  # it is there
    box = large.bounding_box()
    assert box is not None
    assert box["width"] > WIDTH * 0.8
    sheet.get_by_label("a line under it").fill("other words")
    sheet.get_by_role("button", name="Write it down").click()
    here.get_by_role("button", name="other words").click()
    for name in ("Close", "Take it out"):
        touched = sheet.get_by_role("button", name=name).bounding_box()
        assert touched is not None
        assert touched["height"] >= FINGER
    sheet.get_by_role("button", name="Take it out").click()
    expect(here.get_by_role("img", name="other words")).to_be_hidden()
    assert quarter_hour.read_bytes() == before


def test_words_typed_in_a_note_are_no_figures_of_the_walk(
    quarter_hour: Path, serve: Serve, visit: Visit
) -> None:
    address = serve(quarter_hour)
    page = visit(address, WIDTH)
    here = walk(address, page)
    figure = here.get_by_label("Measured").inner_text()
    here.get_by_role("button", name="Note", exact=True).click()
    words = page.get_by_label("in your own words")
    expect(words).to_be_focused()
    page.keyboard.type("12 or 3/4")
    page.keyboard.press("Enter")
    expect(words).to_have_value("12 or 3/4\n")
    page.keyboard.press("Escape")
    expect(page.get_by_role("dialog")).to_be_hidden()
    assert here.get_by_label("Measured").inner_text() == figure
    page.reload()
    at_reading(page)
    here.get_by_role("button", name="Note", exact=True).click()
    expect(words).to_have_value("12 or 3/4\n")  # kept while it is not written


def test_a_note_at_a_finding_and_at_a_part(quarter_hour: Path, serve: Serve, visit: Visit) -> None:
    page = visit(serve(quarter_hour), 1280)
    slip = page.get_by_role("complementary", name="What needs a hand")
    line = slip.get_by_role("article").filter(has_text="tunnel widens").first
    line.get_by_role("button").first.click()
    line.get_by_role("button", name="Note", exact=True).click()
    page.get_by_label("in your own words").fill("ask for the body drawing")
    page.get_by_role("button", name="Write it down").click()
    expect(line.get_by_text("ask for the body drawing")).to_be_visible()
    slip.get_by_text(re.compile("^Notes and photos")).click()
    everything = slip.locator("details.all-notes")
    everything.get_by_label("about").select_option("left wall")
    everything.get_by_role("button", name="Note", exact=True).click()
    page.get_by_label("in your own words").fill("grain runs rearward")
    page.get_by_role("button", name="Write it down").click()
    expect(everything.get_by_text("grain runs rearward")).to_be_visible()
    expect(everything.get_by_text("ask for the body drawing")).to_be_visible()
    finding, part = load(quarter_hour).build.notes
    assert finding.finding is not None
    assert "tunnel widens" in finding.finding
    assert (part.part, part.says) == ("left wall", "grain runs rearward")


def test_a_note_at_a_reading_of_the_test_fit(
    quarter_hour: Path, serve: Serve, visit: Visit
) -> None:
    address = serve(quarter_hour)
    page = visit(address, WIDTH)
    page.goto(f"{bench(address)}/petrel/try")
    page.get_by_role("button", name=re.compile("^nose to dash")).click()
    here = page.locator("main.try")
    write_note(page, here, SAYS)
    expect(here.get_by_text(SAYS)).to_be_visible()
    (note,) = load(quarter_hour).build.notes
    assert note.reading == "test fit nose to dash"
    page.get_by_label("another place").fill("nose left")
    expect(here.get_by_text(SAYS)).to_be_hidden()  # it is of another place
