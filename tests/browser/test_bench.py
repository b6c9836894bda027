"""The bench in a browser: it opens, shows what the command line finds, and a remedy can be undone."""

import re
import subprocess
from functools import cache
from pathlib import Path
from typing import Literal

import pytest
from PIL import Image
from playwright.sync_api import Locator, Page, expect

from tests.browser.conftest import EXAMPLE, Serve, TakePicture, Visit, trimwright

DAY: Literal["light"] = "light"
NIGHT: Literal["dark"] = "dark"
HALF = 128
PICTURES = {1280: ("bench.png", "README.md"), 390: ("bench-phone.png", "docs/screens.md")}
OPEN_GRADES = ("stop", "change", "look")


@cache
def counts(path: Path) -> dict[str, int]:
    """Return how many findings of each grade the command line tells of a build."""
    command = trimwright("check", str(path))
    said = subprocess.run(command, capture_output=True, encoding="utf-8", check=False).stdout  # noqa: S603  our own command
    return {
        grade: int(number) for number, grade in re.findall(r"(\d+) (\w+)", said.splitlines()[1])
    }


def slip(page: Page) -> Locator:
    """Return the slip, its findings told."""
    found = page.get_by_role("complementary", name="What needs a hand")
    expect(found.get_by_role("article").first).to_be_visible()
    return found


def shown(page: Page) -> dict[str, int]:
    """Return how many findings of each grade stand on the page."""
    found = {grade: slip(page).locator(f".word-{grade}").count() for grade in OPEN_GRADES}
    return {**found, "good": slip(page).locator("details.passed article").count()}


def button(page: Page, word: str) -> Locator:
    """Return the button in the foot of the slip whose name begins with a word."""
    return slip(page).locator("footer").get_by_role("button", name=re.compile(f"^{word}"))


def brightness(page: Page) -> float:
    """Return how bright the sheet is, from 0 to 255."""
    ground = "getComputedStyle(document.querySelector('main')).backgroundColor.match(/\\d+/g)"
    return sum(int(part) for part in page.evaluate(ground)[:3]) / 3


@pytest.mark.parametrize("light", [DAY, NIGHT])
@pytest.mark.parametrize("width", [390, 1280])
def test_a_remedy_is_one_click_and_undone_with_one_more(
    example: Path, serve: Serve, visit: Visit, width: int, light: Literal["light", "dark"]
) -> None:
    before = example.read_bytes()
    page = visit(serve(example), width, light)
    expect(page.get_by_role("img").first).to_be_visible()
    assert shown(page) == counts(EXAMPLE)
    assert page.evaluate("document.documentElement.scrollWidth") <= width  # nothing runs over
    assert (brightness(page) > HALF) == (light == DAY)
    slip(page).locator("button.ink-button, button.remedy").first.click()
    undo = button(page, "Undo")
    expect(undo).to_be_enabled()
    assert example.read_bytes() != before
    undo.click()
    expect(undo).to_be_hidden()
    assert example.read_bytes() == before


def test_an_empty_folder_opens(tmp_path: Path, serve: Serve, visit: Visit) -> None:
    page = visit(serve(tmp_path), 1280)
    expect(page.get_by_role("heading", level=1)).to_be_visible()


@pytest.mark.parametrize("width", [1280, 390])
def test_the_docs_show_the_bench(
    root: Path, example: Path, serve: Serve, visit: Visit, take_picture: TakePicture, width: int
) -> None:
    name, shown_in = PICTURES[width]
    page = visit(serve(example), width)
    expect(page.get_by_role("img").first).to_be_visible()
    expect(page.get_by_role("table")).to_be_attached()  # what the first remedy would change
    taken = take_picture(page, name)
    assert f"images/{name})" in (root / shown_in).read_text("utf-8")
    with Image.open(root / "docs/images" / name) as kept:
        assert kept.size == taken.size
