"""When each consumer works: in each mode of the car the plainest state, and the way its current takes."""

from dataclasses import dataclass

from trimwright.build import Wiring
from trimwright.wiring.consumer import Consumer, consumers
from trimwright.wiring.fact import REST, UP, WORKED, YES
from trimwright.wiring.logic import (
    And,
    Board,
    Fed,
    Network,
    Path,
    Prover,
    Pulled,
    Standing,
    State,
    at_rest,
    paths,
    soonest,
)
from trimwright.wiring.mode import MODES, Mode


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
    work in it; `crowd` says whether all else that can be on is on.
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
                shown = paths(board, board.standing(way.state), consumer.fed)
                found.append(Use(consumer, mode, way.state, shown[0]))
    return tuple(found)


def rows(wiring: Wiring, network: Network, found: tuple[Use, ...]) -> tuple[Row, ...]:
    """Return the states to solve.

    Each use with the least else on; each mode with every latching switch worked and every door
    open, then with every switch worked; and each use that works in neither of these, with all else
    that does not hinder it.
    """
    board = Board(network)
    made: dict[tuple[Mode, State], Row] = {}
    for use in found:
        _add(made, wiring, use.mode, (board, board.standing(use.state)), crowd=False)
    crowds: list[Row] = []
    for mode in MODES:
        base = next((use.state for use in found if use.mode == mode), None)
        for momentary in (False, True):
            if base is not None:
                facts = _crowded(wiring, base.facts, momentary=momentary)
                seen = at_rest(board, facts, base.units)
                row = _add(made, wiring, mode, (board, seen), crowd=True)
                crowds += [row] if row else []
    for use in found:
        if not any(row.mode == use.mode and use.consumer.name in row.on for row in crowds):
            facts = _crowded(wiring, use.state.facts, momentary=True)
            seen = at_rest(board, facts, use.state.units)
            _add(made, wiring, use.mode, (board, seen), crowd=True)
    return tuple(made.values())


def _crowded(
    wiring: Wiring, facts: tuple[tuple[str, str], ...], *, momentary: bool
) -> tuple[tuple[str, str], ...]:
    """Return facts with every switch that rests worked, those that spring back only if told."""
    by_name = {switch.name: switch for switch in wiring.switches}
    doors = {switch.worked_by for switch in wiring.switches if _is_door(switch.worked_by)}
    found = []
    for name, value in facts:
        switch, on = by_name.get(name), value
        if switch is not None and switch.action == "momentary" and not momentary:
            on = REST  # whatever the state that is begun from was found for
        elif value == REST and switch is not None:
            on = UP if switch.contacts == "reversing" else WORKED
        elif name in doors:
            on = YES
        found.append((name, on))
    return tuple(found)


def _is_door(worked_by: str | None) -> bool:
    """Return whether what works a switch is free of the engine: a door, a pedal, a lid."""
    return worked_by is not None and worked_by not in ("oil pressure", "engine running")


def _add(
    made: dict[tuple[Mode, State], Row],
    wiring: Wiring,
    mode: Mode,
    told: tuple[Board, Standing | None],
    *,
    crowd: bool,
) -> Row | None:
    """Add a settled state, if there is one and it is not there yet."""
    board, seen = told
    if seen is None:
        return None
    key = (mode, seen.state)
    if key not in made:
        on = {one.name for one in wiring.loads if board.holds(Fed(one.name), seen)}
        on |= {one.name for one in wiring.relays if board.holds(Pulled(one.name), seen)}
        closed = frozenset(seen.closed) | frozenset(seen.alive)
        made[key] = Row(mode, seen.state, closed, frozenset(on), crowd)
    return made[key]
