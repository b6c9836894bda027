"""Edits a builder would make, to the byte."""

import pytest

from trimwright.build import edited
from trimwright.findings import Edit

TEXT = """\
build: Larkspur   # an invented car
car:
  carpet:
    loose: 15 ± 1   # by the tunnel
  bodies:
  - name: duct
    # its box
    box: {left: 90, right: 110}
  - name: vent
console:
  to: 690 behind

  revision: B
"""


@pytest.mark.parametrize(
    ("path", "value", "old", "new"),
    [
        (("car", "carpet", "loose"), "14", "loose: 15 ± 1   #", "loose: 14   #"),
        (("car", "carpet", "loose"), "#8", "loose: 15 ± 1 ", 'loose: "#8" '),
        (("car", "bodies", 0, "box", "left"), "12,5", "left: 90,", 'left: "12,5",'),
        (("car", "bodies", 0, "box", "top"), "5", "right: 110}", "right: 110, top: 5}"),
        (
            ("car", "carpet", "squeezed by hand"),
            "6",
            "tunnel\n",
            "tunnel\n    squeezed by hand: 6\n",
        ),
        (("console", "from"), "70 ahead", "revision: B\n", "revision: B\n  from: 70 ahead\n"),
        (
            ("console", "held by", 0, "bolt"),
            "M6",
            "690 behind\n",
            "690 behind\n  held by:\n    - bolt: M6\n",
        ),
        (("car", "bodies", 2, "name"), "box", "- name: vent\n", "- name: vent\n  - name: box\n"),
        (("unit",), "mm", "# an invented car\n", "# an invented car\nunit: mm\n"),
        (("car", "bodies", 0, "box"), None, "    box: {left: 90, right: 110}\n", ""),
        (("car", "bodies", 0, "box", "left"), None, "{left: 90, right", "{right"),
        (("car", "bodies", 0, "box", "right"), None, ", right: 110", ""),
        (("car", "bodies", 0, "name"), None, "- name: duct\n", "-\n"),
        (("car", "bodies", 1, "name"), None, "  - name: vent\n", ""),
        (("car", "carpet", "loose"), None, "  carpet:\n    loose: 15 ± 1   # by the tunnel\n", ""),
    ],
)
def test_an_edit_changes_this_and_nothing_else(
    path: tuple[str | int, ...], value: str | None, old: str, new: str
) -> None:
    assert TEXT.count(old) == 1
    assert edited(TEXT, [Edit(path, value)]) == TEXT.replace(old, new)


@pytest.mark.parametrize(
    ("path", "old", "new"),
    [
        (("car", "bodies", 0, "name"), "  - name: duct\n", "  - name: fan\n  - name: duct\n"),
        (("car", "bodies", 1, "name"), "  - name: vent\n", "  - name: fan\n  - name: vent\n"),
        (("car", "bodies", 2, "name"), "  - name: vent\n", "  - name: vent\n  - name: fan\n"),
        (
            ("car", "layers", 0, "name"),
            "- name: vent\n",
            "- name: vent\n  layers:\n    - name: fan\n",
        ),
    ],
)
@pytest.mark.parametrize("ending", ["\n", "\r\n"])
def test_a_new_item_goes_before_the_one_that_is_there(
    path: tuple[str | int, ...], old: str, new: str, ending: str
) -> None:
    text = TEXT.replace("\n", ending)
    old, new = old.replace("\n", ending), new.replace("\n", ending)
    assert edited(text, [Edit(path, "fan", inserts=True)]) == text.replace(old, new)


def test_a_remark_stays_with_the_item_below_it() -> None:
    text = "a:\n  # of the list\n\n  # first\n  - 1\n  # second\n  - 2\n"
    first, second = (edited(text, [Edit(("a", n), "0", inserts=True)]) for n in (0, 1))
    assert first == text.replace("  # first\n", "  - 0\n  # first\n")
    assert second == text.replace("  # second\n", "  - 0\n  # second\n")


def test_a_new_item_in_brackets_stays_in_its_line() -> None:
    text = "a: [1, {b: 2}]\n"
    assert edited(text, [Edit(("a", 1), "0", inserts=True)]) == "a: [1, 0, {b: 2}]\n"
    assert edited(text, [Edit(("a", 0, "b"), "0", inserts=True)]) == "a: [{b: 0}, 1, {b: 2}]\n"


def test_a_new_item_past_the_end_is_refused() -> None:
    with pytest.raises(ValueError, match="got 3 in a list"):
        edited(TEXT, [Edit(("car", "bodies", 3, "name"), "x", inserts=True)])


@pytest.mark.parametrize(
    ("path", "value", "says"),
    [
        (("car", "carpet"), "1", "car > carpet holds several values, not one"),
        (("build", "x"), "1", "path must lead through groups and lists, got 'x' in a value"),
        (("car", "bodies", 3, "name"), "x", "got 3 in a list"),
        (("car", "bodies", 1, "box", 1), "x", "got 1 in a list"),
        (("console", "from"), None, "path must name a key that is there, got 'from'"),
    ],
)
def test_an_edit_that_leads_nowhere_is_refused(
    path: tuple[str | int, ...], value: str | None, says: str
) -> None:
    with pytest.raises(ValueError, match=says):
        edited(TEXT, [Edit(path, value)])


def test_the_last_entry_stays() -> None:
    with pytest.raises(ValueError, match="build is all there is"):
        edited("build: a\n", [Edit(("build",), None)])


def test_an_empty_group_and_an_empty_file_take_a_first_entry() -> None:
    assert edited("car:  # soon\n", [Edit(("car", "lever", "knob"), "48")]) == (
        "car:  # soon\n  lever:\n    knob: 48\n"
    )
    assert edited("# empty\n", [Edit(("unit",), "mm")]) == "# empty\nunit: mm\n"
    assert edited("", [Edit(("unit",), "mm")]) == "unit: mm"


def test_a_block_text_is_replaced_whole() -> None:
    text = "because: |\n  two\n  lines\n\nunit: mm\n"
    assert edited(text, [Edit(("because",), "one")]) == "because: one\n\nunit: mm\n"
