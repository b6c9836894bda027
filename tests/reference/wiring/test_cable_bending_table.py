"""Bends of cables that move, as a cable maker's technical page prints them.

The page: bending radius, table 2, flexible cable. Its row 'free movement' reads 5D up to 8 mm, 5D
over 8 up to 12 mm, 6D over 12 up to 20 mm, 6D above. EN 50565-1 has the same for cables with PVC,
from memory.
"""

import pytest

from trimwright.stock import bend_moving
from trimwright.wiring.bundle import bundle, tightest_bend, tightest_moving


@pytest.mark.parametrize(
    ("diameter_mm", "times"),
    [(1.0, 5), (8.0, 5), (8.01, 5), (12.0, 5), (12.01, 6), (20.0, 6), (25, 6)],
)
def test_free_movement(diameter_mm: float, times: float) -> None:
    assert bend_moving(diameter_mm).value == times


def test_a_wire_that_moves_is_held_to_more_than_one_that_lies_still() -> None:
    # by hand: 5 times 4.3 mm; a data sheet of single cores prints 4 times for fixed installation
    assert tightest_moving(bundle((4.3,))).radius_mm == pytest.approx(21.5)
    assert tightest_bend(bundle((4.3,))).radius_mm == pytest.approx(17.2)


def test_a_bundle_that_moves_is_held_to_no_less_than_one_that_lies_still() -> None:
    for count in (2, 7, 19):
        what = bundle((4.3,) * count)
        assert tightest_moving(what) == tightest_bend(what)


def test_a_cable_without_thickness_is_refused() -> None:
    with pytest.raises(ValueError, match="diameter_mm must be above 0, got 0"):
        bend_moving(0.0)
