"""Sharing in the browser: the picture is read as a camera reads it, a phone works along, and is let go.

A machine that is on no network of its own has nothing to share on; there the page has to say that.
"""

import re
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from io import BytesIO
from pathlib import Path
from typing import Literal

import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import Browser, Locator, Page, expect

from tests.browser.conftest import HEIGHTS, PATIENCE_MS, Serve, Visit, complaint
from tests.browser.test_bench import button, slip
from trimwright.app.share.address import near, own_addresses

ADDRESSES = [one for one in own_addresses() if near(one)]
PHONE, BENCH = 390, 1280
PickUp = Callable[[str], Page]


def camera(page: Page) -> list[str]:
    """Return what a phone's camera reads in the picture of a page."""
    picture = Image.open(BytesIO(page.screenshot())).convert("RGB")
    return [one.text for one in zxingcpp.read_barcodes(picture)]


def turn_up(page: Page) -> Locator:
    """Turn the sheet up that shares the bench, and return its switch."""
    page.get_by_role("button", name=re.compile("^Share", re.IGNORECASE)).click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Share on the garage network")
    expect(page.get_by_text("Others can read along.")).to_be_visible()
    return page.get_by_role("switch")


def switch_on(page: Page) -> bool:
    """Share the bench; return whether there is a network to share it on."""
    turn_up(page).click()
    if not ADDRESSES:
        expect(page.get_by_role("alert")).to_contain_text(re.compile("no network|the internet"))
        return False
    expect(page.get_by_role("img")).to_be_visible()
    return True


@pytest.fixture
def pick_up(browser: Browser, serve: Serve) -> Iterator[PickUp]:
    """Return what opens an address on a phone; it fails on any error of the page.

    That a phone is refused, its browser may say: it may have asked just when it was let go.
    """
    del serve  # asked for so that the phone is put away before its server is
    wrong: list[str] = []
    with ExitStack() as until_the_end:

        def opened(address: str) -> Page:
            context = browser.new_context(viewport={"width": PHONE, "height": HEIGHTS[PHONE]})
            until_the_end.callback(context.close)
            page = context.new_page()
            page.set_default_timeout(PATIENCE_MS)
            page.on("pageerror", lambda error: wrong.append(str(error)))
            page.on("console", lambda said: wrong.extend(complaint(said)))
            page.goto(address)
            return page

        yield opened
    assert [one for one in wrong if "status of 401" not in one] == []


def test_a_phone_is_paired_works_along_and_is_let_go(
    example: Path, serve: Serve, visit: Visit, pick_up: PickUp
) -> None:
    before = example.read_bytes()
    bench = visit(serve(example), BENCH)
    if not switch_on(bench):
        return
    (told,) = camera(bench)
    assert re.fullmatch(rf"http://{re.escape(ADDRESSES[0])}:\d+/pair\.html#\w{{8}}", told)

    phone = pick_up(told)
    expect(phone.get_by_role("heading", level=1)).to_have_text("measure")
    assert phone.url.endswith(f"/{example.stem}/measure")
    expect(bench.get_by_text(re.compile("^Used at"))).to_be_visible()
    assert camera(bench) == []
    late = pick_up(told)
    expect(late.get_by_role("alert")).to_contain_text("That code was used already")
    expect(late.get_by_role("main")).to_contain_text("On the bench, open Share.")
    phone.goto(phone.url.replace("/measure", "/fit"))
    expect(phone.get_by_role("button", name=re.compile("[Ss]hare"))).to_have_count(0)

    bench.get_by_role("button", name="Back").click()
    slip(phone).locator("button.ink-button, button.remedy").first.click()
    expect(button(bench, "Undo")).to_be_visible()
    assert (
        slip(bench).locator("footer b").inner_text() == slip(phone).locator("footer b").inner_text()
    )
    button(bench, "Undo").click()
    expect(button(phone, "Undo")).to_be_hidden()
    assert example.read_bytes() == before

    turn_up(bench)
    bench.get_by_role("button", name=re.compile("^Let go")).click()
    expect(phone.get_by_role("heading", level=1)).to_have_text("Not paired any more")
    expect(phone.get_by_role("alert")).to_have_text("The bench let this phone go.")
    expect(phone.get_by_role("main")).to_contain_text("open Share on the bench")
    expect(bench.get_by_text("None yet.")).to_be_visible()


def test_a_phone_is_told_when_the_bench_is_taken_off_the_network(
    example: Path, serve: Serve, visit: Visit, pick_up: PickUp
) -> None:
    bench = visit(serve(example), PHONE, "dark")
    if not switch_on(bench):
        return
    address = bench.locator(".share-address").inner_text()
    phone = pick_up(address)
    expect(phone.get_by_role("heading", level=1)).to_have_text("Pair this phone")
    phone.get_by_role("textbox").fill(bench.locator(".share-code").inner_text().lower())
    phone.get_by_role("button").click()
    expect(phone.get_by_role("heading", level=1)).to_have_text("measure")
    turn_off = bench.get_by_role("switch")
    turn_off.click()
    expect(phone.get_by_role("heading", level=1)).to_have_text("Not paired any more")
    expect(phone.get_by_role("alert")).to_have_text("The bench was taken off the network.")
    expect(turn_off).not_to_be_checked()


@pytest.mark.parametrize("light", ["light", "dark"])
@pytest.mark.parametrize("width", [PHONE, BENCH])
def test_the_picture_is_read_by_day_and_night(
    example: Path, serve: Serve, visit: Visit, width: int, light: Literal["light", "dark"]
) -> None:
    page = visit(serve(example), width, light)
    if not switch_on(page):
        return
    page.get_by_role("img").scroll_into_view_if_needed()
    (told,) = camera(page)
    code = page.locator(".share-code").inner_text().replace(" ", "")
    assert told == f"{page.locator('.share-address').inner_text()}/pair.html#{code}"
    assert page.evaluate("document.documentElement.scrollWidth") <= width  # nothing runs over
