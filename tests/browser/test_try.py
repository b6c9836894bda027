"""At the car: a reading of the test fit says what it changed, and one that does not fit is named."""

import re
from pathlib import Path

from playwright.sync_api import Page, expect

from tests.browser.conftest import Serve, Visit

FAR_OFF = "60"  # mm: nothing the model could explain


def read(page: Page, figure: str) -> None:
    """Press a figure on the keys, and write it."""
    for digit in figure:
        page.get_by_role("button", name=digit, exact=True).click()
    page.get_by_role("button", name="Next", exact=True).click()


def test_a_test_fit_is_entered_on_a_tablet(example: Path, serve: Serve, visit: Visit) -> None:
    before = example.read_bytes()
    address = serve(example)
    page = visit(address, 820)
    page.goto("/".join([*address.split("/")[:3], example.stem, "try"]))
    rows = page.locator(".try-row")
    expect(rows.first).to_be_visible()
    rows.first.click()
    expected = re.search(r"expect (?:\u2212?[\d.]+ to )?([\d.]+)", rows.first.inner_text())
    read(page, expected.group(1).split(".")[0] if expected else "3")
    told = page.locator(".try-what")
    expect(told).to_contain_text("All together")
    assert "test fit:" in example.read_text("utf-8")
    once = example.read_bytes()
    rows.nth(1).click()
    read(page, FAR_OFF)
    expect(page.locator(".try-puzzle")).to_be_visible()
    page.get_by_role("button", name="Back to the sheet").click()
    undo = page.get_by_role("button", name=re.compile("^Undo"))
    undo.click()
    expect(page.get_by_role("button", name=re.compile("^Undo")).first).to_be_visible()
    page.wait_for_function("() => document.querySelector('.slip-foot b') !== null")
    for _ in range(500):
        if example.read_bytes() == once:
            break
        page.wait_for_timeout(20)
    assert example.read_bytes() == once
    undo.click()
    expect(undo).to_be_hidden()
    assert example.read_bytes() == before
