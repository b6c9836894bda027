"""Ways by which current comes back: past a fuse that is pulled, into a feed that is off."""

from collections.abc import Iterator

import numpy as np
from msgspec import Struct

from trimwright.build import Feed as FeedEntry
from trimwright.build import Wiring
from trimwright.wiring.contacts import MINUS, merged
from trimwright.wiring.fact import RUNNING, live_when
from trimwright.wiring.logic import (
    And,
    Board,
    Condition,
    Example,
    Fault,
    Live,
    Network,
    Not,
    Path,
    Prover,
    State,
    at_rest,
    nodes,
    resting,
)
from trimwright.wiring.loom import Loom
from trimwright.wiring.metered import Stand
from trimwright.wiring.mode import MODES, Mode
from trimwright.wiring.outcome import Electrics, WiringOutcome
from trimwright.wiring.rig import Rig

SHARE = 0.1  # of the battery's voltage that may stand on a feed that is off


class PastFuse(Struct, frozen=True):
    """A fuse behind which all stays live when it is pulled, over another fuse or past it.

    `over` is '' where no other fuse is on that way; `loads` are those that the fuse looks after;
    `wires` lead from the other fuse to what is behind this one.
    """

    fuse: str
    over: str
    loads: tuple[str, ...]
    wires: tuple[str, ...]
    example: Example


class BackFed(Struct, frozen=True):
    """A feed that is live while the key has it off, and the way from the source that feeds it."""

    feed: str
    path: Path
    example: Example


class Lifted(Struct, frozen=True):
    """A feed that is off and that current comes to through loads: how high it then stands [V]."""

    feed: str
    volts: float
    limit_v: float
    loads: tuple[str, ...]
    mode: Mode
    state: State


def past_fuses(found: WiringOutcome) -> tuple[PastFuse, ...]:
    """Return each fuse that can be pulled without what is behind it going dead, each pair once.

    Asked with the engine still: a turning alternator may well feed a box from its other end.
    """
    network, known = found.network, set(nodes(found.network))
    one_of = merged(found.loom)
    asked = []
    for fuse in found.wiring.fuses:
        sides = [f"{fuse.name} {end}" for end in ("in", "out")]
        ends = tuple(one_of.get(side, side) for side in sides)
        if set(ends) <= known and _may_be_live(network, fuse.name, ends):
            asked.append((Fault("fuse blown", fuse.name), ends))
    prover = Prover(network, [fault for fault, _ in asked]) if asked else None
    told: dict[frozenset[str], PastFuse] = {}
    for fault, ends in asked:
        both = (Live(ends[0]), Live(ends[1]))
        example = prover and prover.example(And((*both, Not(RUNNING))), And(both), fault)
        if example:
            one = _past(found, fault.of, example)
            told.setdefault(frozenset({one.fuse, one.over}), one)
    return tuple(told.values())


def _may_be_live(network: Network, fuse: str, ends: tuple[str, ...]) -> bool:
    """Return whether both ends of a fuse lead to a feed without it, were every contact closed."""
    board, sources = Board(network), {feed.node for feed in network.feeds}
    return all(_spread(board, end, {fuse}) & sources for end in ends)


def _spread(
    board: Board, start: str, but: set[str], closed: frozenset[str] | None = None
) -> set[str]:
    """Return the nodes that one is joined to, but for some edges, or by closed ones only."""
    found, waiting = {start}, [start]
    while waiting:
        node = waiting.pop()
        if node in board.grounds:
            continue
        for edge, other in board.neighbours(node):
            passes = edge not in but and (closed is None or edge in closed)
            if passes and other not in found:
                found.add(other)
                waiting.append(other)
    return found


def _past(found: WiringOutcome, fuse: str, example: Example) -> PastFuse:
    """Return the way by which one side of a pulled fuse stays live: the one past more fuses."""
    names = {one.name for one in found.wiring.fuses}
    first, last = (
        (path.to, tuple(name for name in path.to if name in names)) for path in example.paths
    )
    (way, fuses), (_, others) = (first, last) if len(first[1]) > len(last[1]) else (last, first)
    over = next((name for name in reversed(fuses) if name not in others), "")
    common = {*first[0]} & {*last[0]}
    wires = tuple(name for name in way[way.index(over) + 1 if over else 0 :] if name not in common)
    loads = dict.fromkeys(
        use.consumer.name
        for use in found.uses
        if {fuse, over} & {*use.path.to} and not use.consumer.is_coil
    )
    return PastFuse(fuse, over, tuple(loads), wires, example)


def back_fed(found: WiringOutcome) -> tuple[BackFed, ...]:
    """Return each feed that is live in some state though the key has it off."""
    known = set(nodes(found.network))
    asked = [
        (feed, at, off)
        for feed, at, off in _switched_feeds(found.wiring, found.loom)
        if at in known
    ]
    if not asked:
        return ()
    prover, told = Prover(found.network), []
    for feed, at, off in asked:
        example = prover.example(And((Live(at), off)), Live(at))
        if example:
            told.append(BackFed(feed.name, example.paths[0], example))
    return tuple(told)


def _switched_feeds(wiring: Wiring, loom: Loom) -> Iterator[tuple[FeedEntry, str, Condition]]:
    """Yield each feed that the key switches, its live side, and the condition that it is off."""
    one_of = merged(loom)
    for feed in wiring.feeds:
        if feed.live != "always":
            at = f"{feed.name} out"
            alive = live_when(feed.live, dies=feed.cranking == "dies")
            yield feed, one_of.get(at, at), Not(alive)


def lifted(found: WiringOutcome) -> tuple[Lifted, ...]:
    """Return each feed that is off and stands at more than its share of volts, through loads.

    Solved in each position of the key with all at rest, with one switch worked and with all, and as
    each load needs it; told is the first state in which it stands highest.
    """
    own, battery = found.electrics, found.wiring.battery
    if own is None or battery is None:
        return ()
    rig, limit = Rig(found.wiring, found.network, own.solved.circuit), SHARE * battery.volts.value
    board = rig.board(None)
    begun = list(_stands(rig, own))
    if not begun:
        return ()
    feeds = {at for _, at, _ in _switched_feeds(found.wiring, found.loom)}
    solved, settled = rig.met([one for _, one in begun], feeds)
    stands = [(state, now) for (state, _), now in zip(begun, settled, strict=True)]
    told = []
    for feed, at, off in _switched_feeds(found.wiring, found.loom):
        volts = np.nan_to_num(solved.reading(at, MINUS))
        for number, (state, _) in enumerate(stands):
            seen = board.standing(state)
            if not board.holds(off, seen) or at in seen.live:
                volts[number] = 0.0
        top = int(np.argmax(volts))
        if volts[top] > limit:
            state, one = stands[top]
            loads = _into(board, one, at)
            told.append(Lifted(feed.name, float(volts[top]), limit, loads, one.mode, state))
    return tuple(told)


def _stands(rig: Rig, own: Electrics) -> Iterator[tuple[State, Stand]]:
    """Yield each way the car stands: in each mode with all at rest, one thing worked, all worked.

    And as the network was solved for its loads.
    """
    board = rig.board(None)
    plain = [fact for fact in board.network.facts if fact.name not in ("key", "engine")]
    worked = [{}, *({fact.name: value} for fact in plain for value in fact.values[1:])]
    worked.append({fact.name: fact.values[1] for fact in plain})
    rest = dict(resting(board.network).facts)
    for mode in MODES:
        for more in worked:
            facts = {**rest, **more, "key": mode.key, "engine": mode.engine}
            seen = at_rest(board, tuple(facts.items()))
            if seen and all(board.holds(one, seen) for one in board.network.constraints):
                one = rig.stand(mode, seen.state)
                if one:
                    yield seen.state, one
    for row in own.rows:
        one = rig.stand(row.mode, row.state)
        if one:
            yield row.state, one


def _into(board: Board, one: Stand, at: str) -> tuple[str, ...]:
    """Return the loads that are joined to a feed on one side and not on the other."""
    here = _spread(board, at, set(), one.closed | {join.name for join in board.network.joins})
    return tuple(
        load.name
        for load in board.network.loads
        if (load.a in here) != (load.b in here)
        and not {load.a, load.b} & board.grounds
        and not _grounded(board, one, load.a, load.b, here)
    )


def _grounded(board: Board, one: Stand, a: str, b: str, here: set[str]) -> bool:
    """Return whether the side of a load that is away from a feed is joined to ground."""
    joins = one.closed | {join.name for join in board.network.joins}
    away = b if a in here else a
    return bool(_spread(board, away, set(), joins) & board.grounds)
