"""A row tells as many names as leave it below the height of a page."""

from trimwright.drawing import Column, Row, row_height
from trimwright.papers.wiring.fitting_row import COUNTS, TALLEST_MM, fitting_row
from trimwright.papers.wiring.wording import named

COLUMNS = ((Column("feeds", 40.0), 40),)


def _row(long: int, most: int) -> Row:
    names = [f"{'lamp ' * long}number {n}" for n in range(300)]
    return Row((named(names, most, between="\n"),))


def test_short_names_are_told_as_many_as_go() -> None:
    row = fitting_row(COLUMNS, lambda most: _row(1, most))
    assert row == _row(1, COUNTS[0])


def test_long_names_are_told_by_fewer_until_the_row_fits() -> None:
    row = fitting_row(COLUMNS, lambda most: _row(20, most))
    plain = tuple(column for column, _ in COLUMNS)
    assert row_height(plain, row) <= TALLEST_MM
    assert row != _row(20, COUNTS[0])
    told = next(most for most in COUNTS if row == _row(20, most))
    larger = COUNTS[COUNTS.index(told) - 1]
    assert row_height(plain, _row(20, larger)) > TALLEST_MM
