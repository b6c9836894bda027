"""One state looked at: what is live, what carries, and the volts that arrive."""

import pytest

from tests.small_wiring import wiring
from tests.unit.checks.test_control_unit import _outcome, _text
from trimwright.wiring import MODES, handles, lit
from trimwright.wiring.logic import Fault

KEY_OUT, IGNITION = MODES[0], MODES[2]
OWN = wiring()


def test_switches_can_be_put_and_key_and_engine_cannot() -> None:
    assert handles(OWN) == (
        ("heater switch", ("rest", "worked")),
        ("lamp switch", ("rest", "worked")),
    )


def test_a_wire_is_live_up_to_an_open_contact_and_carries_beyond_it_once_it_closes() -> None:
    rests = lit(OWN, "mm", IGNITION, {})
    works = lit(OWN, "mm", IGNITION, {"heater switch": "worked"})
    assert rests is not None
    assert works is not None
    assert "heater 1" in rests.live
    assert "heater 2" not in rests.live | rests.carries
    assert {"heater 1", "heater 2", "heater 3", "heater switch"} <= works.carries
    assert [name for name, _ in works.on] == ["heater"]


def test_what_the_key_does_not_feed_stays_dead() -> None:
    found = lit(OWN, "mm", KEY_OUT, {"heater switch": "worked"})
    assert found is not None
    assert "heater 1" not in found.live
    assert found.on == ()


def test_the_volts_are_those_of_the_solved_network() -> None:
    # the same divider as by hand: 12.21 V at the heater with nothing else on
    found = lit(OWN, "mm", IGNITION, {"heater switch": "worked"})
    assert found is not None
    assert found.on[0][1] == pytest.approx(12.21, abs=0.005)


def test_a_broken_wire_takes_a_load_off() -> None:
    found = lit(OWN, "mm", IGNITION, {"heater switch": "worked"}, Fault("wire broken", "heater 2"))
    assert found is not None
    assert found.on == ()


def test_relays_that_find_no_rest_give_no_answer() -> None:
    relay = ("    - {name: lamp switch, at: dash, carries: 10 A}\n", "    - {name: lamp switch, at: dash, carries: 10 A}\n  relays:\n    - {name: buzzer, at: dash}\n")  # fmt: skip
    path = "    - {name: buzz, goes: [always, buzzer 30-87a, buzzer 86-85, dash stud]}\n"
    assert lit(wiring(relay, more=path), "mm", KEY_OUT, {}) is None


def test_a_control_unit_is_put_into_a_state_and_goes_on_from_there() -> None:
    unit = _outcome(_text()).wiring
    assert handles(unit)[-1] == ("start unit", ("asleep", "awake", "cranking", "going"))
    asleep = lit(unit, "mm", KEY_OUT, {"fob": "worked"})
    going = lit(unit, "mm", KEY_OUT, {"fob": "worked", "start unit": "going"})
    let_go = lit(unit, "mm", KEY_OUT, {"fob": "worked", "start unit": "cranking"})
    assert asleep is not None
    assert going is not None
    assert asleep.on == ()
    assert [name for name, _ in going.on] == ["pump"]
    assert let_go == going  # the button is not worked, so it goes on at once
