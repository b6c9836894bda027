"""Readings of a meter with single faults, against closed forms."""

import pytest

from tests.small_wiring import changed, told, wiring
from trimwright.wiring import MeterTable, chosen, diagnosis, meter_table, unseen
from trimwright.wiring.logic import Fault

SERIES_V, INSIDE = 12.6, 0.010


@pytest.fixture(scope="module")
def table() -> MeterTable:
    """Return what a meter shows in the small wiring."""
    found = meter_table(wiring(), "mm")
    assert found is not None
    return found


def shown(table: MeterTable, reading: str, fault: Fault) -> float:
    """Return what a reading shows with a fault [V]."""
    place = table.place(reading)
    assert place is not None
    return float(table.faulted[table.faults.index(fault), place])


def sound(table: MeterTable, reading: str) -> float:
    """Return what a reading shows with nothing wrong [V]."""
    place = table.place(reading)
    assert place is not None
    return float(table.sound[place])


def test_a_bad_crimp_is_one_more_resistance_of_a_divider(table: MeterTable) -> None:
    # the heater is 12 V / 6 A = 2 ohm; what lies before and behind it follows from its sound reading
    load = 12.0 / 6.0
    way = load * (SERIES_V / sound(table, "heater") - 1)
    expected = SERIES_V * load / (load + way + 0.5)
    assert shown(table, "heater", Fault("bad crimp", "heater 2")) == pytest.approx(
        expected, abs=2e-3
    )


def test_a_broken_ground_lifts_the_feed_side_to_the_feed_and_takes_the_load_away(
    table: MeterTable,
) -> None:
    broken = Fault("ground lost", "tail stud stud")
    assert shown(table, "heater", broken) == pytest.approx(0.0, abs=1e-3)
    assert shown(table, "feed side of heater", broken) == pytest.approx(SERIES_V, abs=1e-3)
    assert shown(table, "tail stud", broken) == pytest.approx(SERIES_V, abs=1e-3)


def test_a_broken_feed_leaves_nothing_on_either_side(table: MeterTable) -> None:
    blown = Fault("fuse blown", "fuse 1")
    assert shown(table, "heater", blown) == pytest.approx(0.0, abs=1e-3)
    assert shown(table, "feed side of heater", blown) == pytest.approx(0.0, abs=1e-3)


def test_limits_are_those_of_the_divider_at_its_ends(table: MeterTable) -> None:
    place = table.place("heater")
    assert place is not None
    load = 2.0
    way = load * (SERIES_V / sound(table, "heater") - 1)
    low = 12.2 * 0.8 * load / (0.8 * load + 1.2 * way) - 0.02
    high = 12.8 * 1.2 * load / (1.2 * load + 0.8 * way) + 0.02
    assert table.low[place] == pytest.approx(low, abs=2e-3)
    assert table.high[place] == pytest.approx(high, abs=2e-3)


def test_the_chosen_readings_see_every_fault_that_stops_a_load(table: MeterTable) -> None:
    taken = chosen(table)
    assert [table.probings[n].name for n in taken] == ["heater", "lamp"]
    assert unseen(table, taken) == ()
    assert unseen(table, taken[:1]) != ()
    assert table.stops.any(axis=1).sum() > len(taken)


def test_a_wrong_reading_tells_its_fault_and_the_next_reading_that_parts_it(
    table: MeterTable,
) -> None:
    place, following = table.place("heater"), table.place("feed side of heater")
    assert place is not None
    assert following is not None
    first = diagnosis(table, {place: 0.0}, place)
    assert first.tied > 1
    assert first.following is not None
    second = diagnosis(table, {place: 0.0, following: 12.6}, place)
    assert 0 < second.tied < first.tied
    near = {one.fault for one in second.likely[: second.tied]}
    assert Fault("ground lost", "tail stud stud") in near
    assert Fault("fuse blown", "fuse 1") not in near


def test_what_was_read_becomes_a_finding() -> None:
    more = (
        "  readings:\n    - {reading: heater, reads: 12.1 V}\n    - {reading: lamp, reads: 0 V}\n"
    )
    found = told(changed(more=more))
    assert found["meter at heater"].grade == "good"
    wrong = found["meter at lamp"]
    assert wrong.grade == "change"
    assert "most likely" in wrong.says
    assert any(one.startswith("Cannot be told apart") for one in wrong.why)
    assert wrong.remedies[0].says.startswith("Read next: ")


def test_without_a_battery_nothing_is_expected() -> None:
    text = changed(
        (", inside: 10 mohm", ""), more="  readings:\n    - {reading: lamp, reads: 12 V}\n"
    )
    assert told(text)["meter at lamp"].grade == "look"


SHARED = """  loads:
    - {name: brake lamp, at: boot, kind: heater, takes: 3 A, measured at: 12 V}
    - {name: tail lamp, at: boot, kind: heater, takes: 1 A, measured at: 12 V}
    - {name: plate lamp, at: boot, kind: heater, takes: 2 A, measured at: 12 V}
"""


def shared_ground() -> str:
    """Return a wiring of which two lamps share a ground, and one of them a feed with a third."""
    text = changed(("    - {name: lamp switch", "    - {name: brake switch, at: dash, carries: 9 A}\n    - {name: lamp switch"))  # fmt: skip
    text = text.replace("  loads:\n", SHARED)
    return text + (
        "    - {name: brake, goes: [always, brake switch, brake lamp, tail stud], size: 1 mm2}\n"
        "    - {name: tail, goes: [lamp switch out, tail lamp, tail stud], size: 1 mm2}\n"
        "    - {name: plate, goes: [lamp switch out, plate lamp, dash stud], size: 1 mm2}\n"
    )


def test_a_lost_ground_sends_current_through_a_lamp_that_is_off() -> None:
    # heater 2 ohm, then tail 12 ohm backwards, then plate 6 ohm beside an LED that is off: of 12.6 V
    # the tail lamp gets 12.6 * 12 / (2 + 12 + 6), its wires making little of it; by the brake lamp
    # of 4 ohm it would get less
    found = told(shared_ground())["tail lamp with tail stud lost"]
    assert found.grade == "look"
    assert found.figure == pytest.approx(12.6 * 12 / (2 + 12 + 6), rel=0.03)
    assert "through heater" in found.says
    assert not any(place.endswith("lost") for place in told(changed()))


def test_what_dies_with_a_fuse_is_told_of_it() -> None:
    assert "With it goes lamp." in told(changed())["fuse 2"].why
    assert "With it goes heater, lamp." in told(changed())["main fuse"].why


def test_a_reading_below_nought_is_taken_and_judged() -> None:
    more = "  readings:\n    - {reading: lamp, reads: -0.4 V}\n"
    found = told(changed(more=more))["meter at lamp"]
    assert found.figure == pytest.approx(-0.4)
    assert found.grade == "change"
