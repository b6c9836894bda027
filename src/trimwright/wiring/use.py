"""When each consumer works: in each mode of the car the plainest state, and the way its current takes."""

from msgspec import Struct
from msgspec.structs import replace

from trimwright.build import Wiring
from trimwright.wiring.consumer import Consumer, consumers
from trimwright.wiring.logic import (
    And,
    Board,
    Condition,
    Network,
    Path,
    Prover,
    State,
    Walker,
    at_rest,
    paths,
    resting,
)
from trimwright.wiring.mode import MODES, Mode

DIGITS = 7  # of a volt or an ampere: of states that differ by less the first is told


class Use(Struct, frozen=True):
    """A consumer that works in a mode: the state with the least else on, and its current's way."""

    consumer: Consumer
    mode: Mode
    state: State
    path: Path


class Row(Struct, frozen=True):
    """One state that the network is solved in.

    `closed` are the contacts that are closed and the feeds that are alive, `on` the consumers that
    work in it; `crowd` says that it is not one of those with the least else on.
    """

    mode: Mode
    state: State
    closed: frozenset[str]
    on: frozenset[str]
    crowd: bool

    def is_of(self, use: Use) -> bool:
        """Return whether it is the state in which a use has the least else on."""
        return self.mode == use.mode and self.state == use.state


def uses(wiring: Wiring, network: Network) -> tuple[Use, ...]:
    """Return every consumer in every mode in which something can set it to work.

    A control unit may have states that nothing leads to: where one bears on a consumer the state
    is that which the fewest steps from rest lead to, and the plainest only where too many lie
    between. Elsewhere units stand as they do with nothing else done.
    """
    prover, board, walker = Prover(network), Board(network), Walker(network)
    found = []
    for consumer in consumers(wiring):
        for mode in MODES:
            wanted = And((consumer.fed, mode.condition))
            example = prover.example(wanted, consumer.fed)
            if example is None:
                continue
            state = led_to(prover, walker, wanted, example.state)
            if state is None:
                continue
            settled = _settled(board, state, wanted) if state != example.state else state
            shown = example.paths
            if settled != example.state:
                shown = paths(board, board.standing(settled), consumer.fed)
            found.append(Use(consumer, mode, settled, shown[0]))
    return tuple(found)


def led_to(prover: Prover, walker: Walker, wanted: Condition, plainest: State) -> State | None:
    """Return a state in which something holds that steps lead to; None where none do.

    Where no unit bears on it that is the plainest, with units as they wake.
    """
    if not prover.cone(None, wanted).units:
        return replace(plainest, units=resting(prover.network).units)
    way = walker.soonest(wanted)
    return plainest if way.unfinished else way.state


def _settled(board: Board, state: State, wanted: Condition) -> State:
    """Return a state with all settled that had no bearing on the way to it, if it still holds."""
    seen = at_rest(board, state.facts, state.units, state.pulled)
    return seen.state if seen is not None and board.holds(wanted, seen) else state


def rows(network: Network, found: tuple[Use, ...]) -> tuple[Row, ...]:
    """Return the state of each use with the least else on."""
    board = Board(network)
    made: dict[tuple[Mode, State], Row] = {}
    for use in found:
        if (use.mode, use.state) not in made:
            seen = board.standing(use.state)
            closed = frozenset(seen.closed | seen.alive)
            row = Row(use.mode, use.state, closed, board.fed(seen), crowd=False)
            made[use.mode, use.state] = row
    return tuple(made.values())
