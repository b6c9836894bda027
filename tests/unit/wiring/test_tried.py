"""A fault tried: what stops, what works that should not, whose voltage moves, which rule breaks."""

import pytest

from tests.small_wiring import changed, wiring
from tests.unit.wiring.test_meter import shared_ground
from trimwright.build import Wiring, parse
from trimwright.wiring import MODES, Fault, Part, meter_table, parts, tried
from trimwright.wiring.logic.fault import Kind

KEY_OUT, IGNITION = MODES[0], MODES[2]
OWN = wiring()
HEATING = {"heater switch": "worked"}
RULED = "  rules:\n    - {always: lamp, while: [lamp switch worked]}\n"


def _of(text: str) -> Wiring:
    found = parse(text).build.wiring
    assert found is not None
    return found


def _part(name: str) -> Part:
    return next(one for one in parts(OWN) if one.name == name)


def test_every_part_has_the_faults_of_its_kind() -> None:
    assert [one.kind for one in _part("fuse 1").faults] == ["fuse blown"]
    assert [one.kind for one in _part("heater 2").faults] == ["wire broken", "bad crimp"]
    assert [one.kind for one in _part("heater switch").faults] == ["contact welded", "contact open"]
    assert [one.kind for one in _part("tail stud").faults] == ["ground lost"]
    assert not any(one.name.startswith("battery -") for one in parts(OWN))


def test_a_relay_is_one_part_with_its_coil_and_its_contacts() -> None:
    relay = ("  loads:\n", "  relays:\n    - {name: buzzer, at: dash}\n  loads:\n")
    path = "    - {name: buzz, goes: [always, buzzer 86-85, dash stud]}\n    - {name: buzzed, goes: [always, buzzer 30-87, lamp +]}\n"
    found = {one.name: one for one in parts(wiring(relay, more=path))}
    assert {one.kind for one in found["buzzer"].faults} == {
        "coil open",
        "contact welded",
        "contact open",
    }
    assert "buzzer 30-87" in found["buzzer"].drawn


@pytest.mark.parametrize(
    ("kind", "of"),
    [
        ("wire broken", "heater 2"),
        ("fuse blown", "fuse 1"),
        ("fuse blown", "main fuse"),
        ("contact open", "heater switch"),
        ("ground lost", "tail stud stud"),
    ],
)
def test_what_opens_the_way_of_a_load_stops_it(kind: Kind, of: str) -> None:
    found = tried(OWN, "mm", IGNITION, HEATING, Fault(kind, of))
    assert found.stopped == ("heater",)
    assert found.wrongly == ()
    assert found.moved == ()


def test_a_welded_switch_puts_on_what_should_be_off() -> None:
    found = tried(OWN, "mm", IGNITION, {}, Fault("contact welded", "heater switch"))
    assert [name for name, _ in found.wrongly] == ["heater"]
    assert found.wrongly[0][1] == pytest.approx(12.21, abs=0.005)  # as if the switch were worked
    beside = tried(OWN, "mm", IGNITION, HEATING, Fault("contact welded", "lamp switch"))
    assert [name for name, _ in beside.wrongly] == ["lamp"]


def test_a_bad_crimp_takes_from_the_voltage_what_the_divider_says() -> None:
    # the heater is 12 V / 6 A = 2 ohm; what lies before and behind it follows from its 12.21 V
    found = tried(OWN, "mm", IGNITION, HEATING, Fault("bad crimp", "heater 2"))
    ((name, before, after),) = found.moved
    way = 2.0 * (12.6 / before - 1)
    assert name == "heater"
    assert after == pytest.approx(12.6 * 2.0 / (2.0 + way + 0.5), abs=2e-3)


def test_a_load_that_gets_less_than_half_of_its_volts_is_stopped() -> None:
    # 12 V / 30 A = 0.4 ohm behind a crimp of 0.5 ohm gets less than 12.6 * 0.4 / 0.9 = 5.6 V
    strong = wiring(("takes: 6 A", "takes: 30 A"))
    found = tried(strong, "mm", IGNITION, HEATING, Fault("bad crimp", "heater 2"))
    assert found.stopped == ("heater",)
    assert found.moved == ()


def test_a_lost_ground_sends_current_back_through_a_lamp_that_is_off() -> None:
    # heater 2 ohm, then tail lamp 12 ohm the wrong way round, then plate lamp 6 ohm
    found = tried(
        _of(shared_ground()), "mm", IGNITION, HEATING, Fault("ground lost", "tail stud stud")
    )
    stray = dict(found.wrongly)
    assert stray["tail lamp"] == pytest.approx(12.6 * 12 / (2 + 12 + 6), rel=0.03)
    assert "heater" in found.stopped


def test_the_diagram_and_the_meter_sheet_show_the_same_volts() -> None:
    table = meter_table(OWN, "mm")
    assert table is not None
    place = table.place("heater")
    assert place is not None
    fault = Fault("bad crimp", "heater 3")
    found = tried(OWN, "mm", IGNITION, HEATING, fault)
    expected = table.faulted[table.faults.index(fault), place]
    assert found.moved[0][2] == pytest.approx(expected, abs=5e-3)


def test_a_rule_that_the_fault_breaks_here_is_named_and_one_broken_anyhow_is_not() -> None:
    lamp = {"lamp switch": "worked"}
    ruled = _of(changed(more=RULED))
    broken = tried(ruled, "mm", KEY_OUT, lamp, Fault("fuse blown", "fuse 2"))
    assert broken.breaks == (0,)
    assert tried(ruled, "mm", KEY_OUT, lamp, Fault("fuse blown", "fuse 1")).breaks == ()
    anyhow = _of(changed(more="  rules:\n    - {never: lamp, while: [lamp switch worked]}\n"))
    welded = Fault("contact welded", "lamp switch")
    assert tried(anyhow, "mm", KEY_OUT, lamp, welded).breaks == ()
    assert tried(anyhow, "mm", KEY_OUT, {}, welded).breaks == ()


def test_a_fault_that_leaves_relays_without_rest_is_told_so() -> None:
    relay = ("    - {name: lamp switch, at: dash, carries: 10 A}\n", "    - {name: lamp switch, at: dash, carries: 10 A}\n  relays:\n    - {name: buzzer, at: dash}\n")  # fmt: skip
    path = (
        "    - {name: buzz, goes: [always, lamp switch, buzzer 30-87a, buzzer 86-85, dash stud]}\n"
    )
    own = wiring(relay, more=path)
    assert tried(own, "mm", KEY_OUT, {}, Fault("fuse blown", "fuse 1")).lit is not None
    assert tried(own, "mm", KEY_OUT, {}, Fault("contact welded", "lamp switch")).lit is None
