"""ISO 216: A0 has one square metre and sides as 1 to the root of 2; each next is half the last."""

import math

import pytest

from trimwright.drawing import SIZES_MM, size_mm


def test_a_sizes_follow_from_the_square_metre() -> None:
    # ISO 216, 5: the long side of A0 is 1000 * 2**(1/4) mm, rounded; each size is half the one before
    width, height = round(1000 * 2**-0.25), round(1000 * 2**0.25)
    for name in ("A0", "A1", "A2", "A3", "A4"):
        assert SIZES_MM[name] == (width, height)
        width, height = height // 2, width


def test_letter_is_8_and_a_half_by_11_inches() -> None:
    assert size_mm("Letter") == pytest.approx((8.5 * 25.4, 11 * 25.4))
    assert size_mm("Tabloid") == pytest.approx((11 * 25.4, 17 * 25.4))


def test_paper_without_width_is_refused() -> None:
    with pytest.raises(ValueError, match="size must be above 0 both ways, got 0 x 10"):
        size_mm((0.0, 10.0))


def test_a4_is_as_long_as_its_diagonal_of_the_square() -> None:
    assert SIZES_MM["A4"][1] / SIZES_MM["A4"][0] == pytest.approx(math.sqrt(2), abs=0.003)
