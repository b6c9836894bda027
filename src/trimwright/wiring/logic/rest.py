"""Where relays and units come to rest from a set of facts, beginning with relays dropped out."""

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from trimwright.wiring.logic.movement import moved
from trimwright.wiring.logic.network import State, resting
from trimwright.wiring.logic.standing import Board, Standing


def at_rest(
    board: Board,
    facts: tuple[tuple[str, str], ...],
    units: tuple[tuple[str, str], ...] | None = None,
    pulled: tuple[str, ...] = (),
    known: Mapping[str, bool] = MappingProxyType({}),
) -> Standing | None:
    """Return what follows from facts once relays and units have settled; None if they never do.

    All relays that would move, move at once, time after time. Without loops of relays this is the
    one state of rest; with loops it is the one that is reached from rest if none is slower. Once the
    relays have settled, the first unit with a move that does not wait makes it, and the relays
    settle anew.

    Parameters
    ----------
    board : Board
        A network, with a fault or none.
    facts : tuple
        A value for each fact of the network.
    units : tuple, optional
        Where each unit stands; as it wakes, if left out.
    pulled : tuple of str
        The relays that are pulled in to begin with.
    known : mapping of str to bool
        Relays that are pulled in, or are not, whatever contacts join them to.
    """
    stand = resting(board.network).units if units is None else units
    state, seen = State(facts, pulled, stand), set[State]()
    while state not in seen:
        seen.add(state)
        stands = board.standing(state)
        after = tuple(
            coil.relay
            for coil in board.network.coils
            if known.get(coil.relay, board.energised(coil.relay, stands))
        )
        if after != state.pulled:
            state = State(facts, after, state.units)
            continue
        moves = next(_at_once(board, stands), None)
        if moves is None:
            return stands
        state = moves
    return None


def wakes(board: Board, state: State) -> bool:
    """Return whether every unit, as it wakes, comes by the facts of a state to where it stands in it."""
    if not state.units:
        return True
    woken = at_rest(board, state.facts)
    return woken is not None and woken.state.units == state.units


def _at_once(board: Board, stands: Standing) -> Iterator[State]:
    """Yield the state after each move that a unit makes without waiting."""
    for unit in board.network.units:
        for move in board.open_moves(unit, stands):
            if not move.waits:
                yield moved(stands.state, unit.name, move.to)
