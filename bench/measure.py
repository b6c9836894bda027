"""Timing a piece of work against a peer, turn by turn in one run."""

import os
import statistics
from collections.abc import Callable
from dataclasses import dataclass
from time import perf_counter, process_time

Work = Callable[[], None]
Clock = Callable[[], float]


@dataclass(frozen=True, slots=True)
class Bench:
    """Two pieces of work that are timed together: ours, and a peer's that says what is usual."""

    name: str
    ours: Work
    peer: Work
    peer_says: str


@dataclass(frozen=True, slots=True)
class Timing:
    """What came out: medians [s], and the median of the ratios, ours to the peer's, turn by turn."""

    ours_s: float
    peer_s: float
    ratio: float


def processor_time() -> float:
    """Return the processor time [s] of this process and of those it has run to their end.

    What other programs take of the machine is not in it, though they slow what is.
    """
    took = os.times()
    return process_time() + took.children_user + took.children_system


def timing(bench: Bench, turns: int, clock: Clock = perf_counter) -> Timing:
    """Return the timing of a bench over some turns, after one turn that is not counted.

    Ours and the peer's take turns, so that what slows the machine down slows both: the ratio is
    what may be compared between machines.

    Parameters
    ----------
    bench : Bench
        The two pieces of work.
    turns : int
        How often each is timed, at least 1.
    clock : callable
        Returns the time [s].

    Raises
    ------
    ValueError
        If `turns` is below 1.
    """
    if turns < 1:
        raise ValueError(f"turns must be at least 1, got {turns}")
    pairs = [(_duration(bench.ours, clock), _duration(bench.peer, clock)) for _ in range(turns + 1)]
    ours, peers = zip(*pairs[1:], strict=True)
    ratios = [ours_s / peer_s for ours_s, peer_s in pairs[1:]]
    return Timing(statistics.median(ours), statistics.median(peers), statistics.median(ratios))


def _duration(work: Work, clock: Clock) -> float:
    begun = clock()
    work()
    return clock() - begun
