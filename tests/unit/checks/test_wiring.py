"""Rules of the wiring: what is said of a small wiring when one thing in it is wrong."""

import pytest

from tests.small_wiring import changed, outcome, told
from trimwright.build import edited, parse
from trimwright.findings import GRADES

GUARDED = "  rules:\n    - {never: lamp, while: [engine running]}\n"
RELEASE = (
    ("    - {name: lamp, at: dash, kind: LED, takes: 6 W}\n", "    - {name: lamp, at: dash, kind: LED, takes: 6 W}\n    - {name: lock, at: boot, kind: solenoid, takes: 3 A, on for: 0.5 s, opens: tailgate}\n"),
)  # fmt: skip


def test_a_sound_wiring_has_nothing_to_stop_it() -> None:
    found = told(changed())
    wrong = {place: one.grade for place, one in found.items() if one.lock in ("carpet", "refit")}
    assert {
        grade for grade in wrong.values() if GRADES.index(grade) < GRADES.index("look")
    } == set()


def test_a_wire_that_its_fuse_does_not_look_after_is_a_stop_with_two_ways_out() -> None:
    found = told(changed(("rated: 5 A", "rated: 20 A")))["wires of lamp"]
    assert found.grade == "stop"
    assert found.figure is not None
    assert found.limit is not None
    assert found.figure < found.limit == pytest.approx(27.0)  # 135 % of 20 A: it may never open
    assert [one.edits[0].path[1] for one in found.remedies] == ["fuses", "paths"]


def test_a_fuse_that_is_too_small_for_what_lasts_is_told() -> None:
    found = told(
        changed(("name: fuse 1, at: box, rated: 10 A", "name: fuse 1, at: box, rated: 7.5 A"))
    )
    assert found["fuse 1"].grade == "change"
    assert found["fuse 1"].limit == pytest.approx(6.0)
    assert found["fuse 1"].remedies[0].edits[0].value == "10 A"


def test_a_fuse_opens_when_a_motor_starts() -> None:
    text = changed(
        (
            "kind: heater, takes: 6 A, measured at: 12 V",
            "kind: motor, takes: 6 A, starts with: 40 A",
        )
    )
    found = told(text)["fuse 1"]
    assert found.grade == "change"
    assert "may open when heater starts" in found.says


def test_a_contact_is_held_against_its_load_by_kind() -> None:
    # a 12 V lamp asks for 5 times its current [AC 43.13-1B, table 11-4]: 6 A for 30 A
    lamps = ("kind: heater, takes: 6 A", "kind: lamp, takes: 6 A")
    found = told(changed(lamps))["contacts of heater switch"]
    assert (found.grade, found.figure, found.limit) == ("stop", 30.0, 20.0)
    heater = told(changed())["contacts of heater switch"]
    assert (heater.grade, heater.figure) == ("good", 6.0)


def test_a_relay_goes_in_as_one_whole_edit() -> None:
    lamps = ("kind: heater, takes: 6 A", "kind: lamp, takes: 6 A")
    text = changed(lamps)
    remedy = told(text)["contacts of heater switch"].remedies[0]
    after = edited(text, remedy.edits)
    wiring = parse(after).build.wiring
    assert wiring is not None
    assert [(one.name, one.carries.text, one.coil_guard) for one in wiring.relays] == [
        ("heater relay", "30 A", "resistor")
    ]
    goes = {one.name: one.goes for one in wiring.paths}
    assert goes["heater"] == ("ignition", "fuse 1", "heater relay 30-87", "heater", "tail stud")
    assert goes["heater worked"] == ("fuse 1", "heater switch", "heater relay 86-85", "tail stud")
    found = told(after)
    assert found["contacts of heater switch"].grade == "good"
    assert found["contacts of heater relay"].grade == "good"


def test_a_load_that_gets_too_little_gets_thicker_wire_that_does() -> None:
    text = changed(("tail stud], size: 4 mm2", "tail stud], size: 0.5 mm2"))
    found = told(text)["voltage at heater"]
    assert found.grade == "change"
    after = told(edited(text, found.remedies[0].edits))["voltage at heater"]
    assert after.grade == "good"


def test_a_rule_is_broken_because_no_wire_knows_and_a_guard_on_the_alternator_mends_it() -> None:
    text = changed(more=GUARDED)
    found = told(text)["never lamp"]
    assert found.grade == "stop"
    assert "No wire tells it of the engine." in found.says
    after = told(edited(text, found.remedies[0].edits))["never lamp"]
    assert after.grade == "look"
    assert "holds in every state; single faults break it" in after.says


def test_a_way_out_needs_a_hand() -> None:
    path = "    - {name: lock, goes: [always, lock, tail stud]}\n"
    found = told(changed(*RELEASE, more=path))["way out by the tailgate"]
    assert found.grade == "stop"
    hand = (
        RELEASE[0][0],
        RELEASE[0][1].replace("opens: tailgate", "opens: tailgate, by hand: cord"),
    )
    assert told(changed(hand, more=path))["way out by the tailgate"].grade == "good"


def test_a_cable_is_too_short_by_what_its_way_asks() -> None:
    # dash to boot is 3500 mm along the trunks, and 30 for each metre
    cable = "  bought cables:\n    - {name: lead, from: dash, to: boot, long: 3500}\n"
    found = told(changed(more=cable))["length of lead"]
    assert found.grade == "change"
    assert found.limit == pytest.approx(3605.0)
    assert (
        told(edited(changed(more=cable), found.remedies[0].edits))["length of lead"].grade == "good"
    )


def test_grounds_apart_whine_and_only_a_cure_that_was_tried_is_offered() -> None:
    lead = "  signals:\n    - {name: audio, from: lamp, to: heater, disturbed by: 5 mV}\n"
    text = changed(("kind: LED, takes: 6 W", "kind: electronics, takes: 30 W"), more=lead)
    found = told(text)["noise on audio"]
    assert found.grade == "change"
    for remedy in found.remedies:
        assert told(edited(text, remedy.edits))["noise on audio"].grade == "good"


@pytest.mark.parametrize(
    ("swap", "place", "missing"),
    [
        ((", inside: 10 mohm", ""), "battery", "the battery: its cranking current, or its inner resistance"),
        (("kind: LED, takes: 6 W", "kind: LED"), "lamp, what it takes", "what lamp takes"),
        (("dash, carries: 20 A", "dash"), "contacts of heater switch", "what heater switch may carry"),
        (("name: heater, at: boot", "name: heater"), "the place of heater", "the place of heater"),
        ((", at idle: 30 A", ""), "alternator at idle", "what the alternator gives hot and idling"),
        (("size: 1 mm2", "size: 3 mm2"), "size of lamp", "what 3 mm2 wire carries"),
    ],
)  # fmt: skip
def test_what_cannot_be_told_says_what_it_waits_for(
    swap: tuple[str, str], place: str, missing: str
) -> None:
    found = told(changed(swap))[place]
    assert (found.grade, found.missing) == ("look", (missing,))


def test_what_nothing_sets_to_work_is_told() -> None:
    found = told(changed(("heater switch, heater, tail stud", "heater switch, heater")))
    assert found["heater never works"].grade == "change"


def test_parked_days_follow_from_what_sleeps() -> None:
    # 60 Ah, 40 % may go, 70 % left by age, 64 % by cold at 0 degC: 10.752 Ah; 20 mA: 22.4 days
    found = told(changed(("kind: LED, takes: 6 W", "kind: LED, takes: 6 W, asleep: 20 mA")))[
        "parked"
    ]
    assert found.figure == pytest.approx(60 * 0.4 * 0.7 * 0.64 / 0.020 / 24, rel=0.01)
    assert (found.grade, found.limit) == ("good", 21.0)


@pytest.mark.parametrize(("carries", "grade"), [("6.5 A", "stop"), ("10 A", "good")])
def test_a_feed_and_a_cavity_carry_no_more_than_they_may(carries: str, grade: str) -> None:
    # by hand: the heater's 2 ohm (12 V, 6 A) at 14.2 V less what is lost on the way: about 6.9 A
    text = changed(
        ("live: ignition, behind: 5 mohm", f"live: ignition, behind: 5 mohm, carries: {carries}"),
        ("heater switch, heater, tail stud", "heater switch, rear plug 1, heater, tail stud"),
        ("  loads:\n", f"  plugs:\n    - {{name: rear plug, at: box, cavities: 2, carries: {carries}}}\n  loads:\n"),
    )  # fmt: skip
    found = told(text)
    for place in ("current through ignition", "current through rear plug 1"):
        assert found[place].grade == grade
        assert found[place].figure == pytest.approx(6.9, abs=0.15)


def test_two_rules_that_cannot_both_be_kept_are_told() -> None:
    rules = (
        "  rules:\n    - {never: lamp, while: [engine running]}\n"
        "    - {always: lamp, while: [key at ignition]}\n"
    )
    found = told(changed(more=rules))["rules of lamp"]
    assert found.grade == "stop"
    assert "engine running" in found.says
    assert "rules of lamp" not in told(changed(more=GUARDED))


def test_what_a_motor_takes_at_first_is_asked_before_its_fuse_is_called_good() -> None:
    motor = ("kind: heater, takes: 6 A, measured at: 12 V", "kind: motor, takes: 6 A")
    found = told(changed(motor))["fuse 1"]
    assert (found.grade, found.missing) == ("look", ("what heater takes at first",))


def test_a_wire_whose_way_is_not_known_is_not_called_thick_enough() -> None:
    found = told(changed(("name: heater, at: boot", "name: heater")))
    for place in ("wires of heater", "voltage at heater"):
        assert (found[place].grade, found[place].missing) == ("look", ("the place of heater",))


def test_what_a_load_takes_is_asked_of_every_wire_that_its_current_shares() -> None:
    found = told(changed((", takes: 6 A, measured at: 12 V", "")))
    for place in ("wires of heater", "wires of main", "wires of minus", "fuse 1"):
        assert (found[place].grade, found[place].missing) == ("look", ("what heater takes",))
    assert found["wires of lamp"].grade == "good"


def test_wire_that_is_chosen_bears_what_the_fuse_that_it_leads_to_may_hold() -> None:
    # a blade fuse of 40 A may hold 135 % for ever [ISO 8820-3, as in the stock]: 54 A
    found = outcome(("main fuse, always], size: 16 mm2", "main fuse, always]"))
    assert found.electrics is not None
    lead = next(one for one in found.electrics.sizings if one.wire == "main 1")
    assert lead.written is None
    assert lead.carries_a >= 1.35 * 40
