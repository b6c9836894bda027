"""Timing, with a clock that the work itself moves."""

import os

import pytest

from bench.measure import Bench, Timing, processor_time, timing


class Stopwatch:
    """A clock that stands still but while something works."""

    def __init__(self) -> None:
        self.now_s = 0.0

    def __call__(self) -> float:
        """Return the time [s]."""
        return self.now_s

    def lasting(self, *seconds: float) -> "Lasting":
        """Return work that lasts these times [s], one a turn."""
        return Lasting(self, list(seconds))


class Lasting:
    """Work that takes a given time at each turn."""

    def __init__(self, watch: Stopwatch, seconds: list[float]) -> None:
        self.watch, self.seconds = watch, seconds

    def __call__(self) -> None:
        """Let the next of the times pass."""
        self.watch.now_s += self.seconds.pop(0)


def test_medians_and_ratio_leave_out_the_first_turn() -> None:
    watch = Stopwatch()
    ours, peer = watch.lasting(99.0, 2.0, 4.0, 9.0), watch.lasting(1.0, 1.0, 4.0, 3.0)
    found = timing(Bench("b", ours, peer, "a peer"), 3, clock=watch)
    assert found == Timing(ours_s=4.0, peer_s=3.0, ratio=2.0)  # ratios 2, 1, 3


def test_no_turns_are_refused() -> None:
    watch = Stopwatch()
    with pytest.raises(ValueError, match=r"turns must be at least 1, got 0"):
        timing(Bench("b", watch.lasting(), watch.lasting(), "a peer"), 0, clock=watch)


def test_processor_time_counts_what_other_processes_took(monkeypatch: pytest.MonkeyPatch) -> None:
    # user, system, children's user, children's system, elapsed [s]
    monkeypatch.setattr(os, "times", lambda: os.times_result((1.0, 2.0, 40.0, 8.0, 500.0)))
    monkeypatch.setattr("bench.measure.process_time", lambda: 3.25)
    assert processor_time() == 51.25
