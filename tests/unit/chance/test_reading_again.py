import numpy as np
import pytest

from trimwright.chance import expected_cut, re_measure, repeated_sigma, sobol_scores


def test_a_perfect_reading_of_the_only_doubt() -> None:
    # margin 1 + z: sure once it confirms; the cut expected is phi(1) - (1 - Phi(1)) = 0.083315
    scores = sobol_scores(1, seed=1)
    found = re_measure(scores, 1 + scores[:, 0], 0, 0.0, 0.95)
    assert found.confirmed == 1.0
    assert found.cut_after == pytest.approx(0.083315, abs=1e-4)
    assert found.no_cut == pytest.approx(0.841345, abs=2e-3)


def test_a_factor_the_gap_does_not_feel() -> None:
    scores = sobol_scores(2, seed=1)
    found = re_measure(scores, 1 + scores[:, 0], 1, 0.5, 0.95)
    assert found.confirmed == pytest.approx(found.today, abs=1e-3)
    assert found.cut_after == pytest.approx(found.cut_before, abs=1e-2)


def test_room_to_spare_needs_no_cut() -> None:
    assert expected_cut(-2.0, 0.0) == 0.0
    assert expected_cut(2.0, 0.0) == 2.0


def test_nonsense_is_refused() -> None:
    scores = sobol_scores(2, scrambles=1, each=8, seed=1)
    with pytest.raises(ValueError, match=r"margin must have shape \(8,\), got \(7,\)"):
        re_measure(scores, scores[:7, 0], 0, 0.5, 0.95)
    with pytest.raises(ValueError, match=r"again_ratio must be 0 or more .*, got -1 and 0\.95"):
        re_measure(scores, scores[:, 0], 0, -1.0, 0.95)
    with pytest.raises(ValueError, match="forecast must be 0 or more, got -1"):
        expected_cut(1.0, -1.0)
    with pytest.raises(ValueError, match="times must be at least 1, got 0"):
        repeated_sigma(1.0, 1.0, 0)
    assert np.isfinite(repeated_sigma(1.0, 1.0, 1))


def test_a_margin_that_could_not_be_evaluated_is_refused() -> None:
    scores = sobol_scores(1, seed=1)
    margin = scores[:, 0].copy()
    margin[3] = -np.inf
    with pytest.raises(ValueError, match="margin must be finite in every row"):
        re_measure(scores, margin, 0, 0.5, 0.95)
