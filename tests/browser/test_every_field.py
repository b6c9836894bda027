"""Every key of the schema is edited through the page, and the file holds that and nothing else."""

import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Serve, Visit
from tests.unit.app.every_key import LONG, SHORT
from tests.unit.app.test_fields import Told, every, guesses, pattern
from trimwright.build import InputError, edited, parse
from trimwright.findings import Edit

Steps = list[str | int]
ACROSS = ("5 left", "5 right")  # beside the middle, where nothing is written but that
LOOK_MS, LOOKS = 20, 1000


def another(text: str, one: Told) -> tuple[str, str] | None:
    """Return a value that the file takes there instead, and the text it then is."""
    for guess in (*guesses(one), *ACROSS):
        new = edited(text, [Edit(tuple(one["path"]), guess)])
        try:
            parse(new)
        except InputError:
            continue
        if new != text:
            return guess, new
    return None


def of_each_kind(root: Told) -> list[Told]:
    """Return one field for every key of the schema that is written."""
    kinds: dict[Any, Told] = {}
    for one in every(root):
        if one["value"] is not None:
            kinds.setdefault(pattern(one["path"]), one)
    return list(kinds.values())


def typed(page: Page, one: Told, words: str) -> None:
    """Find a field by its name and write another value, as its kind has it."""
    page.get_by_role("searchbox").fill(one["words"])
    name = re.sub(r"\W+", "-", page.evaluate("JSON.stringify", one["path"]))
    field = page.locator(f"[id='field-{name}']")
    kind = field.evaluate("(element) => element.tagName")
    if kind == "SELECT":
        field.select_option(words)
    elif kind == "DIV":
        field.get_by_role("button", name=words, exact=True).click()
    else:
        field.fill(words)
        field.press("Enter")


@pytest.mark.parametrize("text", [LONG, SHORT], ids=["long", "short"])
def test_every_key_is_edited_through_the_page(
    tmp_path: Path, serve: Serve, visit: Visit, text: str
) -> None:
    file = tmp_path / "one.yaml"
    file.write_bytes(text.encode("utf-8"))
    address = serve(file)
    page = visit(address, 1280)
    at = "/".join(address.split("/")[:3])
    page.goto(f"{at}/one/fields")

    def root() -> Told:
        told: Told = page.request.get(f"{at}/api/builds/one/fields").json()["root"]
        return told

    for path in [one["path"] for one in of_each_kind(root())]:
        one = next(one for one in every(root()) if one["path"] == path)  # its name may be new
        now = file.read_bytes().decode("utf-8")
        found = another(now, one)
        if found is not None:
            typed(page, one, found[0])
            became(page, file, found[1], path)
        elif len(one["choices"]) != 1:  # nothing else goes with the rest of the file
            typed(page, one, next(g for g in guesses(one) if g != one["value"]))
            expect(page.get_by_role("alert").first).to_be_visible()
            assert file.read_bytes().decode("utf-8") == now, path
            page.reload()  # what is typed and was refused goes


def became(page: Page, file: Path, wanted: str, path: Steps) -> None:
    """Wait until a file holds a text, and fail if it does not come to that."""
    for _ in range(LOOKS):
        if file.read_bytes().decode("utf-8") == wanted:
            return
        page.wait_for_timeout(LOOK_MS)
    assert file.read_bytes().decode("utf-8") == wanted, path
