"""The least cut does not hang on digits in which two machines differ."""

from functools import cache
from pathlib import Path

import numpy as np
import pytest
from msgspec.structs import replace

from trimwright.build import Build, load
from trimwright.cabin import cabin
from trimwright.fit import Cut, GapModel, Plan, cuts, effects, least_cut

DEMO = Path(__file__).resolve().parents[3] / "examples" / "dunlin" / "first-measured.yaml"
LAST_MM = 1e-12  # what sums in another order leave


def model_of(one: Build) -> GapModel:
    """Return the gaps of a build."""
    found = cabin(one).model
    assert found is not None
    return found


@cache
def plan(seed: int) -> tuple[tuple[Cut, float], ...]:
    """Return the least cut of the example, its margins and effects off in the last digits."""
    one = load(DEMO).build
    found, rng = cabin(one).outcome, np.random.default_rng(seed)
    assert found is not None
    some = [cut for cut in cuts(one, lambda _: True) if "handbrake" not in cut.name]
    works = effects(one, tuple(some), model_of)
    off = [LAST_MM * rng.uniform(-1, 1, of.shape) for of in (found.draws.margins, works)]
    draws = replace(found.draws, margins=found.draws.margins + off[0])
    made = least_cut(one, replace(found, draws=draws), tuple(some), works + off[1], model_of)
    assert isinstance(made, Plan)
    return made.cuts


@pytest.mark.parametrize("seed", [1, 2, 3, 4])
def test_the_same_cuts_are_found(seed: int) -> None:
    assert [amount for _, amount in plan(seed)] == [amount for _, amount in plan(0)]
