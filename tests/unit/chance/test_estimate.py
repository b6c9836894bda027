import numpy as np
import pytest

from trimwright.chance import certainty, percentile


def test_error_is_between_scrambles_not_within() -> None:
    # both halves clear three in four: their spread is nought though rows differ
    found = certainty(np.array([True, True, True, False] * 2), 2)
    assert (found.value, found.error) == (0.75, 0.0)


def test_error_of_two_scrambles() -> None:
    # halves 1.0 and 0.5: sd 0.353553, over root 2 is 0.25
    found = certainty(np.array([True, True, True, False]), 2)
    assert found.error == pytest.approx(0.25)


def test_percentile() -> None:
    found = percentile(np.concatenate([np.arange(101.0)] * 2), 0.05, 2)
    assert found.value == pytest.approx(5.0)
    assert found.error == 0.0


@pytest.mark.parametrize("scrambles", [0, 1, 3])
def test_rows_that_do_not_divide_are_refused(scrambles: int) -> None:
    with pytest.raises(ValueError, match=rf"scrambles must be at least 2 .*, got {scrambles} for"):
        certainty(np.ones(8, dtype=bool), scrambles)


def test_impossible_percentile_is_refused() -> None:
    with pytest.raises(ValueError, match=r"p must be from 0 to 1, got 1\.5"):
        percentile(np.zeros(8), 1.5, 2)
