"""How likely each of some explanations is, by what it would show and what was read."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def chances(odds: Floats, shown: Floats, doubt: Floats, read: Floats, span: float) -> Floats:
    """Return the chance of each explanation, all of which together come to 1 (Bayes).

    Parameters
    ----------
    odds : ndarray, shape (explanations,)
        How likely each is before anything was read, in any measure that is the same for all.
    shown : ndarray, shape (explanations, readings)
        What would be read with each [V]; NaN where it says nothing of that.
    doubt : ndarray, shape (explanations, readings)
        Standard deviation of what would be read [V], normal; each reading counts by itself.
    read : ndarray, shape (readings,)
        What was read [V].
    span : float
        Of the voltages that may be read at all [V]: what says nothing of a reading leaves each of
        them as likely as any other.

    Returns
    -------
    ndarray, shape (explanations,)
        From 0 to 1.

    Examples
    --------
    Of two that would show the same, the one that comes three times as often is 3 in 4:

    >>> chances(np.array([3.0, 1.0]), np.zeros((2, 1)), np.ones((2, 1)), np.array([0.5]), 25.0)
    array([0.75, 0.25])
    """
    off = (read - shown) / doubt
    told = -(off**2) / 2 - np.log(doubt * np.sqrt(2 * np.pi))  # log of the normal density, 1/V
    each = np.where(np.isnan(shown), -np.log(span), told)
    weight = np.log(odds) + np.sum(each, axis=1)
    share = np.exp(weight - np.max(weight))
    return np.asarray(share / np.sum(share))
