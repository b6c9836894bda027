"""How many rows clear along a line, exactly: every row clears on one interval of it."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def clear_intervals(margins: Floats, slopes: Floats) -> tuple[Floats, Floats]:
    """Return from where to where along a line all margins of a row are at least 0.

    Parameters
    ----------
    margins : ndarray, shape (gaps, rows)
        Margins [mm] at the start of the line.
    slopes : ndarray, shape (gaps,)
        What each margin gains for 1 mm along it.

    Returns
    -------
    tuple of ndarray, shape (rows,) each
        First and last place [mm]; infinite ends where nothing bounds it, and the first behind the
        last where the row never clears.

    Examples
    --------
    >>> clear_intervals(np.array([[-1.0], [3.0]]), np.array([0.5, -1.0]))
    (array([2.]), array([3.]))
    """
    rows = margins.shape[1]
    first, last = np.full(rows, -np.inf), np.full(rows, np.inf)
    gains, loses = slopes > 0, slopes < 0
    if gains.any():
        first = np.max(margins[gains] / -slopes[gains, None], axis=0)
    if loses.any():
        last = np.min(margins[loses] / -slopes[loses, None], axis=0)
    if not np.all(gains | loses):
        never = ~np.all(margins[slopes == 0] >= 0, axis=0)
        first[never], last[never] = np.inf, -np.inf
    return first, last


def _counts(first: Floats, last: Floats, most: float) -> tuple[Floats, NDArray[np.int64]]:
    """Return the places from 0 to `most` where rows begin to clear, and how many clear there."""
    ever = first <= last
    begins, ends = np.sort(first[ever]), np.sort(last[ever])
    places = np.concatenate([[0.0], begins[(begins > 0) & (begins <= most)]])
    clearing = np.searchsorted(begins, places, "right") - np.searchsorted(ends, places, "left")
    return places, clearing.astype(np.int64)


def smallest_place(first: Floats, last: Floats, needed: int, most: float) -> float | None:
    """Return the smallest place from 0 to `most` where at least `needed` rows clear, if any.

    Examples
    --------
    >>> smallest_place(np.array([0.5, 2.0, 1.0]), np.array([9.0, 9.0, 1.5]), 2, 5.0)
    1.0
    """
    ever = first <= last
    if np.all(last[ever] == np.inf):  # nothing is lost on the way: an order statistic
        begins = np.where(ever, first, np.inf)
        place = max(0.0, float(np.partition(begins, needed - 1)[needed - 1]))
        return place if place <= most else None
    places, clearing = _counts(first, last, most)
    enough = np.flatnonzero(clearing >= needed)
    return float(places[enough[0]]) if enough.size else None


def fullest_place(first: Floats, last: Floats, most: float) -> float:
    """Return the smallest of the places from 0 to `most` where most rows clear.

    Examples
    --------
    >>> fullest_place(np.array([0.5, 2.0, 1.0]), np.array([9.0, 9.0, 1.5]), 5.0)
    1.0
    """
    places, clearing = _counts(first, last, most)
    return float(places[np.argmax(clearing)])
