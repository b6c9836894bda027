"""Where relays come to rest from a set of facts, beginning with all of them dropped out."""

from trimwright.wiring.logic.network import State
from trimwright.wiring.logic.standing import Board, Standing


def at_rest(board: Board, facts: tuple[tuple[str, str], ...]) -> Standing | None:
    """Return what follows from facts once the relays have settled; None if they never do.

    All relays that would move, move at once, time after time. Without loops of relays this is the
    one state of rest; with loops it is the one that is reached from rest if none is slower.

    Parameters
    ----------
    board : Board
        A network without units, with a fault or none.
    facts : tuple
        A value for each fact of the network.
    """
    state, seen = State(facts), set[State]()
    while state not in seen:
        seen.add(state)
        stands = board.standing(state)
        pulled = tuple(
            coil.relay for coil in board.network.coils if board.energised(coil.relay, stands)
        )
        if pulled == state.pulled:
            return stands
        state = State(facts, pulled)
    return None
