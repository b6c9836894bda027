"""What is drawn can be dragged by mouse, finger and arrow keys, with live figures."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.conftest import Serve, Visit

Drag = Callable[[Page, tuple[float, float], float], None]
HEIGHT = "{at: 60 behind, height: "


def handle(page: Page) -> Locator:
    """Return a handle of the deck, the findings told."""
    slip = page.get_by_role("complementary", name="What needs a hand")
    expect(slip.get_by_role("article").first).to_be_visible()
    return page.get_by_role("slider", name=re.compile("^Move deck, 60 mm behind"))


def middle(found: Locator) -> tuple[float, float]:
    """Return where a handle's middle is on the screen."""
    box = found.locator(".handle-mark").bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def mouse(page: Page, at: tuple[float, float], down: float) -> None:
    """Drag with the mouse, and look at what is live before it is let go."""
    page.mouse.move(*at)
    page.mouse.down()
    for step in range(1, 11):
        page.mouse.move(at[0], at[1] + down * step / 10)
    expect(page.locator(".live .nearest")).to_be_visible()
    expect(page.locator(".changed .red-line").first).to_be_attached()
    page.mouse.up()


def finger(page: Page, at: tuple[float, float], down: float) -> None:
    """Drag with a finger."""
    hand = page.context.new_cdp_session(page)
    hand.send("Emulation.setTouchEmulationEnabled", {"enabled": True})

    def touch(kind: str, y: float) -> None:
        points = [] if kind == "touchEnd" else [{"x": at[0], "y": y}]
        hand.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    touch("touchStart", at[1])
    for step in range(1, 11):
        touch("touchMove", at[1] + down * step / 10)
    expect(page.locator(".live .nearest")).to_be_visible()
    touch("touchEnd", at[1] + down)


@pytest.mark.parametrize(("width", "drag"), [(1280, mouse), (390, finger)])
def test_a_point_of_the_deck_is_dragged_and_undone(
    example: Path, serve: Serve, visit: Visit, width: int, drag: Drag
) -> None:
    before = example.read_bytes()
    page = visit(serve(example), width)
    found = handle(page)
    drag(page, middle(found), 8.0)
    undo = page.get_by_role("button", name=re.compile("^Undo"))
    expect(undo).to_be_visible()
    lowered = re.search(re.escape(HEIGHT) + r"([\d.]+) mm}", example.read_text("utf-8"))
    assert lowered is not None
    assert float(lowered.group(1)) < 208
    undo.click()
    expect(undo).to_be_hidden()
    assert example.read_bytes() == before


def test_arrow_keys_move_it_enter_writes_escape_leaves(
    example: Path, serve: Serve, visit: Visit
) -> None:
    before = example.read_bytes()
    page = visit(serve(example), 1280)
    found = handle(page)
    found.focus()
    page.keyboard.press("ArrowUp")
    expect(page.locator(".live")).to_be_visible()
    page.keyboard.press("Escape")
    expect(page.locator(".live")).to_be_hidden()
    assert example.read_bytes() == before
    for _ in range(3):
        page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name=re.compile("^Undo"))).to_be_visible()
    assert HEIGHT + "205 mm}" in example.read_text("utf-8")


def test_with_shift_an_arrow_key_takes_ten_at_once(
    example: Path, serve: Serve, visit: Visit
) -> None:
    page = visit(serve(example), 1280)
    handle(page).focus()
    page.keyboard.press("Shift+ArrowDown")
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name=re.compile("^Undo"))).to_be_visible()
    assert HEIGHT + "198 mm}" in example.read_text("utf-8")


def test_a_tap_writes_nothing(example: Path, serve: Serve, visit: Visit) -> None:
    before = example.read_bytes()
    page = visit(serve(example), 1280)
    page.mouse.move(*middle(handle(page)))
    page.mouse.down()
    page.mouse.up()
    expect(page.locator(".live")).to_be_hidden()
    expect(page.locator(".handle.held")).to_have_count(0)
    assert example.read_bytes() == before


def test_an_end_goes_along_the_car_only(example: Path, serve: Serve, visit: Visit) -> None:
    page = visit(serve(example), 1280)
    handle(page)
    end = page.get_by_role("slider", name="Move rear end")
    at = middle(end)
    page.mouse.move(*at)
    page.mouse.down()
    page.mouse.move(at[0] - 6, at[1] + 30, steps=6)
    expect(page.locator(".live")).to_be_visible()
    now = middle(end)
    page.keyboard.press("Escape")
    page.mouse.up()
    assert now[0] < at[0] - 3
    assert now[1] == pytest.approx(at[1], abs=1)
