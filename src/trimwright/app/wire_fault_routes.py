"""What the sheet 'wire' asks of faults: what can be wrong, which rules break, and how, step by step."""

from collections.abc import Mapping

from fastapi import APIRouter, HTTPException

from trimwright.app.asked import Good
from trimwright.app.wire_answer import fault_of, fault_said, state_message
from trimwright.app.wire_fault_message import (
    FaultsMessage,
    FrameMessage,
    PartMessage,
    ReplayAsked,
    RuleBreakMessage,
    RuleMessage,
)
from trimwright.app.wire_routes import pages_by_name
from trimwright.build import Build, Wiring
from trimwright.cabin import cabin
from trimwright.wiring import (
    Frame,
    Part,
    Proof,
    WiringOutcome,
    fault_words,
    handles,
    parts,
    replay,
    rule_words,
    state_words,
    step_words,
)

router = APIRouter(prefix="/api/builds/{name}/wire")


@router.get("/faults")
def faults(good: Good) -> FaultsMessage:
    """Return everything in which something can be wrong, and what became of every rule."""
    build = good[1].build
    found = cabin(build).wiring
    at = pages_by_name(build) if found else {}
    hands = _hands(found.wiring) if found else {}
    return FaultsMessage(
        version=good[0].version,
        parts=tuple(_part(one, at, hands) for one in (parts(found.wiring) if found else ())),
        rules=tuple(_rule(found, n, at) for n in range(len(found.proofs))) if found else (),
    )


@router.post("/replay")
def replayed(good: Good, asked: ReplayAsked) -> RuleBreakMessage:
    """Return the fewest steps from rest that break a rule, with what is lit after each."""
    build: Build = good[1].build
    found = cabin(build).wiring
    if found is None or asked.rule >= len(found.proofs):
        raise HTTPException(404, "There is no such rule in this build.")
    fault = None if asked.fault is None else fault_of(found.wiring, asked.fault)
    told = replay(found, build.unit, asked.rule, fault)
    if told is None:
        raise HTTPException(404, "Nothing breaks this rule in that way.")
    return RuleBreakMessage(
        rule=rule_words(found.wiring.rules[asked.rule]),
        fault="" if fault is None else fault_words(fault),
        walked=told.walked,
        frames=tuple(_frame(found, one) for one in told.frames),
    )


def _hands(wiring: Wiring) -> dict[str, str]:
    """Return what is put by hand to work each switch and unit that something is put for."""
    names = {name for name, _ in handles(wiring)}
    by = {switch.name: switch.worked_by or switch.name for switch in wiring.switches}
    by |= {unit.name: unit.name for unit in wiring.units}
    return {name: hand for name, hand in by.items() if hand in names}


def _part(one: Part, at: Mapping[str, int], hands: Mapping[str, str]) -> PartMessage:
    """Return one part with the page that shows it."""
    own = [name for name in one.drawn if name in at]
    page = min((at[name] for name in own), default=0)
    faults = tuple(map(fault_said, one.faults))
    by = hands.get(one.name, "")
    return PartMessage(name=one.name, worked_by=by, drawn=one.drawn, page=page, faults=faults)


def _rule(found: WiringOutcome, number: int, at: Mapping[str, int]) -> RuleMessage:
    """Return one rule with what became of it."""
    proof, own = found.proofs[number], found.wiring.rules[number]
    return RuleMessage(
        number=number,
        page=at.get(own.never or own.always or "", 0),
        place=proof.rule.name,
        says=rule_words(own),
        broken=proof.answer == "broken",
        became=_became(proof),
        faults=tuple(fault_said(one.fault) for one in proof.faults),
    )


def _became(proof: Proof) -> str:
    """Return what became of a rule, in words."""
    if proof.answer != "proven":
        return {
            "broken": "It is broken with nothing wrong.",
            "unfinished": "It cannot be told: its units go through too many states.",
            "vacuous": "It asks nothing: no state is as it says.",
            "unsettled": "It cannot be told: relays it hangs on find no rest.",
        }[proof.answer]
    count = len(proof.faults)
    if count == 0:
        return "It holds, and no single fault breaks it."
    return (
        f"It holds; {f'{count} single faults break' if count > 1 else '1 single fault breaks'} it."
    )


def _frame(found: WiringOutcome, one: Frame) -> FrameMessage:
    """Return one step of a replay."""
    words = "; ".join(step_words(one.steps, found.wiring))
    return FrameMessage(
        says=words, stands=state_words(one.state), state=state_message(one.lit), breaks=one.breaks
    )
