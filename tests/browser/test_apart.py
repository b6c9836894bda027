"""Two pages and a hand on the file: in step, in order, nothing overwritten, nothing lost."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, Request, expect

from tests.browser.conftest import Serve, Visit, running

REAR = re.compile("^to: ")
AGAIN = 5


def ready(page: Page) -> Page:
    """Return a page that tells its findings."""
    slip = page.get_by_role("complementary", name="What needs a hand")
    expect(slip.get_by_role("article").first).to_be_visible()
    return page


def figure(page: Page, says: str = "") -> Locator:
    """Return the dimension from the datum to the rear end, saying something if that is given."""
    return page.get_by_role("button", name=re.compile(f"^to: {re.escape(says)}"))


def typed(page: Page, words: str) -> None:
    """Type another figure over it."""
    figure(page).first.click()
    page.get_by_role("textbox", name="to").fill(words)
    page.keyboard.press("Enter")


def test_two_pages_stay_in_step(example: Path, serve: Serve, visit: Visit) -> None:
    address = serve(example)
    one, other = ready(visit(address, 1280)), ready(visit(address, 390))
    typed(one, "680 behind")
    expect(figure(other, "680 behind").first).to_be_attached()
    typed(other, "685 behind")
    expect(figure(one, "685 behind").first).to_be_attached()


def draws(asked: Request, words: str) -> bool:
    """Return whether views are asked for with some words written, which no file holds."""
    return asked.url.endswith("/views") and words in (asked.post_data or "")


def clashing(one: Page, other: Page, *mine: str) -> Locator:
    """Write 680 behind on one page, something else on another that does not hear of it; return what that asks."""
    other.context.set_offline(True)
    for words in mine:
        typed(other, words)
    edits = "1 edit" if len(mine) == 1 else f"{len(mine)} edits"
    expect(other.get_by_text(f"{edits} kept here")).to_be_visible()
    typed(one, "680 behind")
    expect(figure(one, "680 behind").first).to_be_attached()
    with other.expect_request(lambda asked: draws(asked, mine[0])):  # mine over theirs
        other.context.set_offline(False)
    clash = other.get_by_role("alert").filter(has_text="Another hand changed this")
    expect(clash).to_contain_text("680 behind")
    return clash


@pytest.mark.parametrize("mine", [True, False])
def test_two_hands_at_one_figure_are_asked_which(
    example: Path, serve: Serve, visit: Visit, *, mine: bool
) -> None:
    """Neither overwrites the other unseen, and both are drawn."""
    address = serve(example)
    one, other = ready(visit(address, 1280)), ready(visit(address, 1280))
    clash = clashing(one, other, "670 behind")
    expect(other.locator(".changed .red-line").first).to_be_attached()
    clash.get_by_role("button", name="Keep mine" if mine else "Keep theirs").click()
    wanted = "670 behind" if mine else "680 behind"
    expect(figure(other, wanted).first).to_be_attached()
    assert f"to: {wanted}" in example.read_text("utf-8")


@pytest.mark.parametrize("width", [1280, 390])
def test_both_are_kept_as_other_ways(example: Path, serve: Serve, visit: Visit, width: int) -> None:
    """Theirs stays in the file, all that was typed here goes into one file beside it."""
    address = serve(example)
    one, other = ready(visit(address, 1280)), ready(visit(address, width))
    clash = clashing(one, other, "670 behind", "675 behind")
    mine = example.with_name("first-measured-other-way.yaml")
    told = other.get_by_role("status").filter(has_text="Theirs stays here")
    for _ in range(AGAIN):  # what theirs wrote may come to this page after its question
        clash.get_by_role("button", name="Both, as other ways").click()
        other.wait_for_timeout(1000)
        if told.is_visible():
            break
    expect(told).to_contain_text(mine.name)
    theirs = example.read_text("utf-8")
    assert "\n  to: 680 behind" in theirs
    assert mine.read_text("utf-8") == theirs.replace("\n  to: 680 behind", "\n  to: 675 behind")
    assert other.evaluate("document.documentElement.scrollWidth") <= width
    told.get_by_role("button", name="Go to mine").click()
    expect(figure(other, "675 behind").first).to_be_attached()
    expect(other.get_by_text(f"1972 · {mine.stem}").first).to_be_attached()  # both have one title
    typed(ready(other), "672 behind")  # each goes on by itself
    expect(figure(other, "672 behind").first).to_be_attached()
    assert example.read_text("utf-8") == theirs
    expect(figure(one, "680 behind").first).to_be_attached()


def test_an_edit_that_was_lost_once_goes_in_while_the_news_still_come(
    example: Path, serve: Serve, visit: Visit
) -> None:
    """One question fails, the line that tells of news stands: nobody has to load the page again."""
    page = ready(visit(serve(example), 1280))
    page.route("**/edits", lambda asked: asked.abort(), times=1)
    typed(page, "675 behind")
    expect(figure(page, "675 behind").first).to_be_attached()
    expect(page.get_by_text("No connection to the bench")).to_be_hidden()
    assert "\n  to: 675 behind" in example.read_text("utf-8")


def test_an_edit_waits_behind_those_that_wait(example: Path, serve: Serve, visit: Visit) -> None:
    """The bench answers again, but what waits has not gone in: nothing overtakes it."""
    page = ready(visit(serve(example), 1280))
    page.route("**/edits", lambda asked: asked.abort(), times=1)
    page.route("**/replay", lambda asked: asked.abort())
    typed(page, "680 behind")
    expect(page.get_by_text("1 edit kept here")).to_be_visible()
    typed(page, "675 behind")
    expect(page.get_by_text("2 edits kept here")).to_be_visible()
    assert "\n  to: 690 behind" in example.read_text("utf-8")
    page.unroute("**/replay")
    expect(figure(page, "675 behind").first).to_be_attached()
    page.get_by_role("button", name=re.compile("^Undo")).click()
    expect(figure(page, "680 behind").first).to_be_attached()


def test_an_edit_to_what_was_changed_a_moment_ago_is_asked_about(
    example: Path, serve: Serve, visit: Visit
) -> None:
    """The page is not away, it only has not heard yet: the edit meets the other hand's at once."""
    address = serve(example)
    one, other = ready(visit(address, 1280)), ready(visit(address, 1280))
    standing = re.compile(r"/api/builds/first-measured$")
    other.route(standing, lambda _: None)  # its news stay on the way
    typed(one, "680 behind")
    expect(figure(one, "680 behind").first).to_be_attached()
    typed(other, "670 behind")
    clash = other.get_by_role("alert").filter(has_text="Another hand changed this")
    expect(clash).to_contain_text("680 behind")
    other.unroute(standing)  # what was held is answered now
    clash.get_by_role("button", name="Keep theirs").click()
    expect(figure(other, "680 behind").first).to_be_attached()
    assert "\n  to: 680 behind" in example.read_text("utf-8")


def test_the_last_edit_that_waits_is_let_go(example: Path, serve: Serve, visit: Visit) -> None:
    page = ready(visit(serve(example), 1280))
    page.context.set_offline(True)
    typed(page, "680 behind")
    typed(page, "675 behind")
    expect(page.get_by_text("2 edits kept here")).to_be_visible()
    page.get_by_role("button", name="Let the last one go").click()
    expect(page.get_by_text("1 edit kept here")).to_be_visible()
    page.context.set_offline(False)
    page.reload()
    expect(figure(page, "680 behind").first).to_be_attached()
    page.reload()  # what went in is not kept any longer
    expect(figure(page, "680 behind").first).to_be_attached()
    assert page.evaluate("Object.keys(localStorage).filter(key => key.startsWith('kept:'))") == []
    assert "\n  to: 680 behind" in example.read_text("utf-8")


def test_edits_wait_across_a_reload_and_go_in_in_their_order(
    example: Path, serve: Serve, visit: Visit
) -> None:
    page = ready(visit(serve(example), 1280))
    page.context.set_offline(True)
    typed(page, "680 behind")
    typed(page, "675 behind")
    expect(page.get_by_text("2 edits kept here")).to_be_visible()
    page.context.set_offline(False)
    page.reload()
    expect(figure(page, "675 behind").first).to_be_attached()
    page.get_by_role("button", name=re.compile("^Undo")).click()
    expect(figure(page, "680 behind").first).to_be_attached()


def test_a_fault_written_by_hand_is_mended_on_the_page(
    example: Path, serve: Serve, visit: Visit
) -> None:
    good = example.read_text("utf-8")
    page = ready(visit(serve(example), 390))
    example.write_text(good.replace("\n  to: 690 behind", "\n  to: 690 behnd"), "utf-8")
    wrong = page.get_by_role("alert", name="What is wrong with the file")
    expect(wrong).to_contain_text("690 behnd")
    wrong.get_by_role("textbox").fill("690 behind")
    wrong.get_by_role("button", name="Write it").click()
    expect(wrong).to_be_hidden()
    assert example.read_text("utf-8") == good


def test_a_file_that_never_was_usable_is_mended_on_the_page(
    example: Path, serve: Serve, visit: Visit
) -> None:
    good = example.read_text("utf-8")
    example.write_text(good.replace("\n  to: 690 behind", "\n  to: 690 behnd"), "utf-8")
    page = visit(serve(example), 1280)
    wrong = page.get_by_role("alert", name="What is wrong with the file")
    expect(wrong).to_contain_text("nothing can be drawn yet")
    expect(page.get_by_text("Nothing can be checked until the file is mended")).to_be_visible()
    wrong.get_by_role("textbox").fill("690 behind")
    wrong.get_by_role("button", name="Write it").click()
    ready(page)
    assert example.read_text("utf-8") == good


def test_what_waits_when_the_bench_is_killed_goes_in_when_it_is_back(
    example: Path, visit: Visit
) -> None:
    """Written edits are on disk, those that waited come from the browser, to a new page."""
    with running(example) as (server, address):
        page = ready(visit(address, 1280))
        typed(page, "680 behind")
        expect(figure(page, "680 behind").first).to_be_attached()
        server.kill()
        server.wait()
        assert "to: 680 behind" in example.read_text("utf-8")
        typed(page, "675 behind")
        expect(page.get_by_text("1 edit kept here")).to_be_visible()
        page.close()
    with running(example) as (_, address):
        other = page.context.new_page()
        other.goto(address)
        expect(figure(other, "675 behind").first).to_be_attached()
        assert "to: 675 behind" in example.read_text("utf-8")
        other.close()
