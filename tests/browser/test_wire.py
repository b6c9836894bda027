"""The wiring sheet: a switch is worked on the drawing and from the keyboard, and what is live is inked."""

import re
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Serve, Visit
from trimwright.app.wire_routes import pages_by_name
from trimwright.build import load

WIRED = Path(__file__).resolve().parents[2] / "examples" / "dunlin" / "after-wired.yaml"
INKED = re.compile(r"\bcarries\b")


@pytest.fixture
def wired(tmp_path: Path) -> Path:
    """Return a copy of the example car's electrics."""
    path = tmp_path / "wired.yaml"
    shutil.copy(WIRED, path)
    return path


def _sheet(page: Page, address: str) -> None:
    page.goto("/".join([*address.split("/")[:3], "wired", "wire"]))
    expect(page.locator(".wire-ground svg")).to_be_visible()


def turn_to(page: Page, path: Path, drawn: str) -> None:
    """Turn to the page of the diagram that draws a part, a contact or a wire."""
    number = pages_by_name(load(path).build)[drawn.partition(" ")[2]]
    page.get_by_role("button", name=f"page {number} of").click()
    expect(page.locator(f'g[data-of="{drawn}"]').first).to_be_attached()


@pytest.mark.parametrize("width", [390, 1280])
def test_a_switch_is_worked_where_it_is_drawn(
    wired: Path, serve: Serve, visit: Visit, width: int
) -> None:
    address = serve(wired)
    page = visit(address, width)
    _sheet(page, address)
    turn_to(page, wired, "contact fog switch")
    lamp, contact = (
        page.locator(f'g[data-of="{one}"]').first
        for one in ("part fog lamps", "contact fog switch")
    )
    expect(page.locator(".wire-on")).to_contain_text("oil lamp")
    expect(page.locator(".wire-on")).not_to_contain_text("fog lamps")
    expect(lamp).not_to_have_class(INKED)
    contact.dispatch_event("click")
    expect(page.locator(".wire-on")).to_contain_text(re.compile(r"fog lamps\s*1\d(\.\d)? V"))
    expect(lamp).to_have_class(INKED)
    contact.dispatch_event("click")
    expect(lamp).not_to_have_class(INKED)


def test_keys_alone_turn_the_key_and_work_a_switch(wired: Path, serve: Serve, visit: Visit) -> None:
    address = serve(wired)
    page = visit(address, 1280)
    _sheet(page, address)
    page.get_by_role("radio", name="ignition on, engine stopped").focus()
    for _ in range(2):
        page.keyboard.press("ArrowUp")
    expect(page.get_by_role("radio", name="key out")).to_be_checked()
    expect(page.locator(".wire-on")).not_to_contain_text("oil lamp")
    button = page.get_by_role("button", name=re.compile("^left door open"))
    button.focus()
    page.keyboard.press("Enter")
    expect(button).to_have_attribute("aria-pressed", "true")
    expect(page.locator(".wire-on")).to_contain_text("left courtesy lamp")


def test_a_build_without_wiring_says_where_to_begin(
    example: Path, serve: Serve, visit: Visit
) -> None:
    address = serve(example)
    page = visit(address, 390)
    page.goto("/".join([*address.split("/")[:3], example.stem, "wire"]))
    expect(page.get_by_text("Nothing is wired yet")).to_be_visible()
