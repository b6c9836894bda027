import numpy as np
import pytest
from numpy.typing import NDArray

from tests.unit.fit.toy import Line, build, ledger, model_of
from trimwright.fit import Gap, Outcome, outcome
from trimwright.fit.verdict import EACH, SCRAMBLES, kept

Flags = NDArray[np.bool_]


def judged(*lines: Line, halves: tuple[float, ...], tips_past: float = np.inf) -> Outcome:
    """Return the outcome of some straight lines."""
    doubts = ledger(halves)
    return outcome(build(), doubts, model_of(doubts, *lines, tips_past=tips_past))


@pytest.mark.parametrize(
    ("mean", "sd", "sure"),
    [(3.0, 1.5, 0.977250), (2.0, 1.5, 0.908789), (1.0, 2.0, 0.691462)],
)
def test_certainty_of_a_normal_gap(mean: float, sd: float, sure: float) -> None:
    # Phi(mean / sd); within 4 of the standard errors that are stated, at least 2048 draws
    (one,) = judged(Line("gap", mean, (1.0,)), halves=(2 * sd,)).gaps
    assert one.sure.error < 0.004
    assert one.sure.value == pytest.approx(sure, abs=max(4 * one.sure.error, 0.002))
    assert one.worst == pytest.approx(mean - 2 * sd, abs=1e-9)
    # 5 and 95 % of a normal law lie 1.644854 standard deviations off
    assert one.low == pytest.approx(mean - 1.644854 * sd, abs=0.05 * sd)
    assert one.high == pytest.approx(mean + 1.644854 * sd, abs=0.05 * sd)


def test_shares_are_those_of_the_variances() -> None:
    # sds 2, 1, 0.5, 0.5: shares 0.727273, 0.181818, 0.045455, 0.045455
    (one,) = judged(Line("gap", 0.0, (1.0, -1.0, 1.0, 1.0)), halves=(4.0, 2.0, 1.0, 1.0)).gaps
    assert [key for key, _ in one.shares] == ["car.0", "car.1", "car.2", "car.3"]
    assert [part for _, part in one.shares] == pytest.approx(
        [0.727273, 0.181818, 0.045455, 0.045455], abs=2e-3
    )


def test_joint_certainty_of_two_independent_gaps_is_the_product() -> None:
    lines = Line("one", 2.0, (1.0, 0.0)), Line("other", 1.0, (0.0, 1.0))
    found = judged(*lines, halves=(3.0, 4.0))
    assert found.joint is not None
    assert found.joint.value == pytest.approx(0.908789 * 0.691462, abs=0.012)
    assert found.joint.value <= min(one.sure.value for one in found.gaps)


def test_joint_certainty_of_the_same_doubt_twice_is_the_lesser() -> None:
    found = judged(Line("one", 2.0, (1.0,)), Line("other", 3.0, (1.0,)), halves=(3.0,))
    assert found.joint is not None
    assert found.joint.value == min(one.sure.value for one in found.gaps)


def test_a_place_to_probe_is_not_counted_twice() -> None:
    found = judged(Line("gap", 9.0, (1.0,)), Line("side", -9.0, (1.0,), part_of="gap"), halves=(2,))
    assert found.joint is not None
    assert found.joint.value == 1.0


def test_rows_that_tip_count_against_everything() -> None:
    # a gap of 100 +- 1 never closes; it tips in the upper Phi(-1) = 0.158655 of the rows
    found = judged(Line("gap", 100.0, (1.0,)), halves=(2.0,), tips_past=1.0)
    (one,) = found.gaps
    assert found.joint is not None
    assert found.tips == pytest.approx(0.158655, abs=0.003)
    for estimate in (found.joint, one.sure, one.clear):
        assert estimate.value == pytest.approx(1 - found.tips, abs=1e-12)


def test_where_every_row_tips_nothing_is_sure() -> None:
    found = judged(Line("gap", 100.0, (1.0,)), halves=(2.0,), tips_past=-np.inf)
    assert found.joint is not None
    assert found.joint.value == 0.0
    assert found.gaps[0].sure.value == 0.0
    assert found.tips == 1.0


def test_without_gaps_nothing_is_sure() -> None:
    found = judged(halves=(2.0,))
    assert found.joint is None
    assert found.gaps == ()
    none: Flags = kept(np.zeros((4, 0)), ())
    assert not none.any()
    only_side = (Gap("side", "", ("deck", "dash"), 0.0, (), part_of="gap"),)
    assert not kept(np.ones((4, 1)), only_side).any()


def test_draws_are_doubled_only_while_the_joint_is_uncertain() -> None:
    sharp = judged(Line("gap", 100.0, (1.0,)), halves=(2.0,))
    assert len(sharp.draws.scores) == SCRAMBLES * EACH
    wide = [Line(f"gap {k}", 1.0, tuple(float(i == k) for i in range(12))) for k in range(12)]
    spread = judged(*wide, halves=(2.0,) * 12)
    assert spread.joint is not None
    assert spread.joint.error <= 0.004 or len(spread.draws.scores) == 8 * 2048
    # all rows, though each was evaluated once: margins are straight lines in the scores
    assert len(spread.draws.scores) > SCRAMBLES * EACH
    assert spread.draws.margins == pytest.approx(1.0 + spread.draws.scores)
