from collections.abc import Callable

import numpy as np
import pytest

from tests.unit.fit.toy import Line, build, ledger, model_of
from trimwright.build import Build
from trimwright.fit import Cut, GapModel, Plan, cuts, effects, least_cut, outcome
from trimwright.fit.cut import read_back

NOSE = "lower the nose"
Models = Callable[[Build], GapModel]


def listed(one: Build) -> tuple[Cut, ...]:
    """Return every cut; any of them leaves a console here."""
    return cuts(one, lambda _: True)


@pytest.fixture
def fine_saw(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let a saw be set to a thousandth of a millimetre: the cut before it is rounded up."""
    monkeypatch.setattr("trimwright.fit.cut.step_mm", lambda _unit: 0.001)


def plan(
    certainty: str,
    mean: float,
    sd: float,
    *,
    per_cut: float = 1.0,
    most_gain: float = np.inf,
    bend: float = 0.0,
) -> Plan | None:
    """Return the least cut for one normal gap."""
    doubts, one = ledger((2 * sd,)), build(certainty)
    models = model_of(doubts, Line("gap", mean, (1.0,), per_cut, most_gain, bend=bend))
    works = effects(one, listed(one), models)
    return least_cut(one, outcome(one, doubts, models), listed(one), works, models)


# z sd - mean, and two binomial standard errors of that percentile at 4096 draws
CLOSED = [
    ("99 %", 3.0, 1.5, 0.489522, 0.18),
    ("95 %", 2.0, 1.5, 0.467280, 0.10),
    ("99 %", 2.0, 1.5, 1.489522, 0.18),
    ("95 %", 1.0, 2.0, 2.289707, 0.14),
    ("99 %", 1.0, 2.0, 3.652696, 0.24),
]


@pytest.mark.usefixtures("fine_saw")
@pytest.mark.parametrize(("certainty", "mean", "sd", "mm", "within"), CLOSED)
def test_one_normal_gap(certainty: str, mean: float, sd: float, mm: float, within: float) -> None:
    found = plan(certainty, mean, sd)
    assert found is not None
    ((one, amount),) = found.cuts
    assert one.name == NOSE
    assert amount == pytest.approx(mm, abs=within)
    assert found.reached.value >= found.wanted
    assert found.short == ""


@pytest.mark.parametrize(
    ("case", "stepped"), list(zip(CLOSED, [0.5, 0.5, 1.5, 2.5, 4.0], strict=True))
)
def test_a_cut_is_what_a_saw_is_set_to_and_never_less(
    case: tuple[str, float, float, float, float], stepped: float
) -> None:
    found = plan(*case[:3])
    assert found is not None
    assert [amount for _, amount in found.cuts] == [stepped]
    assert found.reached.value >= found.wanted


def test_enough_today_needs_no_cut() -> None:
    assert plan("95 %", 3.0, 1.5) is None


def test_what_is_reached_is_evaluated_with_the_cuts_made() -> None:
    # a mm gives a mm, but 3 at most; the trial cut of 4 mm makes it 0.75 a mm, and a straight
    # line from there promises 95 %: with the cut made it is Phi((3 - 1) / 2)
    found = plan("95 %", -1.0, 2.0, most_gain=3.0)
    assert found is not None
    assert found.reached.value == pytest.approx(0.841345, abs=0.01)
    assert found.short
    assert found.reached.value < found.wanted


def test_a_bound_that_is_in_the_way_is_named() -> None:
    # 40 mm off the nose at most leave a mean of 1: Phi(1 / 2) = 0.691462
    found = plan("95 %", -39.0, 2.0)
    assert found is not None
    ((one, amount),) = found.cuts
    assert amount == one.most_mm == 40.0
    assert found.reached.value == pytest.approx(0.691462, abs=0.01)
    assert one.bound in found.short


def test_no_more_is_cut_than_helps_where_what_is_wanted_is_not_reached() -> None:
    # the other gap no cut changes: at most Phi(0.5) = 0.691462 of the rows clear
    doubts, one = ledger((4.0,)), build("95 %")
    models = model_of(doubts, Line("gap", -2.0, (1.0,)), Line("other", 1.0, (1.0,), per_cut=0.0))
    # a little off the front helps the first a little, and is not needed
    little = {NOSE: 1.0, "shorten the front": 0.1}
    works = np.array([[little.get(cut.name, 0.0) for cut in listed(one)], [0.0] * 5])
    found = least_cut(one, outcome(one, doubts, models), listed(one), works, models)
    assert found is not None
    # both are short by the same doubt: 2 + 1 make the first clear wherever the other does
    assert [(cut.name, amount) for cut, amount in found.cuts] == [(NOSE, 3.0)]
    assert found.reached.value == pytest.approx(0.691462, abs=0.01)
    assert found.short == "the doubts are too wide"


def test_no_more_is_cut_than_it_takes_where_a_straight_line_falls_short() -> None:
    # 0.8 c + 0.004 c^2 must give 31.5 + 1.644854 x 2: c = 37.0; the trial cut's straight line
    # gives 32.6 with all of the 40 mm there are, which is not enough, so all of them were cut
    found = plan("95 %", -31.5, 2.0, per_cut=0.8, bend=0.004)
    assert found is not None
    ((_, amount),) = found.cuts
    assert 36.5 <= amount <= 38.0
    assert found.reached.value >= found.wanted


def test_cuts_that_clear_no_row_are_not_made_and_not_blamed_on_doubt() -> None:
    found = plan("95 %", -60.0, 2.0)
    assert found is not None
    assert found.cuts == ()
    assert found.reached.value == 0.0
    assert found.short == "no cut within its bounds is enough"


def test_where_no_cut_helps_it_is_said() -> None:
    found = plan("95 %", -1.0, 2.0, per_cut=0.0)
    assert found is not None
    assert found.cuts == ()
    assert found.reached == found.before
    assert found.short == "no cut of this console changes what is short"


def test_where_nothing_may_be_cut_it_is_said() -> None:
    doubts, one = ledger((2.0,)), build("95 %")
    models = model_of(doubts, Line("gap", -1.0, (1.0,)))
    works = effects(one, (), models)
    assert works.shape == (1, 0)
    found = least_cut(one, outcome(one, doubts, models), cuts(one, lambda _: False), works, models)
    assert found is not None
    assert found.cuts == ()
    assert found.short == "no cut of this console changes what is short"


def test_rows_that_tip_are_not_cut_clear() -> None:
    doubts, one = ledger((2.0,)), build("95 %")
    models = model_of(doubts, Line("gap", 0.0, (1.0,)), tips_past=1.0)
    works = effects(one, listed(one), models)
    found = least_cut(one, outcome(one, doubts, models), listed(one), works, models)
    assert found is not None
    # what tips, Phi(-1) = 0.158655 of the rows, no saw sets upright
    # and the last hundredth is not worth its wood
    spare = 3 * found.reached.error
    assert 0.841345 - 0.01 - spare <= found.reached.value <= 0.841345 + spare
    assert found.short


def test_cuts_are_drawn_in_to_where_they_leave_a_console_together() -> None:
    # the nose alone would do with 5.5; past 3 no console is left, so 2.5 or 3 is all there is
    doubts, one = ledger((4.0,)), build("95 %")
    whole = model_of(doubts, Line("gap", -2.0, (1.0,)))
    none = model_of(doubts)

    def models(after: Build) -> GapModel:
        assert after.console is not None
        return (none if after.console.trims.nose_lower_by.value > 3.0 else whole)(after)

    works = np.array([[1.0 if cut.name == NOSE else 0.0 for cut in listed(one)]])
    found = least_cut(one, outcome(one, doubts, models), listed(one), works, models)
    assert found is not None
    ((cut, amount),) = found.cuts
    assert 2.5 <= amount <= 3.0
    assert amount == cut.most_mm
    assert "what can still be made of sheet" in found.short
    # 2.5 off leave a mean of 0.5, 3 off of 1, at a deviation of 2: Phi(0.25) to Phi(0.5)
    assert 0.59 <= found.reached.value <= 0.70


def test_a_plan_is_written_as_it_is_evaluated() -> None:
    found = plan("95 %", 1.0, 2.0)
    assert found is not None
    (edit,) = found.edits(build())
    assert edit.path == ("console", "trims", "nose lower by")
    after = found.applied(build()).console
    assert after is not None
    assert read_back(str(edit.value), "mm") == after.trims.nose_lower_by.value == 2.5


def test_the_last_hundredth_out_of_reach_takes_no_wood() -> None:
    doubts, one = ledger((2.0, 4.0)), build("95 %")
    # 'near' clears at 1 + c with sigma 1, 'far' at -1 with sigma 2 whatever is cut: together
    # Phi(1 + c) Phi(-0.5); all of the 40 mm there are make that 0.3085, 3 mm 0.3085 x 0.99997
    models = model_of(
        doubts, Line("near", 1.0, (1.0, 0.0)), Line("far", -1.0, (0.0, 1.0), per_cut=0.0)
    )
    works = effects(one, listed(one), models)
    found = least_cut(one, outcome(one, doubts, models), listed(one), works, models)
    assert found is not None
    assert found.short
    assert found.reached.value == pytest.approx(0.3085, abs=0.02)
    assert 0 < sum(amount for _, amount in found.cuts) < 3
