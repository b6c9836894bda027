"""What is lit, with a fault or without, as messages."""

from fastapi import HTTPException

from trimwright.app.wire_fault_message import FaultSaid
from trimwright.app.wire_message import (
    FaultAsked,
    MovedMessage,
    OnMessage,
    StateMessage,
    TriedMessage,
)
from trimwright.build import Wiring
from trimwright.quantities import shown_voltage
from trimwright.wiring import (
    Fault,
    Lit,
    Tried,
    Urged,
    WiringOutcome,
    dies_with,
    fault_words,
    parts,
    rule_words,
)


def fault_of(wiring: Wiring, asked: FaultAsked) -> Fault:
    """Return the fault that is asked about.

    Raises
    ------
    HTTPException
        If nothing in the wiring can go wrong in that way.
    """
    for part in parts(wiring):
        for fault in part.faults:
            if (fault.kind, fault.of) == (asked.kind, asked.of):
                return fault
    raise HTTPException(404, "There is nothing in this wiring that can go wrong in that way.")


def fault_said(fault: Fault) -> FaultSaid:
    """Return a fault with its words."""
    return FaultSaid(kind=fault.kind, of=fault.of, says=fault_words(fault))


def state_message(found: Lit | None, tried: TriedMessage | None = None) -> StateMessage:
    """Return what is lit."""
    if found is None:
        return StateMessage(settled=False, live=(), carries=(), on=(), tried=tried)
    return StateMessage(
        settled=True,
        live=tuple(sorted(found.live)),
        carries=tuple(sorted(found.carries)),
        on=_on(found.on),
        by_volts=_by_volts(found.urged),
        tried=tried,
    )


def tried_message(found: WiringOutcome, fault: Fault, told: Tried) -> TriedMessage:
    """Return what a fault does in one state, and what a blown fuse takes along in any."""
    rules = found.wiring.rules
    return TriedMessage(
        says=fault_words(fault),
        stopped=told.stopped,
        wrongly=_on(told.wrongly),
        moved=tuple(
            MovedMessage(name=name, before=shown_voltage(one), after=shown_voltage(other))
            for name, one, other in told.moved
        ),
        breaks=tuple(rule_words(rules[n]) for n in told.breaks),
        dies=dies_with(found, fault.of) if fault.kind == "fuse blown" else (),
    )


def _by_volts(urged: tuple[Urged, ...]) -> tuple[str, ...]:
    """Return in words what each relay did last because of the volts at its coil."""
    said = {
        one.relay: f"{one.relay} pulls in on the {volts} that reach its coil through loads"
        if one.pulls_in
        else f"{one.relay} drops out: only {volts} reach its coil"
        for one in urged
        for volts in [shown_voltage(abs(one.volts))]
    }
    return tuple(said.values())


def _on(loads: tuple[tuple[str, float | None], ...]) -> tuple[OnMessage, ...]:
    """Return loads with their voltages in words."""
    return tuple(
        OnMessage(name=name, volts="" if volts is None else shown_voltage(volts))
        for name, volts in loads
    )
