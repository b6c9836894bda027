"""The page's look, read off what the browser set: words, touch, colours' contrast, stillness, focus.

One tour through every place; at each stop everything is read at every width, by day and night.
"""

from collections import defaultdict
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, ViewportSize, expect

from tests.browser.boxes import faults
from tests.browser.conftest import EXAMPLE, PATIENCE_MS, served
from tests.browser.tour import tour
from tests.invented_names import LONG, NAMES, renamed

SIZES = {320: 640, 390: 844, 768: 1024, 1024: 768, 1280: 800, 1600: 1000}
PHONE, DESK = 390, 1280
LIGHTS = ("day", "night")
FINGER_PX = 40
ROUNDING_PX = 1
MOST_SHIFT = 0.02
GRAVE = ("serious", "critical")
AXE = Path(__file__).resolve().parents[2] / "web/node_modules/axe-core/axe.min.js"
REACH = (Path(__file__).parent / "reach.js").read_text("utf-8")
SHIFTS = """
window.shifted = 0;
new PerformanceObserver((list) => {
  for (const one of list.getEntries()) if (!one.hadRecentInput) window.shifted += one.value;
}).observe({ type: "layout-shift", buffered: true });
"""
# what has the focus now: whether it had it before, comes in the page's order, and shows it
FOCUSED = """
() => {
  const one = document.activeElement;
  if (one === null || one === document.body || one.dataset.reached) return null;
  const last = window.tabbed;
  window.tabbed = one;
  one.dataset.reached = "yes";
  const after = !last?.isConnected || Boolean(last.compareDocumentPosition(one) & Node.DOCUMENT_POSITION_FOLLOWING);
  const drawn = [one, one.closest("label"), one.querySelector(".handle-mark")].filter(Boolean);
  const rings = drawn.map((part) => getComputedStyle(part)).some((style) =>
    (style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2)
    || parseFloat(style.borderTopWidth) >= 2 || parseFloat(style.borderBottomWidth) >= 2
    || (style.strokeWidth === "3px" && style.stroke !== "none"));
  const box = one.getBoundingClientRect();
  const inside = box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth;
  const name = one.getAttribute("aria-label") ?? one.textContent.trim();
  return [`${one.tagName.toLowerCase()} '${name.slice(0, 40)}'`, after, rings && inside];
}
"""
MISSED = """
() => {
  const sheet = document.querySelector("dialog:modal");
  const kinds = "button, a[href], input:not([type='radio']), select, textarea, summary, [tabindex]";
  const wanted = [...(sheet ?? document).querySelectorAll(kinds)].filter((one) =>
    one.tabIndex >= 0 && !one.disabled && !one.dataset.reached && one.checkVisibility({ visibilityProperty: true }));
  return wanted.map((one) => `${one.tagName.toLowerCase()} '${(one.getAttribute("aria-label") ?? one.textContent).trim().slice(0, 40)}'`);
}
"""
FROM_THE_TOP = """
() => {
  window.tabbed = null;
  for (const one of document.querySelectorAll("[data-reached]")) delete one.dataset.reached;
  if (document.querySelector("dialog:modal")?.contains(document.activeElement)) {
    document.activeElement.dataset.reached = "yes"; // where a sheet that rises puts it
    return;
  }
  document.body.tabIndex = -1;
  document.body.focus();
  document.body.removeAttribute("tabindex");
}
"""
RUN_AXE = """
(only) => axe.run(document, { resultTypes: ["violations"], ...(only && { runOnly: { type: "rule", values: only } }) })
"""
SAME_KEYS = {
    "section",
    "plan",
    "figure",
    "notes",
}  # stops where the tabulator finds what 'fit' holds
MOST_FAULTS = 10
SETTLED = "new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 10))))"
# narrower than a finger, and what else does the same
NARROW = {
    "handle": "half the way to the next one; its figure is typed, and arrow keys move it",
    "notch": "one of many on a rule; the list over '7 of 23' takes any reading in hand",
    "word": "stands in a sentence: the room around it answers as far as nothing else does",
    "plane": "a slider: it is dragged along the whole view",
    "gap": "the finding's line in the slip takes it in hand as well",
    "size": "the sheet 'fields' holds every figure with room for a finger",
}

Told = dict[str, dict[str, list[str]]]


@pytest.fixture(scope="module")
def told(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Told]:
    """Return what is wrong at any stop of the tour: by what was looked at, then by fault."""
    folder = tmp_path_factory.mktemp("shelf")
    text = EXAMPLE.read_text("utf-8")
    (folder / "demo.yaml").write_text(text, "utf-8")
    (folder / "long.yaml").write_text(renamed(text), "utf-8")
    found: Told = defaultdict(lambda: defaultdict(list))
    expect.set_options(timeout=PATIENCE_MS)
    with ExitStack() as until_the_end:
        address = until_the_end.enter_context(served(folder))
        context = browser.new_context(viewport=_size(DESK))
        until_the_end.callback(context.close)
        context.add_init_script(SHIFTS)
        page = context.new_page()
        page.set_default_timeout(PATIENCE_MS)
        page.goto(address)
        bench = address.partition("/?")[0]
        for build, width in (("demo", PHONE), ("long", DESK)):
            _arrivals(page, f"{bench}/{build}/fit", width, found)
            page.set_viewport_size(_size(DESK))
            for stop in tour(page, bench, build):
                _look(page, f"{stop} of {build}", found)
                if build == "demo":
                    _use(page, stop, found)
                page.set_viewport_size(_size(DESK))
        yield found


def _size(width: int) -> ViewportSize:
    return {"width": width, "height": SIZES[width]}


def _none(found: dict[str, list[str]]) -> None:
    """Fail with each fault, where it was seen first, and how often."""
    lines = [f"{fault} [{where[0]}; {len(where)} in all]" for fault, where in found.items()]
    if lines:
        pytest.fail("\n".join(lines), pytrace=False)


def _arrivals(page: Page, address: str, width: int, found: Told) -> None:
    """Watch the findings arrive at a page that was just opened."""
    page.set_viewport_size(_size(width))
    page.goto(address)
    expect(page.get_by_role("table")).to_be_attached()
    shifted = page.evaluate("window.shifted")
    if shifted > MOST_SHIFT:
        found["shift"][f"{shifted:.3f} of the page moved"].append(f"{width} px")


def _look(page: Page, stop: str, found: Told) -> None:
    """Read where the words stand at every width, by day and night."""
    for width in SIZES:
        page.set_viewport_size(_size(width))
        for light in LIGHTS:
            _light(page, light)
            for fault in faults(page):
                found["words"][fault].append(f"{stop}, {width} px, {light}")


def _use(page: Page, stop: str, found: Told) -> None:
    """Read whether everybody can use what is there, on a phone and on a desk."""
    for width in (PHONE, DESK):
        page.set_viewport_size(_size(width))
        for light in LIGHTS:
            _light(page, light)
            for fault in _axe(page, light):
                found["access"][fault].append(f"{stop}, {width} px, {light}")
        if width == PHONE:
            for fault in _narrow(page):
                found["touch"][fault].append(stop)
        elif stop not in SAME_KEYS:
            for fault in _tabbed(page):
                found["focus"][fault].append(stop)


def _light(page: Page, light: str) -> None:
    """Turn to day or night, and wait until the drawings have the room they will have."""
    page.evaluate("(light) => { document.documentElement.dataset.light = light }", light)
    page.evaluate(SETTLED)


def _axe(page: Page, light: str) -> list[str]:
    """Return what axe-core finds that is grave; by night only in colours, as nothing else changes."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE.read_text("utf-8"))
    result = page.evaluate(RUN_AXE, None if light == "day" else ["color-contrast"])
    return [
        f"{one['id']}: {node['target']} {node['failureSummary'].splitlines()[-1].strip()}"
        for one in result["violations"]
        if one["impact"] in GRAVE
        for node in one["nodes"]
    ]


def _narrow(page: Page) -> list[str]:
    """Return what is narrower or lower than a finger, with its size."""
    return [
        f"{one['name']}: {one['wide']} x {one['high']}"
        for one in page.evaluate(REACH)
        if min(one["wide"], one["high"]) < FINGER_PX - ROUNDING_PX
        and not any(name in one["kind"].split() for name in NARROW)
    ]


def _tabbed(page: Page) -> list[str]:
    """Return what the tabulator does not reach, reaches out of order, or does not show."""
    page.evaluate(FROM_THE_TOP)
    found: list[str] = []
    while len(found) <= MOST_FAULTS:
        page.keyboard.press("Tab")
        told = page.evaluate(FOCUSED)
        if told is None:
            break
        name, after, seen = told
        if not after:
            found.append(f"{name} comes after what stands behind it")
        if not seen:
            found.append(f"{name} does not show that it has the focus")
    return found + [f"{name} is not reached" for name in page.evaluate(MISSED)[:MOST_FAULTS]]


def test_no_words_meet_and_none_are_clipped(told: Told) -> None:
    _none(told["words"])


def test_nothing_grave_stands_in_the_way_of_anybody(told: Told) -> None:
    _none(told["access"])


def test_a_finger_meets_everything_on_a_phone(told: Told) -> None:
    _none(told["touch"])


def test_the_tabulator_goes_through_the_page_in_its_order_and_is_seen(told: Told) -> None:
    _none(told["focus"])


def test_nothing_moves_while_findings_arrive(told: Told) -> None:
    _none(told["shift"])


def test_the_names_are_as_long_as_builders_make_them() -> None:
    assert {len(name) for name in NAMES.values()} == {LONG}
