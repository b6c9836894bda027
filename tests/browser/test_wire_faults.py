"""Faults tried on the diagram: by tap and by keys, told and marked, put right by one tap; rules replayed."""

import re
import shutil
from pathlib import Path
from typing import Literal

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Serve, Visit
from tests.browser.test_wire import INKED, WIRED, turn_to
from tests.browser.usable import in_the_way

BROKEN = "    - {never: fog lamps, while: [engine stopped]}\n"


@pytest.fixture
def wired(tmp_path: Path) -> Path:
    """Return a copy of the example car's electrics, with a rule that it breaks."""
    path = tmp_path / "wired.yaml"
    shutil.copy(WIRED, path)
    text = path.read_text("utf-8").rstrip() + "\n"
    assert "  rules:\n" in text
    path.write_text(text.replace("  rules:\n", f"  rules:\n{BROKEN}"), "utf-8")
    return path


def _sheet(page: Page, address: str) -> None:
    page.goto("/".join([*address.split("/")[:3], "wired", "wire"]))
    expect(page.locator(".wire-ground svg")).to_be_visible()
    expect(page.get_by_label("Tap a part of the drawing")).to_be_visible()


def _tap(page: Page, named: str) -> None:
    """Tap a finger's breadth beside the middle of what is drawn: a wire is a thin line."""
    line = page.locator(f'g[data-of="{named}"] :is(path, line, polyline)').first
    box = line.bounding_box()
    assert box is not None
    page.mouse.click(box["x"] + box["width"] / 2 + 5, box["y"] + box["height"] / 2)


@pytest.mark.parametrize(("width", "light"), [(390, "light"), (1280, "light"), (1280, "dark")])
def test_a_part_that_is_tapped_shows_its_faults_and_one_that_is_on_is_crossed(
    wired: Path, serve: Serve, visit: Visit, width: int, light: Literal["light", "dark"]
) -> None:
    address = serve(wired)
    page = visit(address, width, light)
    _sheet(page, address)
    turn_to(page, wired, "contact fog switch")
    page.locator('g[data-of="contact fog switch"]').first.dispatch_event("click")
    lamp = page.locator('g[data-of="part fog lamps"]').first
    expect(lamp).to_have_class(INKED)
    choices = page.get_by_role("group", name="fog switch")
    expect(choices.get_by_role("button")).to_have_text(
        [re.compile("^Work it"), "fog switch welded", "fog switch not closing"]
    )
    choices.get_by_role("button", name="fog switch not closing").click()
    told = page.get_by_label("Fault tried")
    expect(told).to_contain_text("Works no more")
    expect(told).to_contain_text("fog lamps")
    expect(lamp).not_to_have_class(INKED)
    expect(page.locator('g[data-of="contact fog switch"] .fault-struck')).to_be_attached()
    assert in_the_way(page, ".wire-work") == []
    page.get_by_role("button", name="Put it right").click()
    expect(lamp).to_have_class(INKED)
    expect(page.locator(".fault-struck")).to_have_count(0)


def test_a_thin_wire_is_met_by_a_finger_beside_it(wired: Path, serve: Serve, visit: Visit) -> None:
    address = serve(wired)
    page = visit(address, 1280)
    _sheet(page, address)
    turn_to(page, wired, "wire main feed 2")
    _tap(page, "wire main feed 2")
    expect(page.get_by_role("group", name="main feed 2")).to_be_visible()


def test_keys_alone_try_a_fault_and_put_it_right(wired: Path, serve: Serve, visit: Visit) -> None:
    address = serve(wired)
    page = visit(address, 1280)
    _sheet(page, address)
    page.get_by_label("Tap a part of the drawing").focus()
    page.keyboard.type("tail stud")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    told = page.get_by_label("Fault tried")
    expect(told).to_contain_text("tail stud lost")
    expect(page.locator(".wire-pages [aria-pressed='true']")).not_to_have_text(
        re.compile("page 1 of")
    )
    told.get_by_role("button", name="Put it right").focus()
    page.keyboard.press("Enter")
    expect(told).to_have_count(0)


def test_a_blown_fuse_tells_what_dies_with_it(wired: Path, serve: Serve, visit: Visit) -> None:
    address = serve(wired)
    page = visit(address, 390)
    _sheet(page, address)
    page.get_by_label("Tap a part of the drawing").select_option("fuse 3")
    page.get_by_role("button", name="fuse 3 blown").click()
    expect(page.get_by_label("Fault tried")).to_contain_text("Goes with it, in any state")


@pytest.mark.parametrize("width", [390, 1280])
def test_a_broken_rule_is_stepped_forward_and_back(
    wired: Path, serve: Serve, visit: Visit, width: int
) -> None:
    address = serve(wired)
    page = visit(address, width)
    _sheet(page, address)
    page.get_by_role("button", name="Show how it breaks").click()
    told = page.get_by_label("How the rule breaks")
    lamp = page.locator('g[data-of="part fog lamps"]').first
    expect(told).to_contain_text("Here the rule is broken")
    expect(told).to_contain_text("Step 2 of 2")
    expect(lamp).to_have_class(INKED)
    assert in_the_way(page, ".wire-work") == []
    told.get_by_role("button", name="Back").click()
    expect(told).to_contain_text("Step 1 of 2")
    expect(told).not_to_contain_text("Here the rule is broken")
    expect(lamp).not_to_have_class(INKED)
    page.keyboard.press("ArrowLeft")
    expect(told).to_contain_text("All at rest")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    expect(lamp).to_have_class(INKED)
    told.get_by_role("button", name="Leave it").click()
    expect(told).to_have_count(0)
    expect(lamp).not_to_have_class(INKED)


def test_a_finding_of_a_broken_rule_opens_the_diagram_on_its_steps(
    wired: Path, serve: Serve, visit: Visit
) -> None:
    address = serve(wired)
    page = visit(address, 1280)
    line = page.locator('[id="line-interlock|never fog lamps"] .line-head')
    expect(line).to_have_attribute("aria-expanded", "true")  # the one stop there is, in hand
    page.get_by_role("button", name="Step through it on the diagram").click()
    expect(page.get_by_label("How the rule breaks")).to_contain_text("Here the rule is broken")
    expect(page.get_by_label("How the rule breaks")).to_contain_text("Fog lamps never on")
