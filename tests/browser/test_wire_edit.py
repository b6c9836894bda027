"""The wiring changed where it is drawn: a part's fields, a new load with its circuit, a path by its stops."""

import re
import shutil
from functools import partial
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Serve, Visit
from tests.browser.test_wire import WIRED, turn_to
from tests.browser.usable import in_the_way
from trimwright.build import Build, load


@pytest.fixture
def wired(tmp_path: Path) -> Path:
    """Return a copy of the example car's electrics."""
    path = tmp_path / "wired.yaml"
    shutil.copy(WIRED, path)
    return path


def _turned(page: Page, address: str, to: str = "change it") -> None:
    page.goto("/".join([*address.split("/")[:3], "wired", "wire"]))
    expect(page.locator(".wire-ground svg")).to_be_visible()
    page.get_by_role("button", name=to).click()
    expect(page.get_by_text("Tap a part where it is drawn")).to_be_visible()


def _until(page: Page, path: Path, held: str) -> Build:
    """Wait until a file holds some words, and return the build it then is."""
    for _ in range(500):
        if held in path.read_text("utf-8"):
            return load(path).build
        page.wait_for_timeout(20)
    raise AssertionError(f"{held} was never written")


@pytest.mark.parametrize("width", [390, 1280])
def test_a_part_is_changed_where_it_is_drawn(
    wired: Path, serve: Serve, visit: Visit, width: int
) -> None:
    address = serve(wired)
    page = visit(address, width)
    _turned(page, address)
    turn_to(page, wired, "part fog lamps")
    drawn = page.locator('g[data-of="part fog lamps"]').first
    drawn.scroll_into_view_if_needed()
    box = drawn.bounding_box()
    assert box is not None
    page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    slip = page.get_by_role("article", name="fog lamps, load")
    expect(slip).to_be_visible()
    expect(drawn).to_have_class(re.compile(r"\bhand\b"))
    before = wired.read_text("utf-8")
    takes = slip.get_by_label("takes", exact=True)
    takes.fill("soup")
    takes.press("Enter")
    expect(slip.get_by_role("alert")).to_contain_text("soup")  # beside its own field
    assert wired.read_text("utf-8") == before
    takes.fill("100 W")
    takes.press("Enter")
    _until(page, wired, "takes: 100 W")
    page.get_by_role("button", name="Undo").click()
    _until(page, wired, "takes: 110 W")
    assert wired.read_text("utf-8") == before


def test_a_load_is_added_from_the_keyboard_and_its_circuit_drawn(
    wired: Path, serve: Serve, visit: Visit
) -> None:
    address = serve(wired)
    page = visit(address, 1280)
    _turned(page, address)
    page.get_by_role("button", name="load", exact=True).focus()
    page.keyboard.press("Enter")
    slip = page.get_by_role("article", name="A new load")
    slip.get_by_label("name").fill("reading lamp")
    slip.get_by_role("button", name="LED", exact=True).press("Enter")
    slip.get_by_label("takes").fill("3 W")
    slip.get_by_label("at", exact=True).select_option("console")
    slip.get_by_label("worked by").fill("reading switch")
    slip.get_by_role("button", name="Write the load down").press("Enter")
    draw = page.get_by_role("button", name="Draw its circuit")
    draw.press("Enter")
    wiring = _until(page, wired, "reading lamp fuse").wiring
    assert wiring is not None
    (path,) = (one for one in wiring.paths if one.name == "reading lamp")
    assert path.goes[-2] == "reading lamp"
    expect(draw).to_be_hidden()
    expect(page.locator('.wire-ground g.hand[data-of="part reading lamp"]').first).to_be_visible()
    expect(page.get_by_role("article", name="reading lamp, load")).to_be_visible()


def test_a_path_is_chosen_stop_by_stop(wired: Path, serve: Serve, visit: Visit) -> None:
    address = serve(wired)
    page = visit(address, 390)
    _turned(page, address)
    page.get_by_role("button", name="current path", exact=True).click()
    slip = page.get_by_role("article", name="A new current path")
    slip.get_by_label("name").fill("horn spare")
    choice = slip.get_by_role("group", name="What comes next")
    choice.get_by_role("button", name=re.compile("^always")).click()
    choice.get_by_role("button", name=re.compile("^fuse 13")).click()  # through it, or one terminal
    choice.get_by_role("button", name=re.compile("^fuse 13 through it")).click()
    choice.locator("summary", has_text="relays").click()
    choice.get_by_role("button", name=re.compile("^horn relay")).click()
    choice.get_by_role("button", name=re.compile("^horn relay 86-85")).click()
    choice.get_by_role("button", name=re.compile(r"^dash stud\b(?! 2)")).click()
    expect(slip.get_by_text("A path ends at its ground.")).to_be_visible()
    slip.get_by_role("button", name="Write the current path down").click()
    wiring = _until(page, wired, "horn spare").wiring
    assert wiring is not None
    assert wiring.paths[-1].goes == ("always", "fuse 13", "horn relay 86-85", "dash stud")
    slip = page.get_by_role("article", name="horn spare, current path")
    slip.get_by_role("button", name="Take out fuse 13").click()
    expect(slip.locator(".stop-row b")).to_have_text(["always", "horn relay 86-85", "dash stud"])
    wiring = load(wired).build.wiring
    assert wiring is not None
    assert wiring.paths[-1].goes == ("always", "horn relay 86-85", "dash stud")


def test_where_nothing_is_wired_a_load_begins_it(example: Path, serve: Serve, visit: Visit) -> None:
    address = serve(example)
    page = visit(address, 390)
    page.goto("/".join([*address.split("/")[:3], example.stem, "wire"]))
    page.get_by_role("button", name="change it").click()
    page.get_by_role("button", name="load", exact=True).click()
    slip = page.get_by_role("article", name="A new load")
    slip.get_by_label("name").fill("map lamp")
    slip.get_by_role("button", name="lamp", exact=True).click()
    slip.get_by_label("takes").fill("5 W")
    slip.get_by_role("button", name="Write the load down").click()
    page.get_by_role("button", name="Draw its circuit").click()
    wiring = _until(page, example, "map lamp fuse").wiring
    assert wiring is not None
    assert wiring.paths[-1].name == "map lamp"
    expect(page.locator('g[data-of="part map lamp"]').first).to_be_visible()


@pytest.mark.parametrize("width", [390, 1280])
def test_a_trunk_and_a_place_are_taken_from_the_plan(
    wired: Path, serve: Serve, visit: Visit, width: int
) -> None:
    address = serve(wired)
    page = visit(address, width)
    _turned(page, address, "from above")
    trunk = page.locator('.plan g[data-of="trunk 1"]').first
    trunk.scroll_into_view_if_needed()
    box = trunk.bounding_box()
    assert box is not None
    page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    slip = page.get_by_role("article", name="engine bay to fuse box, trunk")
    expect(slip).to_contain_text(re.compile(r"hole \d\d mm"))
    expect(slip.get_by_role("row", name=re.compile("^fog lamps 2"))).to_contain_text("6 mm²")
    expect(trunk).to_have_class(re.compile(r"\bhand\b"))
    hole = slip.get_by_label("hole", exact=True)
    hole.fill("31")
    hole.press("Enter")
    _until(page, wired, "hole: 31")
    expect(page.locator(".plan")).to_contain_text("hole 31 mm")
    place = page.locator('.plan g[data-of="place boot"]').first
    place.scroll_into_view_if_needed()
    box = place.bounding_box()
    assert box is not None
    page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.get_by_role("button", name="amplifier load").click()
    expect(page.get_by_role("article", name="amplifier, load")).to_be_visible()


def test_a_place_that_is_not_measured_is_named_and_offered(
    wired: Path, serve: Serve, visit: Visit
) -> None:
    wired.write_text(
        wired.read_text("utf-8").replace("{name: tank, at: 2050 behind, ", "{name: tank, "), "utf-8"
    )
    address = serve(wired)
    page = visit(address, 390)
    _turned(page, address, "from above")
    page.get_by_role("button", name="tank", exact=True).click()
    field = page.get_by_role("article", name="tank, place").get_by_label("at", exact=True)
    field.fill("2050 behind")
    field.press("Enter")
    expect(page.locator('.plan g[data-of="place tank"]').first).to_be_visible()
    expect(page.get_by_role("button", name="tank", exact=True)).to_be_hidden()


def test_a_fuse_is_called_otherwise_everywhere_and_taken_out_with_a_word(
    wired: Path, serve: Serve, visit: Visit
) -> None:
    address = serve(wired)
    page = visit(address, 390)
    _turned(page, address)
    page.locator("summary", has_text="fuses").click()
    page.get_by_role("button", name=re.compile("^fuse 13")).click()
    before = wired.read_text("utf-8")
    expect(page.locator('.wire-ground g[data-of="part fuse 13"]').first).to_be_attached()
    name = page.get_by_label("name", exact=True)
    name.fill("fuse 12")
    name.press("Enter")
    expect(page.get_by_role("alert")).to_contain_text("a name that nothing else has")
    assert wired.read_text("utf-8") == before
    name.fill("horn fuse")
    name.press("Enter")
    build = _until(page, wired, "goes: [always, horn fuse,")
    assert build.wiring is not None
    assert "fuse 13" not in wired.read_text("utf-8")
    slip = page.get_by_role("article", name="horn fuse, fuse")
    slip.get_by_role("button", name="Take it out").click()
    expect(slip.get_by_role("status")).to_have_text("Its wires are joined in horn, horn worked.")
    slip.get_by_role("button", name="Take horn fuse out").click()
    _until(page, wired, "goes: [always, horn relay")
    assert "horn fuse" not in wired.read_text("utf-8")
    for _ in range(2):
        page.get_by_role("button", name="Undo").click()
        page.wait_for_timeout(600)
    _until(page, wired, "goes: [always, fuse 13,")
    assert wired.read_text("utf-8") == before


def test_a_place_that_is_needed_says_by_what(wired: Path, serve: Serve, visit: Visit) -> None:
    address = serve(wired)
    page = visit(address, 1280)
    _turned(page, address)
    page.locator("summary", has_text="places").click()
    page.get_by_role("button", name="tank", exact=True).click()
    page.get_by_role("button", name="Take it out").click()
    expect(page.get_by_role("article").get_by_role("status")).to_contain_text(
        "Named by the trunk boot to tank, fuel pump"
    )
    expect(page.get_by_role("button", name="Take tank out")).to_be_hidden()


def _look(page: Page, found: dict[str, list[str]], state: str) -> None:
    """Note what is in anybody's way in a state of the slip, by day and night."""
    for light in ("light", "dark"):
        page.emulate_media(color_scheme=light)
        if wrong := in_the_way(page, ".part-scroll"):
            found[f"{state}, {light}"] = wrong


@pytest.mark.parametrize("width", [390, 1280])
def test_fingers_and_eyes_have_room_in_every_state(
    wired: Path, serve: Serve, visit: Visit, width: int
) -> None:
    wired.write_text(
        wired.read_text("utf-8").replace("{name: tank, at: 2050 behind, ", "{name: tank, "), "utf-8"
    )
    address = serve(wired)
    page = visit(address, width)
    _turned(page, address)
    found: dict[str, list[str]] = {}
    look = partial(_look, page, found)
    page.locator("summary", has_text="current paths").click()
    look("all parts")
    page.get_by_role("button", name="fog switch", exact=True).click()
    page.get_by_role("button", name="Put a stop in before fog switch").click()
    choice = page.get_by_role("group", name="What comes next")
    choice.locator("summary", has_text="relays").click()
    choice.get_by_role("button", name=re.compile("^horn relay")).click()
    look("a path and its next stop")
    page.get_by_role("button", name="All parts").click()
    page.get_by_role("button", name="load", exact=True).click()
    look("a new load")
    page.get_by_role("button", name="All parts").click()
    page.locator("summary", has_text="fuses").click()
    page.get_by_role("button", name=re.compile("^fuse 13")).click()
    page.get_by_label("name", exact=True).fill("fuse 12")
    page.get_by_role("button", name="Call it fuse 12").click()
    page.get_by_role("button", name="Take it out").click()
    expect(page.get_by_role("button", name="Take fuse 13 out")).to_be_visible()
    look("a fuse on its way out")
    page.get_by_role("button", name="from above").click()
    expect(page.locator(".plan svg")).to_be_visible()
    page.get_by_role("button", name="tank", exact=True).click()
    look("from above")
    assert found == {}
