"""Where edits made to one text of a file meet what another text says."""

import pytest

from trimwright.build import met
from trimwright.findings import Edit

Path = tuple[str | int, ...]
FRONT = "- {at: 300 behind, height: 180, width: 190}\n"
REAR = "- {at: 500 behind, height: 181, width: 190}\n"
LAST = "- {at: 700 behind, height: 181, width: 190}\n"


def sections(*rows: str) -> str:
    return "tunnel:\n" + "".join(rows) + "carpet: 15\n"


def test_edits_elsewhere_meet_nothing() -> None:
    now = sections(FRONT, REAR).replace("15", "16")
    assert met(sections(FRONT, REAR), now, [Edit(("tunnel", 1, "width"), "191")]) == {}


def test_the_same_place_meets_and_says_what_stands_there() -> None:
    assert met("a: 1\n", "a: 2\n", [Edit(("a",), "3")]) == {("a",): "2"}
    assert met("a: 1\nb: 1\n", "b: 1\n", [Edit(("a",), "3")]) == {("a",): None}
    assert met("b: 1\n", "b: 1\na: {c: 2}\n", [Edit(("a",), "3")]) == {("a", "c"): "2"}


def test_the_same_words_meet_nothing() -> None:
    assert met("a: 1\n", "a: 2\n", [Edit(("a",), "2")]) == {}
    assert met("a: 1\nb: 1\n", "b: 1\n", [Edit(("a",), None)]) == {}


def test_a_group_that_another_took_out_is_not_made_again() -> None:
    edit = Edit(("group", "new"), "5")
    assert met("group: {a: 1}\nb: 1\n", "b: 1\n", [edit]) == {("group", "new"): None}


def test_two_may_begin_a_group_but_not_a_list() -> None:
    assert met("b: 1\n", "b: 1\ngroup: {a: 1}\n", [Edit(("group", "new"), "5")]) == {}
    found = met("b: 1\n", "b: 1\nlist: [{a: 1}]\n", [Edit(("list", 0, "new"), "5")])
    assert found == {("list", 0, "new"): None}


@pytest.mark.parametrize(
    ("now", "path"),
    [
        ((REAR,), ("tunnel", 0, "width")),  # the front one is gone: the first is another
        ((REAR,), ("tunnel", 1, "width")),
        ((LAST, FRONT, REAR), ("tunnel", 0, "width")),  # one was written above
        ((LAST, FRONT, REAR), ("tunnel", 1, "width")),
        ((REAR, FRONT), ("tunnel", 0, "width")),  # turned round
        ((FRONT, LAST), ("tunnel", 1, "width")),  # taken out, and another measured
        ((FRONT, REAR, LAST), ("tunnel", 2, "width")),  # both add one
        ((FRONT,), ("tunnel", 2, "width")),
    ],
)
@pytest.mark.parametrize("value", ["205", None])
def test_an_item_that_moved_is_met(now: tuple[str, ...], path: Path, value: str | None) -> None:
    assert path in met(sections(FRONT, REAR), sections(*now), [Edit(path, value)])


@pytest.mark.parametrize(
    ("now", "path"),
    [
        ((FRONT, REAR, LAST), ("tunnel", 0, "width")),  # one was added behind
        ((FRONT, REAR, LAST), ("tunnel", 1, "width")),
        ((FRONT,), ("tunnel", 0, "width")),  # the other one was taken out
        ((FRONT.replace("180", "182"), REAR), ("tunnel", 0, "width")),  # another figure of it
        ((FRONT.replace("180", "182"), REAR.replace("181", "9")), ("tunnel", 1, "width")),
        ((FRONT.replace("180", "182"), REAR), ("tunnel", 2, "at")),  # one is added behind
    ],
)
def test_an_item_that_stayed_takes_an_edit(now: tuple[str, ...], path: Path) -> None:
    assert met(sections(FRONT, REAR), sections(*now), [Edit(path, "205")]) == {}


def test_items_that_cannot_be_told_apart_are_met() -> None:
    edit = Edit(("tunnel", 0, "width"), "205")
    assert met(sections(FRONT, FRONT), sections(FRONT), [edit]) == {edit.path: "190"}


def test_what_takes_an_item_out_of_a_list_that_changed_is_met() -> None:
    now = sections(FRONT.replace("180", "182"), REAR)
    edit = Edit(("tunnel", 1, "at"), None)
    assert edit.path in met(sections(FRONT, REAR), now, [edit])


def test_a_new_item_goes_in_only_before_the_item_it_was_put_before() -> None:
    before = "a: [{at: 1}, {at: 5}]\nb: 2\n"
    new = (Edit(("a", 1, "at"), "3", inserts=True),)
    assert met(before, before.replace("2", "4"), new) == {}
    assert met(before, "a: [{at: 1}, {at: 2}, {at: 5}]\nb: 2\n", new) == {("a", 1, "at"): "2"}
