"""How far a figure may be off."""

from math import isfinite, pi, sqrt
from typing import Literal

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.quantities.normal import normal_cdf, normal_quantile

FARTHEST = 37.0  # scores beyond it count as it: the chance below -37 is some 6e-300


class Doubt(Struct, frozen=True):
    """How far a figure may be off, below (`minus`) and above (`plus`), at odds of 19 to 1.

    Parameters
    ----------
    kind : {'normal', 'uniform', 'split'}
        'normal': sigma is half the half width. 'uniform': anywhere between the two, nowhere else
        ('at most 2 off'). 'split': two half normal curves that meet at the written figure, which
        is the likeliest, each with half its own half width for sigma ('+3/-1').
    minus, plus : float
        Half widths, in the unit of the figure, 0 or more; equal unless `kind` is 'split'.

    Raises
    ------
    ValueError
        If a half width is negative or not finite, or the two differ where they may not.

    References
    ----------
    jcgm-101-2008 (6.4.2 rectangular, 6.4.7 normal), john-1982 (the two-piece normal curve)

    Examples
    --------
    >>> Doubt("normal", 2.0, 2.0).sigma
    1.0
    >>> Doubt("split", 1.0, 3.0).deviation(np.array([-2.0, 0.0, 2.0])).round(3)
    array([-0.845,  0.646,  3.249])
    """

    kind: Literal["normal", "uniform", "split"]
    minus: float
    plus: float

    def __post_init__(self) -> None:
        """Refuse half widths that mean nothing."""
        for name, half in (("minus", self.minus), ("plus", self.plus)):
            if not (isfinite(half) and half >= 0):
                raise ValueError(f"{name} must be 0 or more, got {half:g}")
        if self.kind != "split" and self.minus != self.plus:
            raise ValueError(
                f"minus and plus must be equal for {self.kind}, got {self.minus:g}, {self.plus:g}"
            )

    @property
    def sigma(self) -> float:
        """Standard deviation, in the unit of the figure."""
        if self.kind == "normal":
            return self.plus / 2
        if self.kind == "uniform":
            return self.plus / sqrt(3)
        # variance of the two-piece normal: (1 - 2/pi) (s2 - s1)^2 + s1 s2 [john-1982]
        low, high = self.minus / 2, self.plus / 2
        return sqrt((1 - 2 / pi) * (high - low) ** 2 + low * high)

    @property
    def mean_shift(self) -> float:
        """How far the mean lies above the written figure: 0 unless 'split'."""
        if self.kind != "split":
            return 0.0
        # mean of the two-piece normal less its mode: sqrt(2/pi) (s2 - s1) [john-1982]
        return sqrt(2 / pi) * (self.plus - self.minus) / 2

    def deviation(self, score: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return how far off the figure is at each standard-normal score.

        Parameters
        ----------
        score : ndarray, any shape
            Standard-normal scores; unless 'normal', those beyond 37 either way count as 37.

        Returns
        -------
        ndarray, same shape
            Deviations from the written figure, in its unit, growing with the score. A 'split'
            doubt is not 0 at score 0: more than half of it lies on its wider side.
        """
        scores = np.asarray(score, dtype=np.float64)
        if self.kind == "normal":
            return np.asarray(self.sigma * scores)
        scores = np.clip(scores, -FARTHEST, FARTHEST)
        if self.kind == "uniform":
            return np.asarray(self.plus * (normal_cdf(scores) - normal_cdf(-scores)))
        return self._two_piece(scores)

    def _two_piece(self, score: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the quantiles of the two-piece normal; each side's area goes with its sigma."""
        low, high = self.minus / 2, self.plus / 2
        both = low + high
        if both == 0:
            return np.zeros_like(score)
        # below the mode F(x) = 2 s1/(s1+s2) Phi(x/s1); above it 1-F(x) = 2 s2/(s1+s2) Phi(-x/s2)
        share, rest = normal_cdf(score), normal_cdf(-score)
        below = share * both < low
        fall = normal_quantile(np.where(below, share * both / (2 * low or 1.0), 0.5))
        rise = normal_quantile(np.where(below, 0.5, rest * both / (2 * high or 1.0)))
        return np.asarray(np.where(below, low * fall, -high * rise))

    def worst(self, sign: int) -> float:
        """Return the deviation at the end of the doubt: above for sign 1, below for sign -1.

        Raises
        ------
        ValueError
            If `sign` is neither 1 nor -1.

        Examples
        --------
        >>> Doubt("split", 1.0, 3.0).worst(-1)
        -1.0
        """
        if sign not in (-1, 1):
            raise ValueError(f"sign must be 1 or -1, got {sign:g}")
        return self.plus if sign > 0 else -self.minus
