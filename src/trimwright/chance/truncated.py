"""Draws of normal vectors of which some parts are known only to lie above or below a limit."""

import numpy as np
from numpy.typing import NDArray

from trimwright.quantities import normal_cdf, normal_quantile

SWEEPS = 100  # Gibbs sweeps of every row's own chain; one is exact where one part is limited
SWEEPING = 1  # stream of the sweeps
SMALLEST = 1e-300  # chances are kept this far from 0 and 1e-16 from 1

Floats = NDArray[np.float64]


def uniform_draws(seed: int, *stream: int, shape: tuple[int, ...]) -> Floats:
    """Return pseudo-random figures strictly between 0 and 1, from one stream of a seed.

    From the raw output of PCG64, whose streams are fixed for good.

    Examples
    --------
    >>> bool((uniform_draws(1, 2, shape=(3, 2)) < 1).all())
    True
    """
    source = np.random.SeedSequence([seed, *stream])
    raw = np.random.PCG64(source).random_raw(int(np.prod(shape)))
    return ((raw >> np.uint64(12)).astype(np.float64).reshape(shape) + 0.5) * 2.0**-52


def beyond(limit: Floats, chances: Floats) -> Floats:
    """Return standard normal scores known to lie above their limits, at chances between 0 and 1.

    Inverse of the upper tail, so it holds far out too.

    Examples
    --------
    >>> beyond(np.array([0.0, 10.0]), np.array([0.5, 0.5])).round(3)
    array([ 0.674, 10.068])
    """
    tail = normal_cdf(-limit) * chances
    return np.maximum(limit, -normal_quantile(np.clip(tail, SMALLEST, 1 - 1e-16)))


def truncated_normal(
    mean: Floats, covariance: Floats, limits: Floats, above: NDArray[np.bool_], seed: int
) -> Floats:
    """Return normal vectors of which every part lies on its side of its limit.

    Gibbs sampling, one chain a row, all rows at once, so rows are independent of each other.

    Parameters
    ----------
    mean : ndarray, shape (rows, parts)
        Means before the limits are known, any unit.
    covariance : ndarray, shape (parts, parts)
        Covariance, positive definite.
    limits : ndarray, shape (parts,)
        Limits, same unit as the means.
    above : ndarray of bool, shape (parts,)
        Whether each part lies above its limit, else below.
    seed : int
        Seed, 0 or above.

    Returns
    -------
    ndarray, shape (rows, parts)

    References
    ----------
    geweke-1991
    """
    rows, parts = mean.shape
    sign = np.where(above, 1.0, -1.0)
    # turned so that every part lies above its limit
    mean, limits = mean * sign, limits * sign
    precision = np.linalg.inv(covariance * np.outer(sign, sign))
    spread = 1 / np.sqrt(np.diag(precision))
    now = np.maximum(mean, limits)
    sweeps = SWEEPS if parts > 1 else 1
    for sweep in range(sweeps):
        chances = uniform_draws(seed, SWEEPING, sweep, shape=(parts, rows))
        for part in range(parts):
            # mean of one part given the others: m - (1/P_ii) sum over others of P_ij (x_j - m_j)
            others = (now - mean) @ precision[part] - precision[part, part] * (
                now[:, part] - mean[:, part]
            )
            middle = mean[:, part] - others * spread[part] ** 2
            score = beyond((limits[part] - middle) / spread[part], chances[part])
            now[:, part] = middle + spread[part] * score
    return np.asarray(now * sign)
