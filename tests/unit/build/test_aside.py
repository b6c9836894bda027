"""What is at fault is set aside, and the rest is judged without it."""

import pytest

from trimwright.build import InputError, parse

HEAD = "build: Larkspur estate\nunit: mm\n"
WIRING = """wiring:
  places:
    - {name: box}
  feeds:
    - {name: always, at: box}
  fuses:
    - {name: fuse 1, at: box, rated: 15 A}
    - {name: fuse 2, at: box, rated: 5 A}
  switches:
    - {name: door switch, worked by: door open}
  loads:
    - {name: lamp, at: box, kind: lamp, takes: 5 W}
  paths:
    - {name: lamp, goes: [always, fuse 2, lamp]}
"""
CONSOLE = """console:
  from: 70 ahead
  to: 690 behind
  deck height: 205
  widths:
    - {at: 70 ahead, left: 112, right: 112}
    - {at: 300 behind, left: 114, right: 114}
    - {at: 690 behind, left: 118, right: 118}
"""


def faults(text: str) -> list[str]:
    """Return what a text is refused for, without where."""
    with pytest.raises(InputError, match="cannot be used") as refused:
        parse(HEAD + text)
    return [f"{one.line} {one.found}" for one in refused.value.faults]


def test_both_sorts_come_in_one_go_in_the_order_of_the_file() -> None:
    text = WIRING.replace("goes: [always", "goes: [allways").replace("5 W}", "5 W, live: never}")
    text = text.replace("fuse 1, at: box", "fuse 1, at: bax")
    assert faults(text) == ['9 "bax"', '14 "never"', '16 "allways"']


def test_what_a_fault_sets_aside_is_not_missed() -> None:
    text = WIRING.replace("rated: 5 A", "rated: 5 apples")
    assert faults(text) == ['10 "5 apples"']
    # another name is known to be none of those set aside
    unknown = text.replace("[always,", "[fuse 3,")
    assert faults(unknown) == ['10 "5 apples"', '16 "fuse 3"']
    # one without a name may be any
    nameless = unknown.replace("name: fuse 2", "nmae: fuse 2")
    assert faults(nameless) == ['10 the key "nmae"', '10 "5 apples"']


@pytest.mark.parametrize(
    ("right", "wrong", "found"),
    [
        ("  places:", "  palces:", 'the key "palces"'),  # every place is missed
        ("  places:\n    - {name: box}", "  places: box", '"box"'),
        ("  fuses:", "  feeds:", '"feeds" a second time (first on line 6)'),
        ("worked by: door open", "works by: door open", 'the key "works by"'),
        ("worked by: door open", "worked by: [door open]", "a list"),
    ],
)
def test_what_may_be_a_key_that_is_missed_is_not_missed(right: str, wrong: str, found: str) -> None:
    rule = "  rules:\n    - {always: lamp, while: [door open]}\n"
    assert parse(HEAD + WIRING + rule).build.wiring is not None
    said = faults(WIRING.replace(right, wrong) + rule)
    assert [one.partition(" ")[2] for one in said] == [found]


def test_a_profile_with_a_place_set_aside_is_not_called_too_short() -> None:
    assert faults(CONSOLE.replace("at: 690 behind", "at: 690")) == ['10 "690"']
    # its order is judged all the same
    text = CONSOLE.replace("at: 690 behind", "at: 690").replace("300 behind", "80 ahead")
    assert faults(text) == ['9 "80 ahead"', '10 "690"']


def test_one_left_of_two_is_not_called_one() -> None:
    text = CONSOLE.replace("    - {at: 300 behind, left: 114, right: 114}\n", "")
    assert faults(text.replace("left: 112", "left: far")) == ['8 "far"']


def test_two_points_are_not_called_one_because_what_parts_them_is_set_aside() -> None:
    points = "88 left, 30 down; 90 left, 40 down; 88 left, 30 down; 88 right, 30 down"
    rows = "".join(f"        - {one}\n" for one in points.split("; "))
    text = f"car:\n  tunnel:\n    - at: 300 behind\n      points:\n{rows}"
    assert parse(HEAD + text).build.car.tunnel
    assert faults(text.replace("90 left", "90 lefft")) == ['8 "90 lefft, 40 down"']


def test_a_place_without_its_place_is_not_missed_for_a_length() -> None:
    trunk = "  trunks:\n    - {from: box, to: boot}\n"
    spot = "at: 1 ahead, off middle: 0, up: 0 up}"
    text = WIRING.replace("{name: box}", f"{{name: box, {spot}\n    - {{name: boot, {spot}") + trunk
    assert parse(HEAD + text).build.wiring is not None
    assert faults(text.replace("boot, at: 1 ahead", "boot, at: 1")) == ['6 "1"']


def test_a_length_set_aside_is_not_missed() -> None:
    trunk = "  trunks:\n    - {from: box, to: boot, long: 640}\n"
    text = WIRING.replace("{name: box}", "{name: box}\n    - {name: boot}") + trunk
    assert parse(HEAD + text).build.wiring is not None
    assert faults(text.replace("640", "far")) == ['19 "far"']


def test_where_the_whole_cannot_be_read_only_its_entries_are_judged() -> None:
    text = WIRING.replace("[always", "[allways").replace("5 W}", "5 W, live: never}")
    with pytest.raises(InputError, match=r"2 entries need a look") as refused:
        parse("build: Larkspur estate\n" + text)
    assert [one.found for one in refused.value.faults] == ["no unit", '"never"']


def test_a_misread_value_sets_its_line_aside() -> None:
    text = WIRING.replace("rated: 5 A", "rated: 012").replace("{name: box}", "{name: 0x1}")
    assert faults(text) == ['5 "0x1"', '10 "012"']
