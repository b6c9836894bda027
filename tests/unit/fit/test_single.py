import numpy as np
import pytest

from tests.unit.fit.toy import Line, build, ledger, model_of
from trimwright.build import Build
from trimwright.fit import Single, cuts, effects, outcome, singles

NOSE = "lower the nose"


def found(*lines: Line, certainty: str = "95 %", half: float = 4.0) -> tuple[Single, ...]:
    """Return the single cuts for lines in one doubt."""
    doubts, one = ledger((half,)), build(certainty)
    models = model_of(doubts, *lines)

    def may_be_made(_: Build) -> bool:
        return True

    candidates = cuts(one, may_be_made)
    works = effects(one, candidates, models)
    assert works[0].tolist() == pytest.approx(
        [works[0].max() if cut.name == NOSE else 0.0 for cut in candidates]
    )
    return singles(one, outcome(one, doubts, models), candidates, works, models)


def test_they_are_the_percentile_over_the_effect() -> None:
    (single,) = found(Line("gap", 1.0, (1.0,), per_cut=0.5))
    # 2.289707 of gap takes twice that of wood: 4.579, to the next half millimetre
    assert (single.gap, single.cut.name, single.amount) == ("gap", NOSE, 5.0)
    # Phi((1 + 0.5 x 5) / 2) = 0.959941
    assert single.reached == pytest.approx(0.959941, abs=0.01)
    assert single.joint == single.reached


def test_what_is_promised_is_evaluated_with_the_cut_made() -> None:
    # 4 mm give 3 and no more ever comes: no amount does, though a straight line says that 5 would
    assert found(Line("gap", -1.0, (1.0,), most_gain=3.0)) == ()


def test_where_a_straight_line_falls_short_it_goes_on_from_there() -> None:
    # 1.2 c - 0.03 c^2 gives 4.32 for 4 mm, 1.08 a mm: 5.289707 asks for 5, which gives 5.25
    (single,) = found(Line("gap", -2.0, (1.0,), per_cut=1.2, bend=-0.03))
    assert single.amount == 5.5  # gives 5.6925
    assert single.reached >= 0.95


def test_it_goes_on_as_steeply_as_the_cut_was_seen_to_bend() -> None:
    # 1.2 c - 0.026 c^2 gives 4.384 for 4 mm, 1.096 a mm: 9.289707 asks for 8.5, which gives 8.3215
    # or 0.979 a mm, so 0.862 a mm at its end: 0.9682 more asks for 1.12. As straight as at the
    # beginning it would ask for 0.88: 9.5 give 9.0535, which is short again
    (single,) = found(Line("gap", -6.0, (1.0,), per_cut=1.2, bend=-0.026))
    assert single.amount == 10.0  # gives 9.4


def test_a_cut_that_costs_the_whole_is_not_offered() -> None:
    near, far = Line("gap", 1.0, (1.0,)), Line("other", 3.0, (1.0,), per_cut=-1.0)
    assert found(near, far) == ()
    assert len(found(near, Line("other", 30.0, (1.0,), per_cut=-1.0))) == 1


def test_every_gap_that_counts_has_its_fate() -> None:
    near, far = Line("gap", 1.0, (1.0,)), Line("other", 9.0, (1.0,), per_cut=-1.0)
    (single,) = found(near, Line("gap, left", 1.0, (1.0,), part_of="gap"), far)
    assert [one.gap.name for one in single.fates] == ["gap", "other"]
    # 2.5 off leave the other a mean of 6.5 at a deviation of 2: Phi(3.25) = 0.999423
    assert single.fates[1].sure == pytest.approx(0.999423, abs=0.002)
    assert single.fates[0].sure == single.reached
    assert np.isfinite([one.clear for one in single.fates]).all()
