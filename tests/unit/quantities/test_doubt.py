"""Doubts of the three kinds."""

from typing import Literal

import numpy as np
import pytest

from trimwright.quantities import Doubt

SCORES = np.linspace(-5.0, 5.0, 11)


def test_a_normal_doubt_is_two_sigma_wide() -> None:
    doubt = Doubt("normal", 3.0, 3.0)
    assert (doubt.sigma, doubt.mean_shift) == (1.5, 0.0)
    np.testing.assert_array_equal(doubt.deviation(SCORES), 1.5 * SCORES)


def test_a_uniform_doubt_never_leaves_its_bounds() -> None:
    deviation = Doubt("uniform", 2.0, 2.0).deviation(np.array([-60.0, 0.0, 60.0]))
    np.testing.assert_array_equal(deviation, [-2.0, 0.0, 2.0])


def test_an_even_split_is_normal() -> None:
    split, normal = Doubt("split", 3.0, 3.0), Doubt("normal", 3.0, 3.0)
    assert (split.sigma, split.mean_shift) == (normal.sigma, 0.0)
    np.testing.assert_allclose(split.deviation(SCORES), normal.deviation(SCORES), atol=3e-9)


def test_a_split_with_one_side_stays_on_it() -> None:
    assert np.all(Doubt("split", 0.0, 2.0).deviation(SCORES) >= 0)
    assert np.all(Doubt("split", 2.0, 0.0).deviation(SCORES) <= 0)


def test_a_split_has_ends_where_no_chance_is_left() -> None:
    doubt = Doubt("split", 1.0, 3.0)
    ends = doubt.deviation(np.array([-np.inf, -40.0, -37.0, 37.0, 40.0, np.inf]))
    np.testing.assert_array_equal(ends, ends[[2, 2, 2, 3, 3, 3]])
    assert np.all(np.isfinite(ends))


def test_no_doubt_moves_nothing() -> None:
    np.testing.assert_array_equal(Doubt("split", 0.0, 0.0).deviation(SCORES), np.zeros(11))


def test_worst_is_the_end_of_each_side() -> None:
    doubt = Doubt("split", 1.0, 3.0)
    assert (doubt.worst(1), doubt.worst(-1)) == (3.0, -1.0)
    with pytest.raises(ValueError, match="sign must be 1 or -1, got 0"):
        doubt.worst(0)


@pytest.mark.parametrize("half", [-1.0, float("nan"), float("inf")])
def test_half_widths_are_sizes(half: float) -> None:
    with pytest.raises(ValueError, match="minus must be 0 or more"):
        Doubt("split", half, 1.0)


@pytest.mark.parametrize("kind", ["normal", "uniform"])
def test_only_a_split_is_uneven(kind: Literal["normal", "uniform"]) -> None:
    with pytest.raises(ValueError, match=f"must be equal for {kind}, got 1, 2"):
        Doubt(kind, 1.0, 2.0)
