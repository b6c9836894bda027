import numpy as np
import pytest

from trimwright.chance.sweep import clear_intervals, smallest_place
from trimwright.chance.trade import Trade


def test_a_trade_is_the_sweep_along_the_other_cut() -> None:
    rng = np.random.default_rng(4)
    for _ in range(300):
        margins = rng.normal(rng.choice([0.5, 2.0, 4.0]), 1.0, (6, 40))
        one, other = (np.where(rng.random(6) < 0.4, 0.0, rng.normal(0.3, 0.6, 6)) for _ in range(2))
        trade = Trade.of(margins, one, other, (2.5, 4.0))
        for level in (0.0, 0.7, 2.5):
            ends = clear_intervals(margins + (one * level)[:, None], other)
            for needed in (3, 12, 30, 39):
                wanted = smallest_place(*ends, needed, 4.0)
                found = trade.least(level, needed, 4.0)
                assert found == (None if wanted is None else pytest.approx(wanted, abs=1e-12))


def test_a_gap_that_neither_cut_moves_decides_for_itself() -> None:
    margins = np.array([[-1.0, -1.0], [0.0, -0.1]])
    trade = Trade.of(margins, np.array([0.0, 0.0]), np.array([1.0, 0.0]), (9.0, 9.0))
    assert trade.least(0.0, 1, 9.0) == 1.0
    assert trade.least(0.0, 2, 9.0) is None


def test_a_gap_that_only_the_first_cut_moves_waits_for_it() -> None:
    trade = Trade.of(
        np.array([[-1.0], [-2.0]]), np.array([0.0, 1.0]), np.array([1.0, 0.0]), (9.0, 9.0)
    )
    assert trade.least(1.9, 1, 9.0) is None
    assert trade.least(2.0, 1, 9.0) == 1.0
