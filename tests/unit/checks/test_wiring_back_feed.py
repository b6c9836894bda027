"""Rule 'back-feed': what stays live with its fuse pulled, and feeds that are live while off."""

import pytest

from tests.small_wiring import changed, told
from trimwright.findings import Finding

BETWEEN = (
    ("kind: LED, takes: 6 W", "kind: lamp, takes: 6 W"),
    ("lamp switch, lamp, dash stud]", "lamp switch, lamp, fuse 1 out]"),
    ("heater switch, heater, tail", "horn relay 86-85, tail"),
    ("  loads:\n", "  relays:\n    - {name: horn relay, coil: 90 ohm}\n  loads:\n"),
)


def _back(*swaps: tuple[str, str], more: str = "") -> dict[str, Finding]:
    found = told(changed(*swaps, more=more))
    return {place: one for place, one in found.items() if one.rule == "back-feed"}


def _goes(*paths: str) -> str:
    return "".join(f"    - {{name: more {n}, goes: [{one}]}}\n" for n, one in enumerate(paths))


def test_a_sound_wiring_has_no_current_coming_back() -> None:
    assert _back() == {}


def test_two_fuses_on_one_wire_are_named_with_what_stays_live_and_the_wire_that_joins_them() -> (
    None
):
    both = (
        "name: fuse 2, at: box, rated: 5 A}",
        "name: fuse 2, at: box, rated: 5 A}\n    - {name: fuse 3, at: box, rated: 5 A}",
    )
    found = _back(both, more=_goes("always, fuse 3, lamp switch in"))
    assert set(found) == {"fuse 2 and fuse 3"}
    one = found["fuse 2 and fuse 3"]
    assert one.grade == "stop"
    assert one.says == "Pull fuse 2, and lamp stays live over fuse 3 (with all at rest)."
    assert "not by more 0 1" in one.remedies[0].says


def test_feeds_joined_behind_their_fuses_are_live_with_the_key_out() -> None:
    found = _back(more=_goes("fuse 2 out, fuse 1 out"))
    assert set(found) == {"fuse 1 and fuse 2", "ignition"}  # and not lifted through a load as well
    assert "heater and lamp stay live over fuse 2" in found["fuse 1 and fuse 2"].says
    one = found["ignition"]
    assert one.grade == "stop"
    assert one.says == (
        "Ignition is live though the key has it off: current comes back into it from battery over"
        " fuse 1 (with all at rest)."
    )
    assert one.remedies[0].says.endswith("backwards: fuse 2, more 0 1, fuse 1.")


def test_a_fuse_that_two_feeds_are_led_to_joins_them() -> None:
    one = _back(more=_goes("always, fuse 1"))["ignition"]
    assert "no fuse to two feeds" in one.remedies[0].says


def test_a_wire_past_a_fuse_is_told() -> None:
    one = _back(more=_goes("always, fuse 2 out"))["past fuse 2"]
    assert one.says == "Pull fuse 2, and lamp stays live by a way past it (with all at rest)."


def test_only_a_switch_that_is_worked_may_join_two_feeds() -> None:
    switch = (
        "    - {name: lamp switch, at: dash, carries: 10 A}\n",
        "    - {name: lamp switch, at: dash, carries: 10 A}\n    - {name: odd switch, at: dash}\n",
    )
    found = _back(switch, more=_goes("fuse 2 out, odd switch, fuse 1 out"))
    assert "odd switch worked" in found["ignition"].says


def test_an_alternator_that_feeds_the_box_is_no_fault() -> None:
    text = changed(("[alternator B+, battery +]", "[alternator B+, always]"))
    assert {one.rule for one in told(text).values()} & {"back-feed"} == set()


def test_a_lamp_between_two_feeds_lifts_the_one_that_is_off() -> None:
    # a cold lamp of 6 W, 2.5 ohm and more, ahead of a coil of 90 ohm: most of 12.6 V is on the coil
    one = _back(*BETWEEN)["ignition through lamp"]
    assert one.grade == "change"
    assert one.figure == pytest.approx(12.6 * 90 / (90 + 12.6), abs=1.5)
    assert one.limit == pytest.approx(1.26)
    assert "current comes back into it through lamp (lamp switch worked)" in one.says
