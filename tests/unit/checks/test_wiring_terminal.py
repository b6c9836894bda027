"""Rules 'terminal' and 'loose end': what a stud or crimp holds, and what leads nowhere."""

import pytest

from tests.small_wiring import changed, told
from trimwright.build import edited, parse
from trimwright.findings import Finding

DEVICES = """  plugs:
    - {name: dash plug, at: box, cavities: 4}
  splices:
    - {name: lamp splice, at: dash}
  relays:
    - {name: horn relay, at: box}
  loads:
"""
PLUG = ("  loads:\n", DEVICES)


def _by_place(rule: str, *swaps: tuple[str, str], more: str = "") -> dict[str, Finding]:
    found = told(changed(*swaps, more=more))
    return {place: one for place, one in found.items() if one.rule == rule}


def _goes(*paths: str, size: str = "1 mm2") -> str:
    told = (
        f"    - {{name: more {n}, goes: [{one}], size: {size}}}\n" for n, one in enumerate(paths)
    )
    return "".join(told)


def test_a_sound_wiring_holds_what_its_terminals_take() -> None:
    found = _by_place("terminal")
    assert set(found) == {"wires at terminals"}
    assert found["wires at terminals"].says.startswith("22 terminals hold no more")


def test_a_stud_holds_four_rings_and_a_fifth_goes_to_another() -> None:
    four = _goes(*["heater -, dash stud"] * 3)
    assert "wires at dash stud" not in _by_place("terminal", more=four)
    five = _goes(*["heater -, dash stud"] * 4)
    one = _by_place("terminal", more=five)["wires at dash stud"]
    assert (one.grade, one.figure, one.limit, one.measure) == ("change", 5.0, 4.0, "count")
    after = edited(changed(more=five), one.remedies[0].edits)
    wiring = parse(after).build.wiring
    assert wiring is not None
    new = wiring.grounds[-1]
    assert (new.name, new.at, new.to_battery.text) == ("dash stud 2", "dash", "2 mohm")
    assert wiring.paths[-1].goes == ("heater -", "dash stud 2")
    assert "wires at dash stud" not in told(after)


def test_a_crimp_holds_two_wires_and_more_are_joined_ahead_of_it() -> None:
    extra = ["fuse 2, heater +", "fuse 2, heater +"]
    one = _by_place("terminal", more=_goes(*extra))["wires at fuse 2 out"]
    assert (one.figure, one.limit) == (3.0, 2.0)
    assert one.remedies[0].says == "Bring what is too many there to fuse 2 joint."
    after = told(edited(changed(more=_goes(*extra)), one.remedies[0].edits))
    assert "wires at fuse 2 out" not in after
    assert after["voltage at lamp"].grade == "good"


def test_what_a_path_only_passes_is_not_moved() -> None:
    through = _goes(*["always, fuse 1 out, heater +"] * 2)
    one = _by_place("terminal", more=through)["wires at fuse 1 out"]
    assert one.figure == 5.0
    assert one.remedies[0].edits == ()


def test_a_cavity_is_counted_half_by_half() -> None:
    through = "always, fuse 2, dash plug 1, lamp +"
    assert set(_by_place("terminal", PLUG, more=_goes(through))) == {"wires at terminals"}
    more = _goes(through, "heater +, dash plug 1", "heater +, dash plug 1", "heater +, dash plug 1")
    one = _by_place("terminal", PLUG, more=more)["wires at dash plug 1"]
    assert one.figure == 4.0  # from the fuse on one half, to lamp and heater on the other


@pytest.mark.parametrize(("size", "copper"), [("2.5 mm2", 5.0), ("4 mm2", 8.0)])
def test_a_blade_takes_so_much_copper(size: str, copper: float) -> None:
    lamp = ("lamp, dash stud], size: 1 mm2", f"lamp, dash stud], size: {size}")
    found = _by_place("terminal", lamp, more=_goes("fuse 2, heater +", size=size))
    if copper <= 6.0:
        assert set(found) == {"wires at terminals"}
    else:
        one = found["copper at fuse 2 out"]
        assert (one.grade, one.figure, one.limit, one.measure) == ("change", copper, 6.0, "mm2")


def test_one_wire_thicker_than_a_blade_takes_is_worth_a_look() -> None:
    heater = ("heater, tail stud], size: 4 mm2", "heater, tail stud], size: 10 mm2")
    one = _by_place("terminal", heater)["wires thicker than their terminals"]
    assert (one.grade, one.figure) == ("look", None)
    assert "heater 1 at fuse 1 out, heater 1 at heater switch in" in one.says
    assert "main" not in one.says  # a stud takes any ring


@pytest.mark.parametrize(
    ("goes", "place", "grade"),
    [
        ("fuse 1, lamp switch in", None, ""),
        ("fuse 1, horn relay 30", "horn relay 30", "change"),
        ("horn relay 87a, lamp +", "horn relay 87a", "change"),
        ("horn relay 85, dash stud", "horn relay 85", "change"),
        ("lamp splice, dash stud", "lamp splice", "change"),
        ("fuse 1, dash plug 2", "dash plug 2", "change"),
        ("fuse 1, horn relay 30-87, dash plug 2, lamp +", None, ""),
    ],
)
def test_an_end_that_leads_nowhere_is_named(goes: str, place: str | None, grade: str) -> None:
    found = _by_place("loose end", PLUG, more=_goes(goes))
    if place is None:
        assert found == {}
        return
    one = found[f"loose end at {place}"]
    assert one.grade == grade
    assert "more 0 1" in one.says


def test_a_switch_that_nothing_goes_on_from_is_named() -> None:
    cut = ("lamp switch, lamp, dash stud]", "lamp switch]")
    one = _by_place("loose end", cut)["loose end at lamp switch in"]
    assert one.says == (
        "Lamp switch in leads nowhere: lamp 1 comes to it, nothing goes on from lamp switch out."
    )


def test_a_spare_fuse_is_worth_a_look() -> None:
    spare = ("rated: 5 A}\n", "rated: 5 A}\n    - {name: fuse 3, at: box, rated: 5 A}\n")
    one = _by_place("loose end", spare, more=_goes("always, fuse 3"))["loose end at fuse 3 in"]
    assert (one.grade, "the feed beside it comes to it" in one.says) == ("look", True)
