"""A broken rule replayed: from rest, step by step, to the state that breaks it and no sooner."""

from tests.small_wiring import changed, outcome
from tests.unit.checks.test_control_unit import _outcome, _text
from trimwright.build import parse
from trimwright.wiring import (
    FactChange,
    Fault,
    RelayMove,
    WiringOutcome,
    replay,
    step_words,
    wiring_outcome,
)

NEVER = "  rules:\n    - {never: heater, while: [engine stopped]}\n"
ALWAYS = "  rules:\n    - {always: lamp, while: [lamp switch worked]}\n"


def _told(more: str) -> WiringOutcome:
    found = parse(changed(more=more)).build.wiring
    assert found is not None
    return wiring_outcome(found, "mm")


def test_only_the_last_step_breaks_the_rule() -> None:
    found = replay(_told(NEVER), "mm", 0)
    assert found is not None
    assert found.walked
    assert [one.breaks for one in found.frames] == [False, False, True]
    assert found.frames[0].steps == ()
    said = {step for one in found.frames[1:] for step in one.steps}
    assert said == {
        FactChange((("key", "ignition"),)),
        FactChange((("heater switch", "worked"),)),
    }


def test_each_frame_tells_what_is_lit_then() -> None:
    found = replay(_told(NEVER), "mm", 0)
    assert found is not None
    on = [[name for name, _ in one.lit.on] for one in found.frames if one.lit is not None]
    assert on == [[], [], ["heater"]]


def test_a_rule_that_a_fault_breaks_is_replayed_with_the_fault() -> None:
    told = _told(ALWAYS)
    assert replay(told, "mm", 0) is None
    found = replay(told, "mm", 0, Fault("fuse blown", "fuse 2"))
    assert found is not None
    assert [one.breaks for one in found.frames] == [False, True]
    assert found.frames[-1].lit is not None
    assert found.frames[-1].lit.on == ()


def test_a_rule_without_a_break_has_no_replay() -> None:
    assert replay(_told(ALWAYS), "mm", 0, Fault("fuse blown", "fuse 1")) is None
    assert outcome().proofs == ()


def test_relays_pull_in_on_the_way_and_stay_until_they_let_go() -> None:
    relay = ("  loads:\n", "  relays:\n    - {name: helper, at: box}\n  loads:\n")
    paths = (
        "    - {name: helped, goes: [ignition, helper 86-85, dash stud], size: 1 mm2}\n"
        "    - {name: fed, goes: [always, helper 30-87, lamp switch in], size: 1 mm2}\n"
    )
    lamp = ("always, fuse 2, lamp switch, lamp", "lamp switch, lamp")
    rule = "  rules:\n    - {never: lamp, while: [engine running]}\n"
    found = replay(outcome(relay, lamp, more=paths + rule), "mm", 0)
    assert found is not None
    assert [one.breaks for one in found.frames][-2:] == [False, True]
    moves = [step for one in found.frames for step in one.steps if isinstance(step, RelayMove)]
    assert moves == [RelayMove("helper", pulls_in=True)]
    pulled = ["helper" in one.state.pulled for one in found.frames]
    assert pulled == sorted(pulled)
    assert pulled[-1]
    assert not pulled[0]


def test_with_a_control_unit_the_frames_end_where_the_fewest_steps_lead() -> None:
    told = _outcome(_text())
    offence = told.proofs[0].offence
    found = replay(told, "mm", 0)
    assert found is not None
    assert offence is not None
    assert offence.state is not None
    assert found.frames[-1].state.facts == offence.state.facts
    assert found.frames[-1].state.units == offence.state.units == (("start unit", "cranking"),)
    # fob, clutch, brake, button worked, clutch let go: one frame each, and all at rest before
    assert len(found.frames) == 6
    assert step_words(found.frames[1].steps, told.wiring) == (
        "fob is worked, start unit goes to awake",
    )


def test_a_wait_of_a_unit_is_a_frame_of_its_own() -> None:
    rule = (
        "  rules:\n    - {always: pump, while: [not fob pressed], except: [start unit is asleep]}\n"
    )
    awake = "{from: awake, to: cranking"
    waits = (
        "{from: awake, to: asleep, when: [not start unit fob live], waits: 2 s}\n        - " + awake
    )
    found = replay(_outcome(_text((awake, waits), rule=rule)), "mm", 0)
    assert found is not None
    assert found.frames[-1].breaks
    assert [len(one.steps) for one in found.frames[1:]] == [2, 1]
    rest = "  rules:\n    - {never: pump, while: [start unit is asleep]}\n"
    assert replay(_outcome(_text((awake, waits), rule=rest)), "mm", 0) is None


LATCH = (
    "  loads:\n",
    (
        "  relays:\n    - {name: one, at: box}\n    - {name: two, at: box}\n  loads:\n"
        "    - {name: pump, at: boot, kind: heater, takes: 1 A}\n"
    ),
)
LATCHED = (
    "    - {name: first, goes: [always, two 30-87, one 86-85, dash stud], size: 1 mm2}\n"
    "    - {name: second, goes: [always, one 30-87, two 86-85, dash stud], size: 1 mm2}\n"
    "    - {name: held, goes: [two 87, pump, tail stud], size: 1 mm2}\n"
)
STILL = "  rules:\n    - {never: pump, while: [key out]}\n"


def test_a_state_to_which_nothing_leads_is_shown_by_itself() -> None:
    # two relays that hold each other: pulled in both stay, but at rest nothing pulls either
    found = replay(outcome(LATCH, more=LATCHED + STILL), "mm", 0)
    assert found is not None
    assert not found.walked
    (frame,) = found.frames
    assert frame.breaks
    assert set(frame.state.pulled) == {"one", "two"}


def test_a_relay_that_holds_itself_stays_in_when_the_switch_is_let_go() -> None:
    start = "    - {name: begun, goes: [lamp switch out, two 87], size: 1 mm2}\n"
    found = replay(outcome(LATCH, more=LATCHED + start + STILL), "mm", 0)
    assert found is not None
    assert found.walked
    let_go = "  rules:\n    - {never: pump, while: [key out], except: [lamp switch pressed]}\n"
    held = replay(outcome(LATCH, more=LATCHED + start + let_go), "mm", 0)
    assert held is not None
    assert [one.breaks for one in held.frames] == [False, False, True]
    assert set(held.frames[-1].state.pulled) == {"one", "two"}
    assert dict(held.frames[-1].state.facts)["lamp switch"] == "rest"
