"""The meter at the car: one reading after the other, judged at once, a wrong one followed up."""

import shutil
from pathlib import Path
from typing import Literal

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Serve, Visit
from tests.browser.test_wire import WIRED
from tests.browser.usable import in_the_way
from trimwright.build import parse


@pytest.fixture
def wired(tmp_path: Path) -> Path:
    """Return a copy of the example car's electrics."""
    path = tmp_path / "wired.yaml"
    shutil.copy(WIRED, path)
    return path


def _meter(page: Page, address: str) -> None:
    page.goto("/".join([*address.split("/")[:3], "wired", "wire"]))
    page.get_by_role("button", name="Meter", exact=True).click()
    expect(page.locator(".meter-field")).to_be_visible()


def _read(path: Path) -> dict[str, float]:
    wiring = parse(path.read_text("utf-8")).build.wiring
    assert wiring is not None
    return {one.reading: one.reads.value for one in wiring.readings}


def _sound(page: Page) -> str:
    """Return a figure in the middle of what is expected, with a comma."""
    low, high = page.locator(".meter-entry label b").inner_text().removesuffix(" V").split(" to ")
    return f"{(float(low) + float(high)) / 2:.1f}".replace(".", ",")


@pytest.mark.parametrize(("width", "light"), [(390, "light"), (390, "dark"), (1280, "light")])
def test_readings_go_in_one_after_the_other(
    wired: Path, serve: Serve, visit: Visit, width: int, light: Literal["light", "dark"]
) -> None:
    address = serve(wired)
    page = visit(address, width, light)
    _meter(page, address)
    first = page.locator(".meter-head h3").inner_text()
    field = page.get_by_label("Read, expected")
    assert field.get_attribute("inputmode") == "decimal"
    assert in_the_way(page, ".wire-work") == []
    field.fill(_sound(page))
    field.press("Enter")
    expect(page.locator(".meter-passed")).to_contain_text(f"{first} ")
    expect(page.locator(".meter-head h3")).not_to_have_text(first)
    expect(field).to_be_focused()
    expect(field).to_have_value("")
    assert list(_read(wired)) == [first]
    second = page.locator(".meter-head h3").inner_text()
    field.fill("-0,4")
    page.get_by_role("button", name="Next", exact=True).click()
    expect(page.locator(".meter-likely")).to_contain_text("is not as expected")
    expect(page.locator(".meter-head h3")).to_have_text(second)
    assert _read(wired)[second] == -0.4
    assert in_the_way(page, ".wire-work") == []


def test_a_likely_fault_is_tried_on_the_diagram_and_the_following_reading_is_one_tap_away(
    wired: Path, serve: Serve, visit: Visit
) -> None:
    address = serve(wired)
    page = visit(address, 390)
    _meter(page, address)
    name = page.locator(".meter-head h3").inner_text()
    page.get_by_label("Read, expected").fill("0")
    page.get_by_role("button", name="Next", exact=True).click()
    suspect = page.locator(".meter-likely li button").first
    said = suspect.locator("span").first.inner_text()
    suspect.click()
    told = page.get_by_label("Fault tried")
    expect(told).to_contain_text(said)
    expect(told).to_contain_text(name)
    expect(page.locator(".fault-struck")).to_be_attached()
    page.get_by_role("button", name="Meter", exact=True).click()
    page.locator(".meter-following").click()
    expect(page.locator(".meter-head h3")).not_to_have_text(name)


def test_the_sign_is_turned_by_a_key_and_what_is_no_voltage_stays_in_the_field(
    wired: Path, serve: Serve, visit: Visit
) -> None:
    address = serve(wired)
    page = visit(address, 390)
    _meter(page, address)
    field = page.get_by_label("Read, expected")
    field.fill("12,1")
    page.get_by_role("button", name="Turn the sign").click()
    expect(field).to_have_value("−12,1")  # noqa: RUF001  the minus that is shown
    field.fill("twelve")
    field.press("Enter")
    expect(page.locator(".meter-wrong")).to_contain_text("twelve is no voltage")
    expect(field).to_have_value("twelve")
    field.fill("230")
    field.press("Enter")
    expect(page.locator(".meter-wrong")).to_contain_text("at most 60 V")
    expect(field).to_have_value("230")
    assert _read(wired) == {}


def test_a_reading_is_undone_and_taken_out(wired: Path, serve: Serve, visit: Visit) -> None:
    address = serve(wired)
    page = visit(address, 1280)
    _meter(page, address)
    field = page.get_by_label("Read, expected")
    name = page.locator(".meter-head h3").inner_text()
    field.fill("0")
    field.press("Enter")
    expect(page.locator(".meter-likely")).to_be_visible()
    page.get_by_role("button", name=f"Undo: Meter at {name}: 0 V").click()
    expect(page.locator(".meter-likely")).to_have_count(0)
    expect(field).to_have_value("")
    assert _read(wired) == {}
    field.fill("1")
    field.press("Enter")
    expect(page.locator(".meter-likely")).to_be_visible()
    page.get_by_role("button", name="Take this reading out").click()
    expect(page.locator(".meter-likely")).to_have_count(0)
    assert _read(wired) == {}


def test_readings_taken_out_of_hearing_go_in_each_by_itself(
    wired: Path, serve: Serve, visit: Visit
) -> None:
    address = serve(wired)
    page = visit(address, 390)
    _meter(page, address)
    field = page.get_by_label("Read, expected")
    names = []
    page.route("**/api/builds/**", lambda route: route.abort())
    for volts in ("11,9", "12"):
        names.append(page.locator(".meter-head h3").inner_text())
        field.fill(volts)
        field.press("Enter")
        expect(page.locator(".meter-passed")).to_contain_text(f"{names[-1]} is kept here")
    page.unroute("**/api/builds/**")
    page.reload()
    page.get_by_role("button", name="Meter", exact=True).click()
    page.locator(".meter-all summary").click()
    expect(page.locator(".meter-all .mark")).to_have_count(2)
    assert _read(wired) == {names[0]: 11.9, names[1]: 12.0}
