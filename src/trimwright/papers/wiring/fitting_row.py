"""Rows that are never higher than a page: names are told as long as there is room for them."""

from collections.abc import Callable

from trimwright.drawing import Column, Row, row_height

TALLEST_MM = 180.0
COUNTS = (40, 20, 10, 5, 2, 1)  # names told in one cell, until the row is low enough


def fitting_row(columns: tuple[tuple[Column, float], ...], make: Callable[[int], Row]) -> Row:
    """Return a row with as many names as leave it below the height of a page.

    Parameters
    ----------
    columns : tuple of (Column, share)
        The table's, at about the widths they will have.
    make : callable
        Returns the row with at most so many names in one cell.
    """
    plain = tuple(column for column, _ in columns)
    rows = (make(count) for count in COUNTS)
    return next((row for row in rows if row_height(plain, row) <= TALLEST_MM), make(COUNTS[-1]))
