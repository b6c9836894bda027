"""When each consumer works: in each mode of the car the plainest state, and the way its current takes."""

from dataclasses import dataclass

from trimwright.build import Wiring
from trimwright.wiring.consumer import Consumer, consumers
from trimwright.wiring.logic import (
    And,
    Board,
    Condition,
    Network,
    Path,
    Prover,
    Standing,
    State,
    at_rest,
    paths,
    soonest,
)
from trimwright.wiring.mode import MODES, Mode

DIGITS = 7  # of a volt or an ampere: of states that differ by less the first is told


@dataclass(frozen=True, slots=True)
class Use:
    """A consumer that works in a mode: the state with the least else on, and its current's way."""

    consumer: Consumer
    mode: Mode
    state: State
    path: Path


@dataclass(frozen=True, slots=True)
class Row:
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

    A control unit may have states that nothing leads to: with one in the wiring the state is that
    which the fewest steps from rest lead to, and the plainest only where too many lie between.
    """
    prover, board = Prover(network), Board(network)
    found = []
    for consumer in consumers(wiring):
        for mode in MODES:
            wanted = And((consumer.fed, mode.condition))
            example = prover.example(wanted, consumer.fed)
            if example is None:
                continue
            way = soonest(network, wanted) if network.units else None
            if way is None or way.unfinished:
                found.append(Use(consumer, mode, example.state, example.paths[0]))
            elif way.state is not None:
                seen = _settled(board, way.state, wanted)
                shown = paths(board, seen, consumer.fed)
                found.append(Use(consumer, mode, seen.state, shown[0]))
    return tuple(found)


def _settled(board: Board, state: State, wanted: Condition) -> Standing:
    """Return a state with all settled that had no bearing on the way to it, if it still holds."""
    seen = at_rest(board, state.facts, state.units, state.pulled)
    if seen is not None and board.holds(wanted, seen):
        return seen
    return board.standing(state)


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
