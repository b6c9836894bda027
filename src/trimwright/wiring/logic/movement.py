"""How relays and units come to rest, in whatever order they move."""

from collections.abc import Set as AbstractSet

from msgspec import Struct, field
from msgspec.structs import replace

from trimwright.wiring.logic.network import State
from trimwright.wiring.logic.standing import Board


class RelayMove(Struct, frozen=True):
    """A relay pulls in, or drops out."""

    relay: str
    pulls_in: bool


class UnitMove(Struct, frozen=True):
    """A unit goes to another state."""

    unit: str
    to: str


class Settling(Struct, frozen=True):
    """Where a state comes to rest over every order in which one relay or unit moves after another.

    `rests` are the states of rest, each with the moves that lead there soonest; more than one is a
    race. `restless` is a state on the way from which none is reached, None if there is no such
    state; `chatterers` are the relays and units that move on from it without end.
    """

    rests: tuple[tuple[State, tuple[RelayMove | UnitMove, ...]], ...]
    restless: State | None
    chatterers: tuple[str, ...]


class _Walk(Struct):
    came: dict[State, tuple[State, RelayMove | UnitMove] | None]
    before: dict[State, list[State]] = field(default_factory=dict)
    rests: list[State] = field(default_factory=list)


def settling(board: Board, start: State, movers: AbstractSet[str]) -> Settling:
    """Return where a state comes to rest if some relays and units move, and no others."""
    walk = _Walk({start: None})
    waiting = [start]
    for state in waiting:  # grows on the way: the nearest first
        moves = _moves(board, state, movers)
        if not moves:
            walk.rests.append(state)
        for move, after in moves:
            walk.before.setdefault(after, []).append(state)
            if after not in walk.came:
                walk.came[after] = (state, move)
                waiting.append(after)
    resting = _leading_to(walk)
    lost = [state for state in waiting if state not in resting]
    moving = {_name(move) for state in lost for move, _ in _moves(board, state, movers)}
    everyone = [*board.coils, *(unit.name for unit in board.network.units)]
    return Settling(
        tuple((rest, _trail(walk, rest)) for rest in walk.rests),
        lost[0] if lost else None,
        tuple(name for name in everyone if name in moving),
    )


def _name(move: RelayMove | UnitMove) -> str:
    return move.relay if isinstance(move, RelayMove) else move.unit


def _moves(
    board: Board, state: State, movers: AbstractSet[str]
) -> list[tuple[RelayMove | UnitMove, State]]:
    """Return what may move next, and the state after it."""
    seen = board.standing(state)
    found: list[tuple[RelayMove | UnitMove, State]] = []
    for relay in (name for name in board.coils if name in movers):
        fed, pulled = board.energised(relay, seen), relay in state.pulled
        if fed != pulled:
            now = {*state.pulled, relay} if fed else {*state.pulled} - {relay}
            after = replace(state, pulled=tuple(name for name in board.coils if name in now))
            found.append((RelayMove(relay, fed), after))
    for unit in (one for one in board.network.units if one.name in movers):
        found += [
            (UnitMove(unit.name, move.to), moved(state, unit.name, move.to))
            for move in board.open_moves(unit, seen)
            if not move.waits
        ]
    return found


def moved(state: State, unit: str, to: str) -> State:
    """Return the state after a unit has gone to another of its states."""
    units = tuple((name, to if name == unit else stands) for name, stands in state.units)
    return replace(state, units=units)


def _leading_to(walk: _Walk) -> set[State]:
    found = set(walk.rests)
    waiting = [*walk.rests]
    while waiting:
        for state in walk.before.get(waiting.pop(), ()):
            if state not in found:
                found.add(state)
                waiting.append(state)
    return found


def _trail(walk: _Walk, state: State) -> tuple[RelayMove | UnitMove, ...]:
    trail: list[RelayMove | UnitMove] = []
    came = walk.came[state]
    while came:
        state, move = came
        trail.append(move)
        came = walk.came[state]
    return tuple(reversed(trail))
