"""What a few draws with a cut made say of all: exact where the change follows, none where not."""

from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from trimwright.build import load
from trimwright.cabin import cabin
from trimwright.fit import GapTable
from trimwright.fit.carried import carried, some_rows
from trimwright.fit.verdict import SCRAMBLES, Draws

Floats = NDArray[np.float64]
EXAMPLE = Path(__file__).resolve().parents[3] / "examples" / "dunlin" / "first-measured.yaml"
ROWS = SCRAMBLES * 256


def draws(margins: Floats) -> Draws:
    """Return draws with these margins, all at one rest."""
    scores, none = np.zeros((ROWS, 1)), np.zeros(ROWS, dtype=bool)
    table = GapTable(margins, np.zeros((ROWS, 3)), none, none, none, ~none)
    return Draws(scores, scores, table, margins)


def today() -> Floats:
    return np.random.default_rng(7).normal((0.0, 3.0), (2.0, 4.0), (ROWS, 2))


def test_a_change_that_follows_the_gaps_is_carried_exactly() -> None:
    before = today()
    after = before + np.array([3.0, -1.0]) + 0.1 * before[:, ::-1]
    one = draws(before)
    rows = some_rows(one)
    assert carried(one, rows, after[rows]) == pytest.approx(after, abs=1e-9)


def test_the_first_draws_of_each_scramble_are_taken() -> None:
    rows = some_rows(draws(today()))
    assert rows.reshape(SCRAMBLES, -1)[:, :3].tolist() == [
        [256 * k, 256 * k + 1, 256 * k + 2] for k in range(SCRAMBLES)
    ]


def test_what_does_not_follow_keeps_its_spread() -> None:
    before = today()
    after = before + np.random.default_rng(8).normal(0.0, 0.3, before.shape)
    one = draws(before)
    rows = some_rows(one)
    found = carried(one, rows, after[rows])
    assert found is not None
    assert (found - before).std(axis=0) == pytest.approx([0.3, 0.3], rel=0.15)


def test_a_change_of_another_kind_is_not_carried() -> None:
    before = today()
    one = draws(before)
    rows = some_rows(one)
    assert carried(one, rows, np.minimum(before, 0.0)[rows] + 3.0) is None


def test_draws_that_tip_anew_are_not_carried() -> None:
    before = today()
    one = draws(before)
    rows = some_rows(one)
    after = before[rows] + 1.0
    after[3] = np.nan
    assert carried(one, rows, after) is None


def test_a_draw_that_tips_today_stays_one() -> None:
    before = today()
    before[[3, 700]] = np.nan
    one = draws(before)
    rows = some_rows(one)
    found = carried(one, rows, before[rows] + 1.0)
    assert found is not None
    assert np.flatnonzero(np.isnan(found).any(axis=1)).tolist() == [3, 700]


def test_what_single_cuts_promise_is_what_all_draws_say() -> None:
    one = cabin(load(EXAMPLE).build)
    found = one.outcome
    assert found is not None
    assert len(one.singles) > 4
    for single in one.singles:
        model = cabin(single.cut.applied(one.build, single.amount)).model
        assert model is not None
        margins = model.evaluate(found.draws.scores).margins(model.gaps)
        sure = {gap.name: (margins[:, k] >= 0).mean() for k, gap in enumerate(model.gaps)}
        assert single.reached == pytest.approx(sure[single.gap], abs=0.01)
        assert {fate.gap.name: fate.sure for fate in single.fates} == pytest.approx(
            {fate.gap.name: sure[fate.gap.name] for fate in single.fates}, abs=0.03
        )
