import numpy as np
import pytest

from trimwright.chance import group_shares, shares, sobol_scores


def test_a_square_belongs_to_its_factor() -> None:
    scores = sobol_scores(2, seed=1)
    assert shares(scores, scores[:, 0] ** 2) == pytest.approx([1.0, 0.0], abs=1e-9)


def test_factors_acting_together_belong_to_neither() -> None:
    scores = sobol_scores(2, seed=1)
    assert shares(scores, scores[:, 0] * scores[:, 1]) == pytest.approx([0.0, 0.0], abs=1e-3)


def test_several_outputs_at_once() -> None:
    scores = sobol_scores(2, seed=1)
    outputs = np.column_stack([scores[:, 0], scores[:, 1], np.full(4096, 8.3)])
    expected = np.array([[1.0, 0.0, 0.0], [0.0, 1.0, 0.0]])
    assert shares(scores, outputs) == pytest.approx(expected, abs=1e-9)


def test_groups_are_summed_and_sorted() -> None:
    found = group_shares(np.array([0.2, 0.1, 0.4, 0.3]), ["a", "b", "b", "a"])
    assert [name for name, _ in found] == ["a", "b"]
    assert [share for _, share in found] == pytest.approx([0.5, 0.5])


def test_nonsense_is_refused() -> None:
    scores = sobol_scores(2, scrambles=1, each=8, seed=1)
    with pytest.raises(ValueError, match="degree must be from 1 to 8, got 9"):
        shares(scores, scores[:, 0], degree=9)
    with pytest.raises(ValueError, match="at least 18, got 8"):
        shares(scores, scores[:, 0], degree=4)
    with pytest.raises(ValueError, match=r"outputs must have the 8 rows of scores, .*, got 7"):
        shares(scores, scores[:7, 0], degree=1)
    with pytest.raises(ValueError, match=r"groups must name one for each of \(2,\), got 1"):
        group_shares(np.zeros(2), ["a"])


def test_polynomials_of_degree_three_are_weighed_right() -> None:
    # z^3 has variance 15, so sqrt(15) of another score weighs the same
    scores = sobol_scores(2, seed=1)
    output = scores[:, 0] ** 3 + 15**0.5 * scores[:, 1]
    assert shares(scores, output, degree=3) == pytest.approx([0.5, 0.5], abs=1e-9)


def test_an_output_that_could_not_be_evaluated_is_refused() -> None:
    scores = sobol_scores(1, seed=1)
    outputs = scores[:, 0].copy()
    outputs[3] = np.nan
    with pytest.raises(ValueError, match="outputs must be finite in every row"):
        shares(scores, outputs)
