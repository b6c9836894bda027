"""A peg is driven with a word for every open stop; what is covered is no longer cut."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.conftest import Serve, Visit

WORDS = "the trimmer comes on Friday"


@pytest.mark.parametrize("width", [390, 1280])
def test_covering_is_driven_in_writing_and_drawn_again(
    example: Path, serve: Serve, visit: Visit, width: int
) -> None:
    before = example.read_bytes()
    page = visit(serve(example), width)
    slip = page.get_by_role("complementary", name="What needs a hand")
    slip.get_by_role("button", name="Before covering").click()
    expect(page.get_by_role("heading", name=re.compile("would freeze"))).to_be_visible()
    reasons = page.get_by_role("textbox", name=re.compile("why it goes on all the same"))
    assert reasons.count() > 0
    drive = page.get_by_role("button", name=re.compile("^Drive the peg"))
    drive.click()  # without a word it is not driven
    expect(reasons.first).to_be_focused()  # the browser asks for the word before anything is sent
    assert example.read_bytes() == before
    for reason in reasons.all():
        reason.fill(WORDS)
    count = reasons.count()
    drive.click()
    expect(slip.get_by_role("button", name="Locked by covering")).to_be_attached()
    text = example.read_text("utf-8")
    assert "lock: covering" in text
    assert "lock: glue-up" in text  # what comes before it is done as well
    assert "lock: refit" not in text
    assert text.count(WORDS) == count
    expect(slip.get_by_role("button", name=re.compile("off the front end"))).to_have_count(0)
    slip.get_by_role("button", name=re.compile("^Undo")).click()
    expect(slip.get_by_role("button", name="Before covering")).to_be_attached()
    assert example.read_bytes() == before


def test_a_peg_that_was_driven_too_early_is_drawn_again(
    example: Path, serve: Serve, visit: Visit
) -> None:
    """A lock freezes what is open before it and before all that come first, as its peg's head says."""
    page = visit(serve(example), 1280)
    expect(page.get_by_role("complementary").get_by_role("article").first).to_be_visible()
    pegs = page.get_by_role("navigation", name="What locks").get_by_role("button")
    heads = [int(one) for one in pegs.locator("text").all_text_contents()]
    assert heads == sorted(heads)
    assert heads[0] < heads[1]
    pegs.nth(1).click()
    expect(page.get_by_role("heading", name=f"{heads[1]} would freeze")).to_be_visible()
    before = example.read_bytes()
    page.get_by_role("button", name=re.compile("^Drive the peg")).click()
    expect(pegs.nth(1).get_by_role("img", name="done")).to_be_attached()
    expect(page.get_by_role("button", name="Back to the drawing")).to_be_hidden()
    assert "lock: glue-up" in example.read_text("utf-8")
    pegs.nth(1).click()
    page.get_by_role("button", name="It is not done yet").click()
    expect(pegs.nth(1).get_by_role("img", name="done")).to_have_count(0)
    text = example.read_text("utf-8")
    assert "lock: glue-up" not in text
    assert "lock: wood is cut" in text
    assert text.startswith(before.decode("utf-8").rstrip())


def lengths(worth: Locator, kind: str) -> list[float]:
    """Return how long the bars of a kind are on the page [px]."""
    found: list[float] = worth.locator(f".{kind}").evaluate_all(
        "bars => bars.map(bar => bar.getBBox().width)"
    )
    return found


@pytest.mark.parametrize("width", [390, 1280])
def test_what_a_test_saves_is_weighed_once_its_hours_are_written(
    example: Path, serve: Serve, visit: Visit, width: int
) -> None:
    """By keys alone: a figure without its unit is asked about, what is missing is named."""
    before = example.read_text("utf-8")
    page = visit(serve(example), width)
    worth = before_covering(page)
    expect(worth).to_contain_text("nobody wrote what doing it again takes after covering")
    expect(worth.get_by_text("not known", exact=True)).to_have_count(4)  # in the car, 3 readings
    expect(worth.locator(".saves")).to_have_count(0)
    redoing = page.get_by_label("Doing it again after covering")
    write(redoing, "14")
    wrong = worth.get_by_role("alert")
    expect(wrong).to_contain_text('Found "14"')
    assert example.read_text("utf-8") == before
    wrong.get_by_role("button", name="14 h").press("Enter")
    redoing.press("Enter")
    expect(worth).to_contain_text("of the 14 h that doing it again takes")
    write(page.get_by_label("Trying it in the car"), "90 min")
    expect(worth.locator(".takes")).to_have_count(4)
    written = before + "hours:\n  covering: 14 h\n  test fit: 90 min\n"
    assert example.read_text("utf-8") == written
    bars_are_to_one_scale(worth)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    handed = example.with_name("handed.yaml.new")  # written whole, then put in its place
    handed.write_text(written.replace("covering: 14 h", "covering: 16 h"), "utf-8")
    handed.replace(example)
    expect(redoing).to_have_value("16 h")  # another hand's figure stands in the field
    write(redoing, "")
    expect(worth).to_contain_text("nobody wrote what doing it again takes after covering")


def before_covering(page: Page) -> Locator:
    """Open the gate page before covering and return what is worth doing first."""
    slip = page.get_by_role("complementary", name="What needs a hand")
    slip.get_by_role("button", name="Before covering").click()
    return page.get_by_role("region", name="Worth doing first")


def write(field: Locator, words: str) -> None:
    """Write into a field and leave it with the key."""
    field.fill(words)
    field.press("Enter")


def bars_are_to_one_scale(worth: Locator) -> None:
    """Fail unless the longest bar takes the whole width and the others their share of it."""
    expect(worth.get_by_role("listitem").first).to_contain_text("1.5 h")
    takes, saves = lengths(worth, "takes"), lengths(worth, "saves")
    assert len(saves) == 4
    assert saves == sorted(saves, reverse=True)
    whole = worth.locator(".bar").first.evaluate("bar => bar.getBoundingClientRect().width")
    assert max(takes + saves) == pytest.approx(whole, rel=0.05)  # the longest is the scale
    assert takes[0] / takes[1] == pytest.approx(90, rel=0.02)  # 90 minutes and one
