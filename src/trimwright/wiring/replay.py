"""The fewest steps that lead to a broken rule, one after the other, with what is lit after each."""

from msgspec import Struct
from msgspec.structs import replace

from trimwright.build import Wiring
from trimwright.quantities import Unit
from trimwright.wiring.contacts import rule_of
from trimwright.wiring.lit import Lit, looked_at, seen_lit
from trimwright.wiring.logic import (
    Board,
    FactChange,
    Fault,
    Network,
    RelayMove,
    State,
    Step,
    at_rest,
    offending_sequence,
    resting,
)
from trimwright.wiring.mode import Mode
from trimwright.wiring.outcome import WiringOutcome, connections
from trimwright.wiring.tried import broken_rules


class Frame(Struct, frozen=True):
    """One step of a replay.

    Attributes
    ----------
    steps : tuple of Step
        What happens; a change or a wait first, what follows at once after it. None at the start.
    state : State
        How everything stands then.
    lit : Lit or None
        What is lit; None where relays find no rest.
    breaks : bool
        Whether the rule is broken.
    """

    steps: tuple[Step, ...]
    state: State
    lit: Lit | None
    breaks: bool


class Replay(Struct, frozen=True):
    """A rule broken step by step; `walked` says whether a way from rest to it was found."""

    frames: tuple[Frame, ...]
    walked: bool


def replay(
    found: WiringOutcome, unit: Unit, number: int, fault: Fault | None = None
) -> Replay | None:
    """Return how a rule comes to be broken, with a fault or without.

    Parameters
    ----------
    found : WiringOutcome
        Of the build's wiring.
    unit : {'mm', 'in'}
        The build's.
    number : int
        Of the rule, in the order of the file.
    fault : Fault, optional
        One thing that is wrong from the start.

    Returns
    -------
    Replay or None
        A broken state alone where no way from rest leads to one; None where there is no such
        state either.
    """
    laid, network, _ = connections(found.wiring)
    rule = rule_of(found.wiring.rules[number], found.wiring, network, laid)
    told = offending_sequence(network, rule, fault)
    if told.answer == "broken":
        states = _states(network, told.steps)
    else:
        example = _example(found, number, fault)
        if example is None:
            return None
        states = (((), example),)
    frames = tuple(_frame(found.wiring, unit, (number, fault), one) for one in states)
    return Replay(frames, told.answer == "broken")


def _example(found: WiringOutcome, number: int, fault: Fault | None) -> State | None:
    """Return a state in which a rule is broken; None where none is known."""
    proof = found.proofs[number]
    if fault is None:
        return proof.broken_in
    return next((one.example.state for one in proof.faults if one.fault == fault), None)


def _states(
    network: Network, steps: tuple[Step, ...]
) -> tuple[tuple[tuple[Step, ...], State], ...]:
    """Return each change with what follows it at once, and the state after these."""
    state = resting(network)
    found: list[tuple[tuple[Step, ...], State]] = [((), state)]
    for step in steps:
        follows = _follows(network, state, step)
        state = _after(network, state, step)
        if follows:
            found[-1] = ((*found[-1][0], step), state)
        else:
            found.append(((step,), state))
    return tuple(found)


def _follows(network: Network, state: State, step: Step) -> bool:
    """Return whether a step comes at once after the one before, without anything being done."""
    if isinstance(step, FactChange):
        return False
    if isinstance(step, RelayMove):
        return True
    stands = dict(state.units)[step.unit]
    moves = next(unit.moves for unit in network.units if unit.name == step.unit)
    return not any(move.waits for move in moves if (move.state, move.to) == (stands, step.to))


def _after(network: Network, state: State, step: Step) -> State:
    """Return the state after a step."""
    if isinstance(step, FactChange):
        now = dict(step.facts)
        return replace(state, facts=tuple((n, now.get(n, value)) for n, value in state.facts))
    if isinstance(step, RelayMove):
        pulled = {*state.pulled, step.relay} if step.pulls_in else {*state.pulled} - {step.relay}
        kept = tuple(one.relay for one in network.coils if one.relay in pulled)
        return replace(state, pulled=kept)
    units = tuple((name, step.to if name == step.unit else at) for name, at in state.units)
    return replace(state, units=units)


def _frame(
    wiring: Wiring,
    unit: Unit,
    asked: tuple[int, Fault | None],
    told: tuple[tuple[Step, ...], State],
) -> Frame:
    """Return one frame: relays that do not bear on the rule settle beside those that do."""
    number, fault = asked
    steps, state = told
    board = Board(connections(wiring)[1], fault)
    facts = dict(state.facts)
    runs = facts["engine"] == "running"
    mode = Mode("", facts["key"], facts["engine"], "speed" if runs else "battery")
    begun = at_rest(board, state.facts, state.units, state.pulled)
    looked = None if begun is None else looked_at(wiring, unit, mode, (board, begun))
    if looked is None:
        seen = begun or board.standing(state)
        return Frame(steps, state, None, number in broken_rules(wiring, board, seen))
    breaks = number in broken_rules(wiring, board, looked.seen)
    return Frame(steps, looked.seen.state, seen_lit(wiring, looked), breaks)
