"""Tapes: Directive 2014/32/EU, annex X, as makers print it out by length.

The printed tables give 2, 3, 5, 8 and 10 m for the three classes.
"""

import pytest

from trimwright.stock import tool_error


@pytest.mark.parametrize(
    ("metres", "printed"),
    [
        (2, ("0.30", "0.70", "1.40")),
        (3, ("0.40", "0.90", "1.80")),
        (5, ("0.60", "1.30", "2.60")),
        (8, ("0.90", "1.90", "3.80")),
        (10, ("1.10", "2.30", "4.60")),
    ],
)
def test_largest_error(metres: int, printed: tuple[str, str, str]) -> None:
    ours = [tool_error(f"class {grade} tape", metres * 1000.0) for grade in ("I", "II", "III")]
    assert ours == pytest.approx([float(one) for one in printed], abs=0.005)
