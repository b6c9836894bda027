"""Whether everybody can use what a page shows: fingers, eyes, and no words beside the sheet."""

from playwright.sync_api import Page

from tests.browser.test_labels import AXE, FINGER_PX, GRAVE, REACH, ROUNDING_PX, RUN_AXE


def in_the_way(page: Page, within: str) -> list[str]:
    """Return what is too small for a finger inside a place, what runs over, and what axe finds grave."""
    wide, room = page.evaluate("[document.documentElement.scrollWidth, innerWidth]")
    found = [f"the page is {wide} px wide in {room}"] if wide > room else []
    inside = page.locator(within)
    over = "(top) => [...top.querySelectorAll('*')].filter((one) => !one.closest('svg') && one.clientWidth > 0 && getComputedStyle(one).display !== 'inline' && one.scrollWidth > one.clientWidth + 1).map((one) => one.outerHTML.slice(0, 80))"
    found += [f"runs over: {one}" for one in inside.evaluate(over)]
    found += [
        f"{one['name']}: {one['wide']} x {one['high']}"
        for one in page.evaluate(REACH)
        if min(one["wide"], one["high"]) < FINGER_PX - ROUNDING_PX
    ]
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE.read_text("utf-8"))
    return found + [
        f"{one['id']}: {node['target']}"
        for one in page.evaluate(RUN_AXE, None)["violations"]
        if one["impact"] in GRAVE
        for node in one["nodes"]
    ]
