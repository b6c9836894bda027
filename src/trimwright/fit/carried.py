"""What a cut does to every draw, from a few draws in which it was made."""

import numpy as np
from numpy.typing import NDArray

from trimwright.fit.verdict import SCRAMBLES, Draws

Floats = NDArray[np.float64]
Rows = NDArray[np.intp]
EACH = 32  # draws of each scramble in which a cut is made: the first ones, spread like all of them
CLOSE = 0.6  # share of a gap's spread left unexplained, above which all draws are evaluated


def some_rows(draws: Draws) -> Rows:
    """Return the draws in which a cut is made: the first of each scramble."""
    each = len(draws.scores) // SCRAMBLES
    return (np.arange(SCRAMBLES)[:, None] * each + np.arange(min(EACH, each))).ravel()


def carried(draws: Draws, rows: Rows, margins: Floats) -> Floats | None:
    """Return the margins of all draws, from those of some with a cut made.

    What the cut changes differs little from draw to draw, and follows the gaps and the rest it
    starts from: the change is fitted to these by least squares and added to today's margins. What
    is left unexplained is added too, in turn, so that the spread stays what it is.

    Parameters
    ----------
    draws : Draws
        Today's.
    rows : ndarray of int, shape (n,)
        The draws that were evaluated with the cut made.
    margins : ndarray, shape (n, gaps)
        Their margins then [mm]; NaN where the console tips.

    Returns
    -------
    ndarray, shape (rows, gaps), or None
        None where the change does not follow: too few draws stand, other draws tip, or a gap's
        change leaves more than six tenths of its spread unexplained.
    """
    told = np.column_stack([np.ones(len(draws.margins)), draws.margins, draws.table.poses])
    stands = np.asarray(np.isfinite(told).all(axis=1))
    both = stands[rows] & np.asarray(np.isfinite(margins).all(axis=1))
    # the draws that fall over must be the same ones: no straight line tells of others
    if (both != stands[rows]).any() or np.count_nonzero(both) < 4 * told.shape[1]:
        return None
    here = told[rows][both]
    change = margins[both] - draws.margins[rows][both]
    fitted = np.linalg.lstsq(here, change, rcond=None)[0]
    left = change - here @ fitted
    if (left.std(axis=0) > CLOSE * margins[both].std(axis=0)).any():
        return None
    found = np.full_like(draws.margins, np.nan)
    found[stands] = draws.margins[stands] + told[stands] @ fitted
    found[stands] += np.resize(left, (np.count_nonzero(stands), left.shape[1]))
    return found
