"""A wiring solved with a fault: electronics that let go, relays that the volts at their coil move."""

from math import sqrt

import pytest

from tests.small_wiring import changed
from trimwright.build import Wiring, parse
from trimwright.checks.wiring import sneak
from trimwright.wiring import (
    MODES,
    Fault,
    Lit,
    Mode,
    lit,
    meter_table,
    sneaks,
    tried,
    wiring_outcome,
)

KEY_OUT, IGNITION, RUNNING = MODES[0], MODES[2], MODES[5]
LIT = {"lamp switch": "worked"}
HEATING = {"heater switch": "worked"}
TAIL = Fault("ground lost", "tail stud stud")
BRIDGE = (
    "    - {name: raised, goes: [lamp switch out, buzz relay 86], size: 4 mm2}\n"
    "    - {name: back, goes: [buzz relay 85, tail stud], size: 4 mm2}\n"
    "    - {name: plate, goes: [lamp switch out, plate heater, dash stud], size: 4 mm2}\n"
    "    - {name: buzz, goes: [always, fuse 2, buzz relay 30-87, buzzer, dash stud], size: 4 mm2}\n"
)


def of(*swaps: tuple[str, str], more: str = "") -> Wiring:
    """Return the small wiring, changed."""
    found = parse(changed(*swaps, more=more)).build.wiring
    assert found is not None
    return found


def bridge_text(
    plate: str = "2 A", guard: str = "none", buzzer: str = "1 A", more: str = BRIDGE
) -> str:
    """Return a wiring in which a coil lies between a heater's ground and a load that is off.

    With the tail stud lost the heater's current goes back through the coil and that load.
    """
    own = (
        f"  relays:\n    - {{name: buzz relay, at: dash, coil: 90 ohm, coil guard: {guard}}}\n"
        "  loads:\n"
        f"    - {{name: plate heater, at: dash, kind: heater, takes: {plate}, measured at: 12 V}}\n"
        f"    - {{name: buzzer, at: dash, kind: heater, takes: {buzzer}, measured at: 12 V}}\n"
    )
    return changed(("  loads:\n", own), more=more)


def bridge(
    plate: str = "2 A", guard: str = "none", buzzer: str = "1 A", more: str = BRIDGE
) -> Wiring:
    """Return the wiring of `bridge_text`."""
    found = parse(bridge_text(plate, guard, buzzer, more)).build.wiring
    assert found is not None
    return found


def seen(wiring: Wiring, mode: Mode, put: dict[str, str], fault: Fault | None = None) -> Lit:
    """Return what is lit in a state, which there is."""
    found = lit(wiring, "mm", mode, put, fault)
    assert found is not None
    return found


def volts(wiring: Wiring, load: str, put: dict[str, str], fault: Fault | None = None) -> float:
    """Return the volts across a load that is on with the ignition on."""
    found = dict(seen(wiring, IGNITION, put, fault).on)[load]
    assert found is not None
    return found


@pytest.mark.parametrize(("takes", "cut_out"), [("40 W", 6.0), ("60 W", 8.0)])
def test_electronics_behind_a_bad_crimp_stand_on_the_upper_of_the_two_voltages(
    takes: str, cut_out: float
) -> None:
    # u = (E + sqrt(E^2 - 4 P R)) / 2; what lies on the way follows from the sound voltage
    own = of(("kind: LED, takes: 6 W", f"kind: LED, takes: {takes}, cuts out: {cut_out} V"))
    power, sound = float(takes.split(maxsplit=1)[0]), volts(own, "lamp", LIT)
    way = sound * (12.6 - sound) / power
    expected = (12.6 + sqrt(12.6**2 - 4 * power * (way + 0.5))) / 2
    assert volts(own, "lamp", LIT, Fault("bad crimp", "lamp 2")) == pytest.approx(
        expected, abs=2e-3
    )


@pytest.mark.parametrize(
    ("takes", "cut_out"),
    [
        ("90 W", 6.0),  # E^2 / 4 R is 79 W at most
        ("60 W", 10.5),  # it would stand at 9.4 V
    ],
)
def test_electronics_that_cannot_stay_on_let_go(takes: str, cut_out: float) -> None:
    own = of(("kind: LED, takes: 6 W", f"kind: LED, takes: {takes}, cuts out: {cut_out} V"))
    crimp = Fault("bad crimp", "lamp 2")
    assert dict(seen(own, IGNITION, LIT, crimp).on) == {"lamp": None}
    assert tried(own, "mm", IGNITION, LIT, crimp).stopped == ("lamp",)
    table = meter_table(own, "mm")
    assert table is not None
    place = table.place("lamp")
    assert place is not None
    # off it takes next to nothing: 12.6 V through a ten-thousandth of what is on its way
    shown = table.faulted[table.faults.index(crimp), place]
    assert shown == pytest.approx(12.6 * 1e4 / (1e4 + 0.5), abs=2e-3)


def test_one_load_that_lets_go_does_not_bring_the_alternator_to_its_limit() -> None:
    # the heater is 12 V / 6 A = 2 ohm, at 14.2 V whether the lamp is off or has let go
    own = of(("kind: LED, takes: 6 W", "kind: LED, takes: 90 W"))
    off = dict(seen(own, RUNNING, HEATING).on)["heater"]
    let_go = dict(seen(own, RUNNING, {**HEATING, **LIT}, Fault("bad crimp", "lamp 2")).on)
    assert off is not None
    assert let_go["lamp"] is None
    assert let_go["heater"] == pytest.approx(off, abs=2e-3)
    assert off > 13.5  # at its limit it would leave the battery to hold 13.1 V


def test_electronics_run_on_what_comes_through_another_load() -> None:
    # 12 W between a lost stud and one that is not, behind the heater: u = (E + sqrt(E^2 - 4 P R)) / 2
    more = "    - {name: strip, goes: [tail stud, strip, dash stud], size: 4 mm2}\n"
    strip = ("  loads:\n", "  loads:\n    - {name: strip, at: boot, kind: LED, takes: 12 W}\n")
    own = of(strip, more=more)
    found = dict(seen(own, IGNITION, HEATING, TAIL).stray)
    ohms = 2.0 * 12.6 / volts(own, "heater", HEATING)
    expected = (12.6 + sqrt(12.6**2 - 4 * 12.0 * ohms)) / 2
    assert found["strip"] == pytest.approx(expected, rel=0.01)


def test_a_coil_that_gets_enough_through_loads_pulls_in_and_what_it_switches_runs() -> None:
    # heater 2 ohm, coil 90 ohm the wrong way round, plate heater 6 ohm
    own = bridge()
    found = seen(own, IGNITION, HEATING, TAIL)
    (urged,) = found.urged
    assert (urged.relay, urged.pulls_in) == ("buzz relay", True)
    assert urged.volts == pytest.approx(-12.6 * 90 / (2 + 90 + 6), rel=0.005)
    assert [name for name, _ in found.on] == ["buzzer"]
    assert "buzz relay" in found.carries
    assert dict(tried(own, "mm", IGNITION, HEATING, TAIL).wrongly)["buzzer"] == pytest.approx(
        12.5, abs=0.1
    )


def test_a_coil_that_gets_less_than_its_pull_in_voltage_stays_out() -> None:
    # plate heater 60 ohm: 12.6 * 90 / 152 = 7.5 V
    found = seen(bridge(plate="0.2 A"), IGNITION, HEATING, TAIL)
    assert found.urged == ()
    assert "buzzer" not in dict(found.on)
    assert dict(found.stray)["plate heater"] == pytest.approx(12.6 * 60 / 152, rel=0.005)


def test_a_coil_with_a_diode_across_it_does_not_pull_in_the_wrong_way_round() -> None:
    assert seen(bridge(guard="diode"), IGNITION, HEATING, TAIL).urged == ()
    turned = BRIDGE.replace("relay 86]", "relay 85]").replace("[buzz relay 85,", "[buzz relay 86,")
    assert seen(bridge(guard="diode", more=turned), IGNITION, HEATING, TAIL).urged != ()


def test_a_relay_that_contacts_feed_drops_out_where_no_current_comes_back() -> None:
    # with the battery's minus wire broken the body hangs on nothing, though every contact is closed
    found = seen(bridge(), KEY_OUT, LIT, Fault("wire broken", "minus 1"))
    (urged,) = found.urged
    assert (urged.relay, urged.pulls_in) == ("buzz relay", False)
    assert abs(urged.volts) < 1.0
    assert "buzzer" not in dict(found.on)


def test_a_relay_whose_contact_takes_its_own_coil_away_chatters() -> None:
    # pulled in it joins the buzzer of 0.1 ohm beside its coil, behind the plate heater of 6 ohm
    own = bridge(
        buzzer="120 A",
        more=BRIDGE.replace("[always, fuse 2, buzz relay 30-87", "[buzz relay 86, buzz relay 30-87")
        .replace("[lamp switch out, plate", "[always, plate")
        .replace("plate heater, dash stud]", "plate heater, buzz relay 86]")
        .replace("    - {name: raised, goes: [lamp switch out, buzz relay 86], size: 4 mm2}\n", ""),
    )
    assert lit(own, "mm", KEY_OUT, {}) is None


def test_the_sneak_names_the_relay_and_what_runs_because_of_it() -> None:
    found = {(one.load, one.ground): one for one in sneaks(bridge(), "mm")}
    relay = found["buzz relay", "tail stud"]
    assert (relay.relay, relay.runs) == ("pulls in", ("buzzer",))
    assert abs(relay.volts) == pytest.approx(12.6 * 90 / (2 + 90 + 6), rel=0.005)
    assert ("buzzer", "tail stud") not in found


def test_the_finding_says_which_relay_pulls_in_and_what_then_runs() -> None:
    found = {one.place: one for one in sneak.findings(wiring_outcome(bridge(), "mm"), "mm")}
    one = found["buzz relay with tail stud lost"]
    assert one.says == (
        "With tail stud lost buzz relay pulls in though it is off: its coil gets 11.6 V (key at"
        " ignition, heater switch worked). Buzzer then runs."
    )
