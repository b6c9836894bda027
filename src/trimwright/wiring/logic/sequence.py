"""The shortest way from rest to a state that breaks a rule, step by step."""

from dataclasses import dataclass
from typing import Literal

from trimwright.wiring.logic.bearing import cone, influence_of
from trimwright.wiring.logic.condition import Condition
from trimwright.wiring.logic.fault import Fault
from trimwright.wiring.logic.journey import FactChange, Journey, lawful
from trimwright.wiring.logic.movement import RelayMove, UnitMove
from trimwright.wiring.logic.network import Network, Rule, State, refuse_unknown, resting
from trimwright.wiring.logic.path import Path, paths
from trimwright.wiring.logic.verdict import broken

MOST_STATES = 20_000
Step = FactChange | RelayMove | UnitMove
Came = dict[State, tuple[State | None, tuple[Step, ...]]]


@dataclass(frozen=True, slots=True)
class Offence:
    """What the ways from rest lead to, of those that bear on a rule.

    'broken': `steps` lead to `state`, in which the rule is broken. 'kept': no way leads to such a
    state. 'unfinished': more states than were asked for; those looked at keep the rule. `restless`
    is a state on a way in which relays or units find no rest; the rule is not judged there.
    What does not bear on the rule is left at rest in `state`.
    """

    rule: Rule
    answer: Literal["broken", "kept", "unfinished"]
    steps: tuple[Step, ...] = ()
    state: State | None = None
    paths: tuple[Path, ...] = ()
    restless: State | None = None


@dataclass(frozen=True, slots=True)
class Reached:
    """A state that steps from rest lead to; None where no way does, or where not all were asked.

    `unfinished` says that there were more states than were asked for; `restless` is a state on a
    way in which relays or units find no rest.
    """

    state: State | None
    steps: tuple[Step, ...]
    restless: State | None
    unfinished: bool = False


def offending_sequence(
    network: Network, rule: Rule, fault: Fault | None = None, most_states: int = MOST_STATES
) -> Offence:
    """Return the fewest steps from rest after which a rule is broken.

    A step is a fact that changes or a unit that goes on after a wait; relays, and moves of units
    that do not wait, follow it at once, in every order. They are told between the steps.

    Parameters
    ----------
    network, rule : Network, Rule
        What is looked at, from `resting(network)` on.
    fault : Fault, optional
        A single fault that is there from the start.
    most_states : int
        How many states of rest are looked at.

    Raises
    ------
    ValueError
        If the rule names what the network does not have, or facts at rest break a constraint.
    """
    refuse_unknown(network, rule)
    journey, wanted, start = _setting_out(network, broken(rule), fault)
    way = _walked(journey, wanted, start, most_states)
    told: Literal["broken", "kept", "unfinished"] = "unfinished" if way.unfinished else "kept"
    if way.state is None:
        return Offence(rule, told, restless=way.restless)
    shown = paths(journey.board, journey.board.standing(way.state), rule.subject)
    return Offence(rule, "broken", way.steps, way.state, shown, way.restless)


def soonest(network: Network, wanted: Condition, most_states: int = MOST_STATES) -> Reached:
    """Return the state in which something holds that the fewest steps from rest lead to.

    Parameters
    ----------
    network : Network
        What is looked at, from `resting(network)` on.
    wanted : Condition
        What is to hold; what does not bear on it stays at rest.
    most_states : int
        How many states of rest are looked at.

    Raises
    ------
    ValueError
        If facts at rest break a constraint.
    """
    return _walked(*_setting_out(network, wanted), most_states)


def _setting_out(
    network: Network, wanted: Condition, fault: Fault | None = None
) -> tuple[Journey, Condition, State]:
    """Return a journey of all that bears on a condition, and where it begins."""
    start = resting(network)
    if not lawful(network, dict(start.facts)):
        raise ValueError(f"facts at rest must keep every constraint, got {start.facts}")
    lost = frozenset([fault.of] if fault and fault.kind == "ground lost" else [])
    bears = cone(influence_of(network, lost), wanted)
    return Journey(network, bears, fault), wanted, start


def _walked(journey: Journey, wanted: Condition, start: State, most_states: int) -> Reached:
    first = journey.settling(start)
    came: Came = {rest: (None, trail) for rest, trail in first.rests}
    restless = first.restless
    waiting = list(came)
    for state in waiting:  # grows on the way: the fewest steps first
        if journey.board.holds(wanted, journey.board.standing(state)):
            return Reached(state, _trail(came, state), restless)
        if len(came) > most_states:
            return Reached(None, (), restless, unfinished=True)
        for step, after in journey.steps(state):
            found = journey.settling(after)
            restless = restless or found.restless
            for rest, trail in found.rests:
                if rest not in came:
                    came[rest] = (state, (step, *trail))
                    waiting.append(rest)
    return Reached(None, (), restless)


def _trail(came: Came, state: State) -> tuple[Step, ...]:
    trail: tuple[Step, ...] = ()
    before: State | None = state
    while before:
        before, steps = came[before]
        trail = (*steps, *trail)
    return trail
