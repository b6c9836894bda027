"""The normal curve: how likely a score is, and the score of a likelihood."""

import numpy as np
from numpy.typing import NDArray

FAR = 37.0  # beyond it the lower tail is below 1e-299
_FARTHEST = 1e-299
_SPLIT = 7.07106781186547  # where the rational form gives way to the continued fraction
_ROOT_TWO_PI = float(np.sqrt(2 * np.pi))
# Rational approximation of exp(x^2/2) Phi(-x): Hart's function 5666, as printed by West
# [west-2005, figure 2], highest power first.
_TOP = (
    3.52624965998911e-02,
    0.700383064443688,
    6.37396220353165,
    33.912866078383,
    112.079291497871,
    221.213596169931,
    220.206867912376,
)
_BOTTOM = (
    8.83883476483184e-02,
    1.75566716318264,
    16.064177579207,
    86.7807322029461,
    296.564248779674,
    637.333633378831,
    793.826512519948,
    440.413735824752,
)
# First guess of the score in the middle and in the tails, good to 4.5e-4
# [abramowitz-stegun-1964, formula 26.2.23]; Newton steps do the rest.
_GUESS_TOP = (0.010328, 0.802853, 2.515517)
_GUESS_BOTTOM = (0.001308, 0.189269, 1.432788, 1.0)


def lower_share(score: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the share of a standard normal population that lies below each score.

    Parameters
    ----------
    score : ndarray, any shape
        Standard-normal scores; beyond 37 either way they count as 37.

    Returns
    -------
    ndarray, same shape
        Shares, from 0 to 1, right to 1e-15; below a score of -7 to 1e-8 of themselves.

    References
    ----------
    west-2005

    Examples
    --------
    >>> lower_share(np.array([-1.96, 0.0, 1.0])).round(6)
    array([0.024998, 0.5     , 0.841345])
    """
    far = np.minimum(np.abs(np.asarray(score, dtype=np.float64)), FAR)
    bell = np.exp(-0.5 * far * far)
    near_tail = bell * np.polyval(_TOP, far) / np.polyval(_BOTTOM, far)
    away = np.maximum(far, _SPLIT)
    ladder = away + 0.65
    for step in (4.0, 3.0, 2.0, 1.0):
        ladder = away + step / ladder
    tail = np.where(far < _SPLIT, near_tail, bell / ladder / _ROOT_TWO_PI)
    return np.asarray(np.where(np.asarray(score) > 0, 1.0 - tail, tail))


def score_of(share: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the standard-normal score below which each share lies.

    Parameters
    ----------
    share : ndarray, any shape
        Shares, from 0 to 1; 0 and 1 give the ends, about -37 and 37.

    Returns
    -------
    ndarray, same shape
        Scores, right to 2e-9: the inverse of `lower_share`.

    References
    ----------
    abramowitz-stegun-1964

    Examples
    --------
    >>> score_of(np.array([0.025, 0.5, 0.95])).round(6)
    array([-1.959964,  0.      ,  1.644854])
    """
    given = np.asarray(share, dtype=np.float64)
    tail = np.clip(np.minimum(given, 1.0 - given), _FARTHEST, 0.5)
    root = np.sqrt(-2.0 * np.log(tail))
    far = root - np.polyval(_GUESS_TOP, root) / np.polyval(_GUESS_BOTTOM, root)
    for _ in range(3):
        # Halley's step on Phi(-far) = tail; slope of the tail is -bell
        bell = np.exp(-0.5 * far * far) / _ROOT_TWO_PI
        newton = (lower_share(-far) - tail) / bell
        far = far + newton / (1.0 + 0.5 * far * newton)
    return np.asarray(np.where(given < 0.5, -far, far))  # noqa: PLR2004  half lies on either side
