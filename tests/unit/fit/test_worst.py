import numpy as np
import pytest

from tests.unit.fit.toy import Line, build, ledger, model_of
from trimwright.chance import Factor, Ledger
from trimwright.fit.worst import end_scores, worst_case
from trimwright.quantities import Doubt

HALVES = (0.5, 0.3, 0.2, 0.4, 1.0, 0.25)


def test_half_widths_add_up_whichever_way_each_acts() -> None:
    # stack of six, worst case 2.65: the sum of the half widths
    doubts = ledger(HALVES)
    lines = (
        Line("all one way", 10.0, (1.0,) * 6),
        Line("either way", 10.0, (1.0, -1.0, 1.0, -1.0, 1.0, -1.0)),
        Line("none", 10.0, (0.0,) * 6),
    )
    margins = worst_case(model_of(doubts, *lines)(build()), doubts)
    assert margins == pytest.approx([10 - 2.65, 10 - 2.65, 10.0], abs=1e-9)


def test_a_lopsided_doubt_ends_where_it_says() -> None:
    # +3/-1: at worst 1 below for a gap that grows with it, 3 above for one that shrinks
    doubts = Ledger((Factor("a", "a", Doubt("split", 1.0, 3.0), "reading", 1.0, 1.0),))
    lines = (Line("grows", 0.0, (1.0,)), Line("shrinks", 0.0, (-1.0,)))
    margins = worst_case(model_of(doubts, *lines)(build()), doubts)
    assert margins == pytest.approx([-1.0, -3.0], abs=1e-9)


def test_a_bounded_doubt_goes_to_its_end_and_no_further() -> None:
    doubts = Ledger((Factor("a", "a", Doubt("uniform", 2.0, 2.0), "reading", 1.0, 1.0),))
    ends = doubts.deviations(end_scores(doubts))[:, 0]
    assert ends == pytest.approx([-2.0, 2.0], abs=1e-9)


def test_without_doubt_the_worst_is_the_figure_as_written() -> None:
    doubts = Ledger(())
    found = worst_case(model_of(doubts, Line("gap", 4.0, ()))(build()), doubts)
    assert np.array_equal(found, [4.0])
