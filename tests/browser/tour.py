"""Every place and sheet of the page in turn, each as a builder would come to it."""

import re
from collections.abc import Iterator

from playwright.sync_api import Page, expect

CROWDED = (11, 18)  # readings of the demo whose drawings hold most words
OPEN_ALL = "for (const one of document.querySelectorAll('SCOPE details')) one.open = true"


def tour(page: Page, bench: str, build: str) -> Iterator[str]:
    """Turn to one place after the other and give its name.

    Parameters
    ----------
    page : Page
        With the key of the bench, and wide enough for the work line.
    bench : str
        Address of the bench, without a path.
    build : str
        Name of a build whose findings are worked out.
    """
    yield from _fit(page, bench, build)
    yield from _gate(page)
    yield from _notes(page)
    yield from _share(page)
    yield from _others(page, bench, build)


def _fit(page: Page, bench: str, build: str) -> Iterator[str]:
    """Show the bench itself, its views, its slip with every line opened, a figure typed over."""
    page.goto(f"{bench}/{build}/fit")
    expect(page.get_by_role("table")).to_be_visible()  # what the first remedy would change
    expect(page.locator("svg.view .lit").first).to_be_attached()
    yield "fit"
    page.evaluate("document.querySelectorAll('.turn-over')[1].click()")
    yield "section"
    page.evaluate("document.querySelectorAll('.turn-over')[0].click()")
    page.get_by_label("view", exact=True).select_option("plan")
    expect(page.get_by_role("group", name="Plan, front to the left")).to_be_visible()
    yield "plan"
    page.get_by_label("view", exact=True).select_option("side")
    page.evaluate(OPEN_ALL.replace("SCOPE", ".slip-lines"))
    yield "slip"
    page.evaluate(OPEN_ALL.replace("SCOPE", ".slip-lines").replace("true", "false"))
    figure = page.get_by_role("button", name=re.compile("Change it$")).first
    figure.click()
    page.get_by_role("textbox").first.fill("690 behnd")
    page.keyboard.press("Enter")
    expect(page.get_by_role("alert")).to_be_visible()
    yield "figure"
    page.keyboard.press("Escape")


def _gate(page: Page) -> Iterator[str]:
    """Open the peg that freezes most."""
    peg = page.get_by_role("navigation", name="What locks").get_by_role("button").nth(2)
    peg.click()
    expect(page.get_by_role("button", name="Back to the drawing")).to_be_visible()
    yield "gate"
    peg.click()


def _notes(page: Page) -> Iterator[str]:
    """Open the notes, and the sheet that a note is written on."""
    notes = page.locator("details.all-notes")
    notes.locator("summary").click()
    yield "notes"
    notes.get_by_role("button", name="Note", exact=True).click()
    expect(page.get_by_role("dialog")).to_be_visible()
    yield "note sheet"
    page.keyboard.press("Escape")


def _share(page: Page) -> Iterator[str]:
    """Turn up the sheet that shares the bench, which stays where it is: unshared."""
    page.get_by_role("button", name=re.compile("^Share on")).click()
    expect(page.get_by_role("heading", name=re.compile("garage network")).first).to_be_visible()
    yield "share"


def _others(page: Page, bench: str, build: str) -> Iterator[str]:
    """Turn to the other places of a build, and to the shelf."""
    page.goto(f"{bench}/{build}/measure")
    expect(page.locator("svg.tape-view")).to_be_visible()
    yield "measure"
    readings = page.get_by_label(re.compile("^Reading "))
    for number in CROWDED:
        readings.select_option(f"{number - 1}")
        yield f"reading {number}"
    page.goto(f"{bench}/{build}/try")
    expect(page.locator(".try-row").first).to_be_visible()
    yield "try"
    page.goto(f"{bench}/{build}/wire")
    expect(page.get_by_text("Nothing is wired yet")).to_be_visible()
    yield "wire"
    page.goto(f"{bench}/{build}/fields")
    groups = page.locator(".group-head button[aria-expanded='false']")
    expect(groups.first).to_be_visible()
    groups.first.click()
    yield "fields"
    page.goto(f"{bench}/{build}/print")
    expect(page.locator(".page-preview svg").first).to_be_visible()
    yield "print"
    page.goto(bench)
    expect(page.get_by_role("heading", name="On the shelf")).to_be_visible()
    yield "shelf"
