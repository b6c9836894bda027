"""Circuits for loads without one: what is there is used, what is not is made."""

import pytest

from tests.small_wiring import wiring
from trimwright.build import Wiring
from trimwright.wiring import NoCircuitError, Proposal, proposal, unwired

LAMP = "    - {name: lamp, at: dash, kind: LED, takes: 6 W}\n"


def _with(*loads: str, swaps: tuple[tuple[str, str], ...] = ()) -> Wiring:
    lines = "".join(f"    - {{{one}}}\n" for one in loads)
    return wiring((LAMP, LAMP + lines), *swaps)


def _proposed(own: Wiring) -> Proposal:
    return proposal(own, unwired(own), "mm")


def _goes(found: Proposal) -> dict[str, tuple[str, ...]]:
    return {one.name: one.goes for one in found.wiring.paths}


def test_feeds_grounds_and_places_that_are_there_are_used() -> None:
    found = _proposed(_with("name: fridge, at: boot, kind: heater, takes: 4 A, live: ignition"))
    assert _goes(found)["fridge"] == ("ignition", "fridge fuse", "fridge", "tail stud")
    assert [one.path[1] for one in found.edits] == ["fuses"] * 3 + ["paths"] * 6
    assert (found.wiring.fuses[-1].at, found.wiring.fuses[-1].rated.text) == ("box", "7.5 A")


def test_the_nearest_ground_that_wires_lead_to_is_taken() -> None:
    # from the box the dash is 500 mm away, the bay 1000, the boot 3000
    found = _proposed(_with("name: horn, at: box, kind: solenoid, takes: 4 A"))
    assert _goes(found)["horn"][-1] == "dash stud"
    far = ("    - {from: box, to: dash, long: 500}\n", "    - {from: box, to: dash, long: 1500}\n")
    found = _proposed(_with("name: horn, at: box, kind: solenoid, takes: 4 A", swaps=(far,)))
    assert _goes(found)["horn"][-1] == "bay stud"


def test_a_place_that_nothing_leads_to_gets_a_ground_of_its_own() -> None:
    place = ("    - {name: boot}\n", "    - {name: boot}\n    - {name: nose}\n")
    own = _with("name: horn, at: nose, kind: solenoid, takes: 4 A", swaps=(place,))
    assert _goes(_proposed(own))["horn"][-1] == "nose stud"


def test_a_switch_that_works_something_else_already_works_a_relay_too() -> None:
    own = _with("name: pump, at: boot, kind: motor, takes: 4 A, worked by: lamp switch")
    found = _proposed(own)
    assert _goes(found)["pump worked"] == ("lamp switch out", "pump relay 86-85", "tail stud")
    assert _goes(found)["pump"] == ("always", "pump fuse", "pump relay 30-87", "pump", "tail stud")
    assert found.idle == ()


def test_a_load_that_its_switch_could_not_work_in_time_is_named() -> None:
    # the heater switch is fed with the ignition only, and the pump is to be live always
    own = _with("name: pump, at: boot, kind: motor, takes: 4 A, worked by: heater switch")
    assert _proposed(own).idle == ("pump",)


@pytest.mark.parametrize(("carries", "relays"), [("1 A", 1), ("10 A", 0)])
def test_a_switch_that_is_there_bears_its_load_or_works_a_relay(carries: str, relays: int) -> None:
    # a motor asks for 2 times its current [AC 43.13-1B, table 11-4]: 8 A
    line = "    - {name: lamp switch, at: dash, carries: 10 A}\n"
    more = (line, f"{line}    - {{name: pump switch, at: dash, carries: {carries}}}\n")
    load = "name: pump, at: boot, kind: heater, takes: 4 A, worked by: pump switch"
    found = _proposed(_with(load, swaps=(more,)))
    assert (len(found.wiring.relays), found.idle) == (relays, ())


def test_a_fuse_bears_what_a_motor_takes_at_first() -> None:
    calm = _proposed(_with("name: pump, at: boot, kind: motor, takes: 4 A"))
    hard = _proposed(_with("name: pump, at: boot, kind: motor, takes: 4 A, starts with: 60 A"))
    assert calm.wiring.fuses[-1].rated.value < hard.wiring.fuses[-1].rated.value


def test_what_no_fuse_bears_gets_no_circuit() -> None:
    own = _with("name: winch, at: boot, kind: heater, takes: 200 A")
    with pytest.raises(NoCircuitError, match="no fuse as sold bears what winch takes"):
        _proposed(own)


def test_a_reversing_switch_is_left_to_the_builder() -> None:
    line = "    - {name: lamp switch, at: dash, carries: 10 A}\n"
    lift = (line, f"{line}    - {{name: lift, at: dash, contacts: reversing}}\n")
    own = _with("name: window, at: boot, kind: motor, takes: 4 A, worked by: lift", swaps=(lift,))
    with pytest.raises(NoCircuitError, match="lift has no plain contact"):
        _proposed(own)


def test_a_switch_of_two_loads_hangs_on_the_wider_feed() -> None:
    own = _with(
        "name: pump, at: boot, kind: heater, takes: 2 A, live: ignition, worked by: both",
        "name: light, at: boot, kind: LED, takes: 6 W, live: always, worked by: both",
    )
    found = _proposed(own)
    assert _goes(found)["light"] == ("always", "light fuse", "both", "light", "tail stud")
    assert _goes(found)["pump worked"] == ("both out", "pump relay 86-85", "tail stud")
    assert found.idle == ()
