"""What dies with a fuse: every consumer that works no more once it has blown."""

from functools import lru_cache

from trimwright.build import Wiring
from trimwright.quantities import Unit
from trimwright.wiring.logic import Board, Fault, at_rest
from trimwright.wiring.outcome import WiringOutcome, wiring_outcome

LEAST_A = 1e-3  # below this nothing flows through it


def dies_with(found: WiringOutcome, fuse: str) -> tuple[str, ...]:
    """Return the loads that work in some state no more once a fuse has blown, in the file's order.

    Looked at is each load in the plainest state of each mode, with relays settled anew. A load
    behind a relay dies with the fuse of its coil.
    """
    return () if found.electrics is None else _dead(found.wiring, found.electrics.unit, fuse)


@lru_cache(maxsize=512)
def _dead(wiring: Wiring, unit: Unit, fuse: str) -> tuple[str, ...]:
    """Return what dies with a fuse of a wiring that is solved."""
    found = wiring_outcome(wiring, unit)
    if found.electrics is None:
        return ()
    board = Board(found.network, Fault("fuse blown", fuse))
    place = found.electrics.solved.circuit.element(fuse)
    amps = found.electrics.solved.currents[:, place]
    carries = {
        (row.mode, row.state)
        for row, flows in zip(found.electrics.rows, amps, strict=True)
        if not abs(flows) <= LEAST_A  # or is not known
    }
    dead: dict[str, None] = {}
    for use in found.uses:
        if use.consumer.is_coil or (use.mode, use.state) not in carries:
            continue
        seen = at_rest(board, use.state.facts, use.state.units)
        if seen is not None and not board.holds(use.consumer.fed, seen):
            dead[use.consumer.name] = None
    return tuple(dead)
