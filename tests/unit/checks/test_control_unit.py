"""A control unit as a table of states: what its outputs join, and the steps that break a rule."""

import re

import pytest

from tests.small_wiring import changed, told
from trimwright.build import InputError, edited, parse
from trimwright.papers.wiring_words import rules_told
from trimwright.wiring import WiringOutcome, meter_table, position_words, wiring_outcome
from trimwright.wiring.contacts import rule_of
from trimwright.wiring.logic import Fault, offending_sequence, single_faults

LAMP = "    - {name: lamp, at: dash, kind: LED, takes: 6 W}\n"
SWITCH = "    - {name: lamp switch, at: dash, carries: 10 A}\n"
SWITCHES = "".join(
    f"    - {{name: {name}, at: dash, carries: 3 A, action: momentary}}\n"
    for name in ("fob", "clutch", "brake", "button")
)
UNIT = """  units:
    - name: start unit
      at: dash
      terminals: [30, 31, 50, 15, fob, clutch, brake, button]
      states: [asleep, awake, cranking, going]
      moves:
        - {from: asleep, to: awake, when: [start unit fob live]}
        - {from: awake, to: cranking, when: [start unit clutch live and start unit brake live and start unit button live]}
        - {from: cranking, to: going, when: [not start unit button live]}
        - {from: going, to: asleep, when: [not start unit fob live], waits: 2 s}
      outputs:
        - {name: starter output, joins: [30, 50], in: [cranking]}
        - {name: pump output, joins: [30, 15], in: [cranking, going]}
"""
PATHS = """    - {name: unit, goes: [always, fuse 2, start unit 30], size: 1 mm2}
    - {name: unit ground, goes: [start unit 31, dash stud], size: 1 mm2}
    - {name: fob, goes: [fuse 2, fob, start unit fob], size: 1 mm2}
    - {name: clutch, goes: [fuse 2, clutch, start unit clutch], size: 1 mm2}
    - {name: brake, goes: [fuse 2, brake, start unit brake], size: 1 mm2}
    - {name: button, goes: [fuse 2, button, start unit button], size: 1 mm2}
    - {name: starter coil, goes: [start unit 50, starter coil, bay stud], size: 1 mm2}
    - {name: pump, goes: [start unit 15, pump, tail stud], size: 1 mm2}
"""
LOADS = (
    "    - {name: starter coil, at: bay, kind: solenoid, takes: 2 A}\n"
    "    - {name: pump, at: boot, kind: heater, takes: 1 A}\n"
)
RULE = "  rules:\n    - {never: starter coil, while: [key out], except: [clutch pressed]}\n"
MENDED = (
    "when: [not start unit button live]}",
    "when: [not start unit button live, not start unit clutch live]}",
)

UNREACHED = (  # a state that closes the starter's output, and to which nothing leads
    ("cranking, going]\n", "cranking, going, trial]\n"),
    ("in: [cranking]}", "in: [cranking, trial]}"),
)


def _text(*swaps: tuple[str, str], rule: str = RULE) -> str:
    text = changed((LAMP, LAMP + LOADS), (SWITCH, SWITCH + SWITCHES), more=PATHS + UNIT + rule)
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new)
    return text


def _outcome(text: str) -> WiringOutcome:
    build = parse(text).build
    assert build.wiring is not None
    return wiring_outcome(build.wiring, build.unit)


def test_a_broken_rule_tells_the_fewest_steps_that_lead_there() -> None:
    # by hand: it cranks once fob, clutch, brake and button are worked, and goes on without clutch
    found = told(_text())["never starter coil"]
    assert found.grade == "stop"
    assert found.says.startswith(
        "Never starter coil does not hold. From rest: 1. fob is worked, start unit goes to awake;"
        " 2. clutch is worked; 3. brake is worked; 4. button is worked, start unit goes to cranking;"
        " 5. clutch is let go."
    )


def test_a_rule_that_the_unit_keeps_holds_though_no_wire_forbids_its_states() -> None:
    found = told(_text(MENDED))["never starter coil"]
    assert found.grade == "look"
    assert found.says.startswith("Never starter coil: holds in every state; single faults break it")


def test_a_unit_feeds_what_its_outputs_join_and_the_currents_are_solved() -> None:
    found = _outcome(_text())
    assert found.idle == ()
    assert found.electrics is not None
    # by hand, key out: 12.6 V behind 10 + 2 + 2.5 (main fuse) + 20 (fuse 2) + 5 (output) mohm, about
    # 0.1 ohm of 1 mm2 wire (18 mohm/m), 2 A: 0.3 V lost
    volts = {
        one.use.consumer.name: one.alone_v
        for one in found.electrics.supplies
        if one.use.mode.name == "key out"
    }
    assert volts["starter coil"] == pytest.approx(12.3, abs=0.1)
    assert volts["pump"] == pytest.approx(12.4, abs=0.1)


def test_a_wait_is_a_step_of_its_own() -> None:
    rule = "  rules:\n    - {never: lamp, while: [start unit is going and not fob pressed], except: [not lamp switch pressed]}\n"
    found = told(_text(rule=rule))["never lamp"]
    assert found.grade == "stop"
    assert "start unit goes to going" in found.says


@pytest.mark.parametrize(
    ("right", "wrong", "says"),
    [
        ("{from: asleep, to: awake", "{from: asleep, to: woke", 'found "woke"; expected one of asleep, awake, cranking, going, such as: awake'),
        ("joins: [30, 50]", "joins: [30, 51]", 'found "51"; expected one of 30, 31, 50, 15'),
        ("joins: [30, 50]", "joins: [30]", "expected two terminals, such as: 30, 31"),
        ("in: [cranking]}", "in: [crank]}", 'found "crank"; expected one of asleep, awake'),
        ("when: [start unit fob live]}", "when: [start unit bob live]}", "expected its terminals are 30, 31, 50, 15"),
        ("while: [key out]", "while: [start unit is open]", "expected a state of start unit: asleep, awake, cranking, going, such as: start unit is asleep"),
        ("goes: [start unit 50,", "goes: [start unit,", "expected which terminal: 30, 31, 50"),
        ("states: [asleep, awake", "states: [asleep, asleep, awake", "expected states, each once"),
        ("name: pump output", "name: starter output", '"starter output" a second time'),
    ],
)  # fmt: skip
def test_a_fault_of_a_unit_is_named_with_its_line(right: str, wrong: str, says: str) -> None:
    with pytest.raises(InputError, match=re.escape(says)) as refused:
        parse(_text((right, wrong)))
    assert re.search(r"line \d+, wiring", str(refused.value))


def test_a_state_of_a_unit_that_nothing_leads_to_sets_nothing_to_work() -> None:
    # with no move to 'cranking' its output never joins, though the table lists the state
    lost = "        - {from: awake, to: cranking, when: [start unit clutch live and start unit brake live and start unit button live]}\n"
    found = _outcome(_text((lost, ""), (RULE, "")))
    assert "starter coil" in {one.name for one in found.idle}


def test_what_a_unit_feeds_is_read_in_a_state_that_steps_lead_to() -> None:
    build = parse(_text()).build
    assert build.wiring is not None
    table = meter_table(build.wiring, build.unit)
    assert table is not None
    # as the solved states above: about 12.3 V arrive; 0 V would be a unit that was left asleep
    place = table.place("starter coil")
    assert place is not None
    assert table.sound[place] == pytest.approx(12.3, abs=0.1)
    output = table.faults.index(Fault("contact open", "start unit starter output"))
    assert table.stops[output, place]
    # a broken wire of the clutch carries nothing, yet with it the unit never comes to crank
    broken = table.faults.index(Fault("wire broken", "clutch 2"))
    assert table.stops[broken, place]


def test_nobody_forgets_what_a_hand_holds() -> None:
    # the coil works only while the button and both pedals are pressed, a heater as long as it is put on
    rows = [says for says in (one.says for one in told(_text()).values()) if "Forgotten" in says]
    assert rows
    assert not any("starter coil" in says for says in rows)


def test_faults_that_break_a_rule_are_those_with_which_some_way_leads_to_a_break() -> None:
    found = _outcome(_text(MENDED, *UNREACHED))
    (proof,) = found.proofs
    rule = rule_of(found.wiring.rules[0], found.wiring, found.network, found.loom)
    faults = [one for one in single_faults(found.network) if one.kind == "contact welded"]
    ways = [offending_sequence(found.network, rule, one).answer for one in faults]
    broken = [one for one, answer in zip(faults, ways, strict=True) if answer == "broken"]
    assert [one.fault for one in proof.faults if one.fault in faults] == broken
    assert 0 < len(broken) < len(faults)


def test_a_rule_that_no_unit_bears_on_is_told_as_without_one() -> None:
    rule = "  rules:\n    - {never: lamp, while: [key out]}\n"
    with_unit, without = told(_text(rule=rule)), told(changed(more=rule))
    assert with_unit["never lamp"].says == without["never lamp"].says
    assert "From rest" not in with_unit["never lamp"].says


def test_a_switch_that_only_tells_a_unit_something_makes_no_more_combinations() -> None:
    # by hand, key out: lamp on or off, times both outputs open, both closed or the pump's alone;
    # into fob, clutch, brake and button no current flows, however they stand
    found = _outcome(_text()).electrics
    assert found is not None
    assert {one.mode.name: one.combinations for one in found.searched}["key out"] == 2 * 3


LET_GO, CLUTCH = "not start unit button live", "not start unit clutch live"
BACK = f"        - {{from: cranking, to: awake, when: [{LET_GO}]}}\n"


@pytest.mark.parametrize(
    ("there", "reasons"),
    [
        (BACK, [(LET_GO, CLUTCH)]),
        ("", [(CLUTCH,)]),
        (BACK.replace("]}", "], waits: 1 s}"), [(LET_GO,), (CLUTCH,)]),
    ],
    ids=["a reason more", "a move of its own", "beside one that waits"],
)
def test_a_unit_that_does_not_let_go_is_given_a_reason_to_leave(
    there: str, reasons: list[tuple[str, ...]]
) -> None:
    text = _text(("      outputs:\n", there + "      outputs:\n"))
    (remedy,) = told(text)["never starter coil"].remedies
    assert remedy.says == (
        "Have start unit go from cranking to awake as soon as start unit clutch is not live."
    )
    after = edited(text, remedy.edits)
    own = parse(after).build.wiring
    assert own is not None
    moves = [one for one in own.units[0].moves if (one.leaves, one.enters) == ("cranking", "awake")]
    assert [one.when for one in moves] == reasons
    assert told(after)["never starter coil"].grade == "look"


def test_no_move_is_offered_where_none_keeps_the_rule() -> None:
    # it starts with the key out, whatever is held: to leave sooner does not help
    found = told(_text(rule="  rules:\n    - {never: starter coil, while: [key out]}\n"))
    assert found["never starter coil"].grade == "stop"
    assert found["never starter coil"].remedies == ()


def test_two_rules_of_one_load_go_by_what_they_forbid() -> None:
    rules = RULE + "    - {never: starter coil, while: [engine running, key at start]}\n"
    places = [one.rule.name for one in _outcome(_text(rule=rules)).proofs]
    assert places == [
        "never starter coil while key out",
        "never starter coil while engine running or key at start",
    ]


def test_the_diagram_says_of_a_rule_what_its_finding_says() -> None:
    # over all states there is one that breaks it, but nothing leads there
    found = _outcome(_text(MENDED, *UNREACHED))
    assert found.proofs[0].verdict.answer == "broken"
    assert "it holds. Single faults that break it" in rules_told(found)[0]
    assert (
        "It does not hold. From rest: 1. fob is worked, start unit goes to awake; 2. "
        in rules_told(_outcome(_text()))[0]
    )


def test_a_reading_tells_where_a_unit_stands_unless_it_is_as_it_wakes() -> None:
    build = parse(_text()).build
    assert build.wiring is not None
    table = meter_table(build.wiring, build.unit)
    assert table is not None
    stands = {one.name: position_words(one, build.wiring) for one in table.probings}
    assert stands["starter coil"][-1] == "start unit cranking"
    assert not any("asleep" in words for told in stands.values() for words in told)
