"""What reading one figure again would be worth, before anyone has read it."""

from collections.abc import Callable

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.quantities import normal_cdf, normal_density

BEND = 3  # degree to which the margin may bend with the factor
OUTCOMES = np.linspace(-6, 6, 49)  # new readings tried, in standard deviations of their forecast
FINE = np.linspace(-6, 6, 4801)  # between them the percentile runs straight

Floats = NDArray[np.float64]


class ReMeasure(Struct, frozen=True):
    """What a second reading of one factor would be worth.

    `today` and `confirmed`: certainty now, and if the new reading is the forecast one.
    `cut_before`, `cut_after`: least cut [mm] for the wanted certainty now, and expected after the
    reading. `no_cut`: chance that no cut is needed after it. `expected`: certainty expected after
    it, which is today's: a reading that may go either way cannot by itself be expected to help.
    """

    today: float
    confirmed: float
    cut_before: float
    cut_after: float
    no_cut: float
    expected: float


def repeated_sigma(shared: float, own: float, times: int) -> float:
    """Return the standard deviation of the mean of several readings with one shared set-up.

    Parameters
    ----------
    shared, own : float
        Standard deviations of the set-up all readings share and of each reading, same unit.
    times : int
        Readings, at least 1.

    Returns
    -------
    float
        sqrt(shared^2 + own^2 / times): never below `shared`, however often it is read
        [jcgm-100-2008, 5.2.2].

    Raises
    ------
    ValueError
        If `times` is below 1.

    Examples
    --------
    >>> repeated_sigma(1.0, 1.0, 1), repeated_sigma(1.0, 1.0, 100)
    (1.4142135623730951, 1.004987562112089)
    """
    if times < 1:
        raise ValueError(f"times must be at least 1, got {times}")
    return float(np.sqrt(shared**2 + own**2 / times))


def expected_cut(need: float, forecast: float) -> float:
    """Return the cut expected after a reading, when all is normal.

    Parameters
    ----------
    need : float
        Cut [mm] that the wanted certainty asks for after a reading that confirms; negative where
        there is room to spare.
    forecast : float
        Standard deviation [mm] of the margin's mean over the readings that may come, 0 or more.

    Returns
    -------
    float
        s (phi(k/s) + (k/s) Phi(k/s)) with k the need, s the forecast: the mean of the part of a
        normal figure above 0.

    Raises
    ------
    ValueError
        If `forecast` is negative.

    Examples
    --------
    >>> round(expected_cut(0.0, 1.0), 6)
    0.398942
    """
    if forecast < 0:
        raise ValueError(f"forecast must be 0 or more, got {forecast:g}")
    if forecast == 0:
        return max(0.0, need)
    ratio = need / forecast
    return float(forecast * (normal_density(ratio) + ratio * normal_cdf(ratio)))


def _bend(z: Floats, margin: Floats) -> Callable[[Floats], Floats]:
    """Return the margin's least-squares polynomial in one factor's score, without its constant."""
    powers = np.vander(z, BEND + 1, increasing=True)
    coefficients = np.linalg.lstsq(powers, margin, rcond=None)[0].tolist()

    def bend(score: Floats) -> Floats:
        found = np.asarray(coefficients[-1] * score)
        for one in coefficients[-2:0:-1]:
            found += one
            found *= score
        return found

    return bend


def re_measure(
    scores: Floats, margin: Floats, column: int, again_ratio: float, wanted: float
) -> ReMeasure:
    """Return what reading one factor again would be worth.

    The new reading joins the old one. For each reading that may come, the factor's score gets the
    mean and spread it would then have, and the margin follows its regression on that score
    (a cubic: exact where the margin is at most that bent in the factor and the factor's effect
    does not hang on the others).

    Parameters
    ----------
    scores : ndarray, shape (rows, factors)
        Independent standard normal scores.
    margin : ndarray, shape (rows,)
        Gap less what is wanted of it [mm]; 0 or more clears.
    column : int
        The factor to read again.
    again_ratio : float
        Half width of the new reading over that of the old, 0 or more.
    wanted : float
        Wanted certainty, above 0 and below 1.

    Raises
    ------
    ValueError
        If an argument is out of range, a margin is not finite, or the rows disagree.

    References
    ----------
    raiffa-schlaifer-1961 (forecast of the mean after a sample)

    Examples
    --------
    >>> from trimwright.chance import sobol_scores
    >>> z = sobol_scores(2, seed=1)
    >>> found = re_measure(z, 3 + 2 * z[:, 0] + z[:, 1], 0, 0.5, 0.95)
    >>> round(found.today, 2), round(found.confirmed, 2)
    (0.91, 0.99)
    """
    if margin.shape != scores.shape[:1]:
        raise ValueError(f"margin must have shape {scores.shape[:1]}, got {margin.shape}")
    if not np.isfinite(margin).all():
        raise ValueError("margin must be finite in every row, got one that is not")
    if again_ratio < 0 or not 0 < wanted < 1:
        raise ValueError(
            "again_ratio must be 0 or more and wanted between 0 and 1,"
            f" got {again_ratio:g} and {wanted:g}"
        )
    z = scores[:, column]
    bend = _bend(z, margin)
    rest = margin - bend(z)
    # prior N(0,1), reading z + N(0, q^2): mean after it ~ N(0, 1/(1+q^2)), variance q^2/(1+q^2)
    forecast = 1 / np.sqrt(1 + again_ratio**2)
    left = again_ratio * forecast
    after = rest + bend(forecast * OUTCOMES[:, None] + left * z)
    lows = np.quantile(after, 1 - wanted, axis=1)
    # share of the way between two outcomes on which a row clears, its margin running straight
    above, below = np.maximum(after[1:], after[:-1]), np.minimum(after[1:], after[:-1])
    crossing = (below < 0) & (above >= 0)
    part = above / np.where(crossing, above - below, 1.0)
    sure = np.mean(np.where(crossing, part, below >= 0), axis=1)
    weights = normal_density(FINE)
    weights /= weights.sum()
    low = np.interp(FINE, OUTCOMES, lows)
    between = np.diff(normal_cdf(OUTCOMES))
    return ReMeasure(
        today=float(np.mean(margin >= 0)),
        confirmed=float(np.mean(rest + bend(left * z) >= 0)),
        cut_before=max(0.0, -float(np.quantile(margin, 1 - wanted))),
        cut_after=float(weights @ np.maximum(0.0, -low)),
        no_cut=float(weights[low >= 0].sum()),
        expected=float(between @ sure / between.sum()),
    )
