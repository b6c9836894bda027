from math import inf

import pytest

from tests.small_wiring import wiring
from trimwright.wiring.copper import opening_band, resistance_factor
from trimwright.wiring.outcome import connections, electrics
from trimwright.wiring.shorted import Rub, shorted
from trimwright.wiring.sizing import fuse_of_class

STILL = (("  alternator: {at: bay, gives: 55 A, at idle: 30 A, holds: 14.2 V}\n", ""),
         ("    - {name: charging, goes: [alternator B+, battery +], size: 10 mm2}\n", ""),
         ("    - {name: alternator ground, goes: [alternator B-, bay stud], size: 10 mm2}\n", ""))  # fmt: skip


def rubs(*swaps: tuple[str, str], more: str = "") -> dict[str, Rub]:
    return {one.wire: one for one in shorted(wiring(*swaps, more=more), "mm")}


def way_ohm(*names: str, wire_c: float = 20.0) -> float:
    """Return the sum of what lies on a way, from the battery round to its post [ohm]."""
    own = wiring(*STILL)
    solution = electrics(own, "mm")
    assert solution is not None
    wires = {one.name for one in connections(own)[0].wires}
    circuit, total = solution.solved.circuit, 0.0
    for name in names:
        ohms = 1 / circuit.elements[circuit.element(name)].values().siemens
        total += ohms * (float(resistance_factor(wire_c)) if name in wires else 1.0)
    return total + 1e-4  # the short itself


ROUND = ("battery", "main 1", "main fuse", "main 2", "always", "minus 1", "bay stud to body")


def test_a_short_drives_what_the_resistances_on_its_way_let_through() -> None:
    one = rubs(*STILL)["heater 1"]
    ahead = (*ROUND, "keyed 1", "ignition", "fuse 1")
    assert one.most_a == pytest.approx(12.6 / way_ohm(*ahead), rel=1e-6)
    warm = way_ohm(*ahead, "heater 1", wire_c=105.0)
    assert one.least_a == pytest.approx(12.6 / warm, rel=1e-6)


def test_a_running_alternator_adds_what_it_gives_at_most() -> None:
    still, running = rubs(*STILL)["heater 1"], rubs()["heater 1"]
    assert running.mode == "running"
    assert still.most_a < running.most_a < still.most_a + 55.0
    assert running.least_a == pytest.approx(still.least_a, rel=1e-9)


def test_the_nearest_fuse_opens_and_all_of_its_band_is_told() -> None:
    one = rubs()["lamp 1"]
    assert one.fuses == ("fuse 2",)
    assert 0 <= one.soonest_s < one.latest_s < 0.1
    assert one.also == ("main fuse",)


def test_a_wire_ahead_of_every_fuse_is_ended_by_none() -> None:
    one = rubs()["main 1"]
    assert one.unfused
    assert one.latest_s == inf
    assert one.warmest is not None
    assert one.warmest.celsius == 1083.0


def test_what_is_ground_in_every_state_carries_nothing() -> None:
    for name in ("minus 1", "heater 3", "lamp 3", "alternator ground 1"):
        assert rubs()[name] == Rub(name)


def test_behind_a_load_switched_to_ground_the_load_works() -> None:
    swap = (
        "[always, fuse 2, lamp switch, lamp, dash stud]",
        "[always, fuse 2, lamp, lamp switch, dash stud]",
    )
    swap2 = ("kind: LED, takes: 6 W", "kind: lamp, takes: 6 W")
    one = rubs(swap, swap2)["lamp 2"]
    assert (one.loads, one.fed, one.fuses) == (("lamp",), False, ())
    assert 0.4 < one.least_a < one.most_a < 0.7


def test_a_long_thin_wire_passes_too_little_for_its_fuse_to_open() -> None:
    thin = rubs(
        ("rated: 10 A", "rated: 20 A"),
        ("from: box, to: boot, long: 3000", "from: box, to: boot, long: 20000"),
        ("tail stud], size: 4 mm2", "tail stud], size: 0.75 mm2"),
    )["heater 2"]
    assert thin.fuses == ("fuse 1",)
    assert thin.fuse_a < 1.35 * 20
    assert thin.latest_s == inf


def test_two_fuses_side_by_side_open_one_after_the_other() -> None:
    more = (
        "    - {name: twin a, goes: [always, fuse 3, joint], size: 4 mm2}\n"
        "    - {name: twin b, goes: [always, fuse 4, joint], size: 1 mm2}\n"
        "    - {name: fed twice, goes: [joint, fan, tail stud], size: 4 mm2}\n"
        "  splices:\n    - {name: joint, at: boot}\n"
    )
    two = "    - {name: fuse 2, at: box, rated: 5 A}\n"
    three = "    - {name: fuse 3, at: box, rated: 10 A}\n"
    lamp, fan = (
        "    - {name: lamp, at: dash,",
        "    - {name: fan, at: boot, kind: motor, takes: 8 A}\n",
    )
    entries = ((two, two + three + three.replace("fuse 3", "fuse 4")), (lamp, fan + lamp))
    one = rubs(*entries, more=more)["fed twice 1"]
    assert one.fuses == ("fuse 3", "fuse 4")
    # the second carries all of it only once the first has opened: their times add up
    ten = fuse_of_class("blade", 10.0)
    assert one.latest_s > 1.2 * float(opening_band(ten, one.fuse_a)[1])


def test_the_other_way_of_a_reversing_switch_is_found() -> None:
    more = (
        "    - {name: up, goes: [window switch a, window a], size: 2.5 mm2}\n"
        "    - {name: down, goes: [window b, window switch b], size: 2.5 mm2}\n"
        "    - {name: fed, goes: [always, fuse 1, window switch feed], size: 2.5 mm2}\n"
        "    - {name: earth, goes: [window switch ground, dash stud], size: 2.5 mm2}\n"
    )
    switch = "    - {name: window switch, at: dash, contacts: reversing, carries: 20 A}\n"
    window = "    - {name: window, at: boot, kind: motor, takes: 8 A}\n"
    swaps = (("  loads:\n", f"{switch}  loads:\n{window}"),)
    found = rubs(*swaps, more=more)
    assert found["down 1"].fuses == found["up 1"].fuses == ("fuse 1",)
    assert found["down 1"].most_a == pytest.approx(found["up 1"].most_a, rel=1e-6)
    assert found["earth 1"] == Rub("earth 1")


def test_nothing_is_told_of_a_wiring_that_cannot_be_solved() -> None:
    assert shorted(wiring((", inside: 10 mohm", "")), "mm") == ()


def test_a_charge_lamps_wire_on_the_body_lights_the_lamp_and_takes_the_alternator_its_excitation() -> (
    None
):
    lamp = "    - {name: lamp, at: dash, kind: LED, takes: 6 W}\n"
    telltale = "    - {name: charge lamp, at: dash, kind: lamp, takes: 2 W}\n"
    path = "    - {name: told, goes: [ignition, charge lamp, alternator D+], size: 1 mm2}\n"
    one = rubs((lamp, lamp + telltale), more=path)["told 2"]
    assert (one.loads, one.fed) == (("charge lamp",), False)
    assert one.most_a < 0.5
