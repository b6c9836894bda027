import numpy as np
import pytest

from tests.unit.fit.toy import Line, build, ledger, model_of
from trimwright.chance import Factor, Ledger, expected_cut
from trimwright.fit import Again, measure_next, outcome
from trimwright.fit.again import unsettled
from trimwright.quantities import Doubt


def again(doubts: Ledger, *lines: Line, tips_past: float = np.inf) -> tuple[Again, ...]:
    """Return what to measure next for some straight lines."""
    one = build()
    found = outcome(one, doubts, model_of(doubts, *lines, tips_past=tips_past))
    return measure_next(one, doubts, found)


def test_the_wider_doubt_is_worth_more() -> None:
    first, second = again(ledger((2.0, 4.0)), Line("gap", 1.0, (1.0, 1.0)))
    assert [first.factor.key, second.factor.key] == ["car.1", "car.0"]
    # variances 1 and 4: shares 0.2 and 0.8
    assert first.share == pytest.approx(0.8, abs=0.01)
    assert second.share == pytest.approx(0.2, abs=0.01)


def test_the_saving_is_that_of_the_normal_formulas() -> None:
    # sds 2 and 1, read again to half the width: what is left 4 / 5 = 0.8, mean may go 1.788854
    first, *_ = again(ledger((2.0, 4.0)), Line("gap", 1.0, (1.0, 1.0)))
    need = 1.644854 * np.sqrt(1 + 0.8) - 1.0
    assert first.worth.cut_before == pytest.approx(1.644854 * np.sqrt(5) - 1.0, abs=0.08)
    assert first.worth.cut_after == pytest.approx(
        expected_cut(float(need), float(np.sqrt(3.2))), abs=0.06
    )


def test_minutes_count() -> None:
    def factor(key: str, half: float, minutes: float) -> Factor:
        return Factor(key, key, Doubt("normal", half, half), "reading", minutes, half / 2)

    doubts = Ledger((factor("quick", 3.0, 1.0), factor("slow", 4.0, 60.0)))
    first, second = again(doubts, Line("gap", 1.0, (1.0, 1.0)))
    assert (first.factor.key, second.factor.key) == ("quick", "slow")
    assert second.share > first.share


def test_what_cannot_be_read_again_is_not_asked_for() -> None:
    assert again(ledger((4.0,), minutes=0.0), Line("gap", 1.0, (1.0,))) == ()


def test_a_settled_gap_decides_nothing() -> None:
    doubts = ledger((4.0,))
    sure, never = Line("sure", 99.0, (1.0,)), Line("never", -99.0, (1.0,))
    assert again(doubts, sure, never) == ()
    one = build()
    found = outcome(one, doubts, model_of(doubts, sure, never, Line("open", 1.0, (1.0,))))
    assert unsettled(found) == (2,)


def test_at_most_three_are_named() -> None:
    assert len(again(ledger((2.0,) * 6), Line("gap", 1.0, (1.0,) * 6))) == 3


def test_rows_that_tip_leave_an_answer() -> None:
    (one,) = again(ledger((4.0,)), Line("gap", 1.0, (1.0,)), tips_past=1.0)
    assert np.isfinite(one.worth.cut_before)
    assert np.isfinite(one.share)
