"""A peg is driven with a word for every open stop; what is covered is no longer cut."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import expect

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
