"""A broken rule replayed: from rest, step by step, to the state that breaks it and no sooner."""

from tests.small_wiring import changed, outcome
from trimwright.build import parse
from trimwright.wiring import Fault, WiringOutcome, replay, wiring_outcome
from trimwright.wiring.logic import FactChange

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
