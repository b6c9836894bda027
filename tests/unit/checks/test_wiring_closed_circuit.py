"""Rule 'closed circuit': a load or coil that never works is told with the side that is lacking."""

import pytest

from tests.small_wiring import changed, told
from trimwright.build import edited
from trimwright.findings import Finding

LAMP = "[always, fuse 2, lamp switch, lamp, dash stud]"
SWITCHES = "  loads:\n"
RELAY = "  relays:\n    - {name: horn relay, at: box, coil guard: resistor}\n  loads:\n"


def _dead(goes: str, *swaps: tuple[str, str], more: str = "") -> dict[str, Finding]:
    found = told(changed((LAMP, goes), *swaps, more=more))
    return {place: one for place, one in found.items() if one.rule == "closed circuit"}


def test_what_works_is_not_told() -> None:
    assert _dead(LAMP) == {}


def test_a_load_without_a_ground_is_given_the_nearest_as_one_whole_edit() -> None:
    text = changed((LAMP, "[always, fuse 2, lamp switch, lamp]"))
    one = told(text)["lamp never works"]
    assert (one.grade, one.says) == (
        "change",
        "Lamp never works: nothing leads from lamp - to ground.",
    )
    assert one.remedies[0].says == "Join lamp - to dash stud."
    after = told(edited(text, one.remedies[0].edits))
    assert "lamp never works" not in after
    assert after["voltage at lamp"].grade == "good"


def test_a_load_grounded_through_another_is_told_with_the_other() -> None:
    found = _dead("[always, fuse 2, lamp switch, lamp, heater +]")
    one = found["lamp never works"]
    assert one.says == "Lamp never works: it has its ground only through heater."
    assert one.remedies[0].edits == ()


def test_a_load_behind_another_is_told_with_the_other() -> None:
    found = _dead(
        "[always, fuse 2, lamp switch, heater, lamp, dash stud]",
        ("heater switch, heater, tail stud]", "heater switch]"),
    )
    assert (
        found["lamp never works"].says == "Lamp never works: it has its feed only through heater."
    )
    assert (
        found["heater never works"].says
        == "Heater never works: it has its ground only through lamp."
    )


def test_a_ring_without_a_feed_or_ground_never_works() -> None:
    found = _dead("[lamp -, lamp switch, lamp +]")
    assert found["lamp never works"].says == (
        "Lamp never works: neither a feed nor ground leads to it."
    )


def test_relays_that_feed_each_other_and_nothing_else_have_no_feed() -> None:
    both = RELAY.replace("  loads:", "    - {name: other relay, at: box}\n  loads:")
    ring = (
        "    - {name: one, goes: [horn relay 87, other relay 86-85, dash stud]}\n"
        "    - {name: two, goes: [other relay 87, horn relay 86-85, dash stud]}\n"
        "    - {name: three, goes: [horn relay 30, other relay 30]}\n"
    )
    found = _dead(LAMP, (SWITCHES, both), more=ring)
    for name in ("horn relay", "other relay"):
        one = found[f"{name} never works"]
        assert one.says == f"The coil of {name} never works: no feed leads to it."


@pytest.mark.parametrize(
    ("goes", "says"),
    [
        ("[always, horn relay 86]", "nothing leads from horn relay 85 to ground"),
        ("[horn relay 85, dash stud]", "no feed leads to it"),
        ("[fuse 2, horn relay 30-87, dash stud]", "neither a feed nor ground leads to it"),
    ],
)
def test_a_coil_with_one_end_in_the_air_is_told(goes: str, says: str) -> None:
    found = _dead(LAMP, (SWITCHES, RELAY), more=f"    - {{name: horn, goes: {goes}}}\n")
    assert found["horn relay never works"].says == f"The coil of horn relay never works: {says}."


def test_a_spare_relay_is_worth_a_look() -> None:
    one = _dead(LAMP, (SWITCHES, RELAY))["horn relay never works"]
    assert (one.grade, one.says) == ("look", "No path leads to horn relay.")


def test_contacts_that_never_close_together_are_told_as_such() -> None:
    # 87 is closed while the coil is fed, and the coil hangs on 87a of the same relay's contact
    both = "    - {name: coil, goes: [always, fuse 2, horn relay 86-85, dash stud]}\n"
    found = _dead("[fuse 2, horn relay 30-87a, lamp, dash stud]", (SWITCHES, RELAY), more=both)
    assert found["lamp never works"].says == (
        "Lamp never works: feed and ground lead to it, but never in one position of key and switches."
    )
