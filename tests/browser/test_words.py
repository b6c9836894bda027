"""A trade word says what it means when it is tapped, and goes again."""

from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Serve, Visit


@pytest.mark.parametrize("width", [390, 1280])
def test_a_word_is_told_on_tap(example: Path, serve: Serve, visit: Visit, width: int) -> None:
    page = visit(serve(example), width)
    slip = page.get_by_role("complementary", name="What needs a hand")
    slip.get_by_text("Why", exact=True).first.click()
    slip.locator("button.word").first.click()
    card = page.get_by_role("note", name="What it means")
    expect(card).to_be_visible()
    box = card.bounding_box()
    assert box is not None
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= width
    page.keyboard.press("Escape")
    expect(card).to_be_hidden()
    word = slip.locator("button.word").first
    word.click()
    expect(card).to_be_visible()
    word.click()
    expect(card).to_be_hidden()
    word.click()
    card.get_by_role("button", name="Close").click()
    expect(card).to_be_hidden()
