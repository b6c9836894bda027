"""What the rows say about a chance or a percentile, and how far that is off."""

from typing import TypeVar

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

FEWEST_SCRAMBLES = 2
Kind = TypeVar("Kind", np.bool_, np.float64)


class Estimate(Struct, frozen=True):
    """A figure estimated from the rows, with its standard error from the scrambles' spread."""

    value: float
    error: float


def _blocks(values: NDArray[Kind], scrambles: int) -> NDArray[Kind]:
    """Return the rows of each scramble, shape (scrambles, each)."""
    rows = values.shape[0] if values.ndim == 1 else 0
    if scrambles < FEWEST_SCRAMBLES or not rows or rows % scrambles:
        raise ValueError(
            f"scrambles must be at least {FEWEST_SCRAMBLES} and divide the one axis of rows,"
            f" got {scrambles} for shape {values.shape}"
        )
    return values.reshape(scrambles, -1)


def _spread(parts: NDArray[np.float64]) -> float:
    """Return the standard error of the mean of independent parts."""
    return float(parts.std(ddof=1) / np.sqrt(parts.size))


def certainty(clears: NDArray[np.bool_], scrambles: int) -> Estimate:
    """Return the share of rows that clear and its standard error.

    The error is taken between scrambles: the binomial formula overstates it for Sobol points.

    Parameters
    ----------
    clears : ndarray of bool, shape (rows,)
        Whether each row clears; the rows of one scramble stand together.
    scrambles : int
        Independent scrambles, at least 2.

    Raises
    ------
    ValueError
        If the rows do not divide by the scrambles.

    Examples
    --------
    >>> certainty(np.array([True, True, True, False]), 2)
    Estimate(value=0.75, error=0.25)
    """
    parts = _blocks(clears, scrambles).mean(axis=1)
    return Estimate(float(parts.mean()), _spread(parts))


def percentile(values: NDArray[np.float64], p: float, scrambles: int) -> Estimate:
    """Return the value with the share `p` of the rows below it, and its standard error.

    Parameters
    ----------
    values : ndarray, shape (rows,)
        Any unit; the rows of one scramble stand together.
    p : float
        Share below, from 0 to 1.
    scrambles : int
        Independent scrambles, at least 2.

    Raises
    ------
    ValueError
        If `p` is out of range or the rows do not divide by the scrambles.

    Examples
    --------
    >>> percentile(np.array([1.0, 2.0, 3.0, 4.0]), 0.5, 2)
    Estimate(value=2.5, error=1.0)
    """
    if not 0 <= p <= 1:
        raise ValueError(f"p must be from 0 to 1, got {p:g}")
    parts = np.quantile(_blocks(values, scrambles), p, axis=1)
    return Estimate(float(np.quantile(values, p)), _spread(parts))
