"""A build's wiring solved: against closed forms with the same resistances."""

import pytest

from tests.small_wiring import outcome, wiring
from trimwright.wiring import Supply, WiringOutcome
from trimwright.wiring.electric import CONTACT_OHM, FUSE_V, inside_ohm

OHM_PER_M = {"16 mm2": 1.21e-3, "4 mm2": 4.95e-3}  # IEC 60228, class 5, plain, at 20 degC


def _supply(found: WiringOutcome, name: str, mode: str) -> Supply:
    assert found.electrics is not None
    return next(
        one
        for one in found.electrics.supplies
        if one.use.consumer.name == name and one.use.mode.name == mode
    )


def test_one_load_alone_is_a_voltage_divider() -> None:
    # battery, main fuse, two feeds, fuse 1, switch, heater and the body, all in a row by hand
    box_to_dash = 0.5 * 1.03 + 0.2
    dash_to_boot = 3.5 * 1.03 + 0.2
    at_boot = 0.2
    bay_to_box = 1.0 * 1.03 + 0.2
    wires = (
        OHM_PER_M["16 mm2"] * (0.2 + bay_to_box)
        + OHM_PER_M["4 mm2"] * (box_to_dash + dash_to_boot + at_boot)
        + OHM_PER_M["16 mm2"] * (0.2 + 0.2)
    )
    parts = 0.010 + FUSE_V / 40 + 0.002 + 0.005 + FUSE_V / 10 + CONTACT_OHM + 0.003 + 0.001
    heater = 12.0 / 6.0
    expected = 12.6 * heater / (heater + wires + parts)
    found = _supply(outcome(), "heater", "ignition on, engine stopped")
    assert found.alone_v == pytest.approx(expected, rel=1e-6)
    # of what is lost the battery, its own lead and the body are no part of the way to the load
    way = wires + parts - 0.010 - 0.004 - OHM_PER_M["16 mm2"] * 0.2
    assert found.lost * 12.0 >= 12.6 / (heater + wires + parts) * way


def test_what_holds_the_voltage_up_differs_from_mode_to_mode() -> None:
    found = outcome()
    still = _supply(found, "heater", "ignition on, engine stopped")
    running, cranking = (_supply(found, "heater", mode) for mode in ("running", "cranking"))
    assert cranking.alone_v is not None
    assert still.alone_v is not None
    assert running.alone_v is not None
    assert cranking.alone_v < still.alone_v < running.alone_v
    assert running.post_v == pytest.approx(14.2, abs=0.4)


def test_inner_resistance_follows_from_the_cranking_current() -> None:
    # a battery that gives 540 A is at 7.2 V then: (12.6 - 7.2)/540 = 10 mohm
    found = inside_ohm(wiring(("inside: 10 mohm", "cranks: 540 A")))
    assert found == pytest.approx(0.010)
    assert inside_ohm(wiring((", inside: 10 mohm", ""))) is None
    # three cells end at half of that
    six = inside_ohm(wiring(("volts: 12.6 V, inside: 10 mohm", "volts: 6.3 V, cranks: 540 A")))
    assert six == pytest.approx(0.005)


def test_without_the_inside_of_its_battery_nothing_is_solved() -> None:
    assert outcome((", inside: 10 mohm", "")).electrics is None


def test_a_load_too_many_drops_out_below_its_cut_out() -> None:
    found = outcome(
        ("kind: LED, takes: 6 W", "kind: electronics, takes: 6 W, cuts out: 12.4 V"),
        ("takes: 6 A, measured at: 12 V", "takes: 40 A, measured at: 12 V"),
    )
    supply = _supply(found, "lamp", "ignition on, engine stopped")
    assert supply.alone_v is not None
    assert supply.worst_v is None
    assert supply.drops_out


def test_the_battery_helps_out_in_those_states_alone_in_which_the_alternator_is_at_its_limit() -> (
    None
):
    own = outcome(("takes: 6 A, measured", "takes: 80 A, measured")).electrics
    assert own is not None
    at = {one.name: number for number, one in enumerate(own.solved.circuit.elements)}
    running = [n for n, row in enumerate(own.rows) if row.mode.name == "running"]
    assert {"heater" in own.rows[n].on for n in running} == {True, False}
    for number in running:
        given = -own.solved.currents[number, [at["alternator at its most"], at["battery"]]]
        if "heater" in own.rows[number].on:
            assert given[0] == pytest.approx(55.0, rel=0.016)  # that a source behind 1000 V strays
            assert given[1] > 5.0
        else:
            assert given == pytest.approx([0.0, 0.0])
