"""The standard normal law: density, chance below, the score at a chance, and two scores at once."""

from functools import cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

# fmt: off
# Coefficients of [wichura-1988, routine PPND16], highest power first: numerator, denominator.
NEAR = (
    (2.5090809287301226727e3, 3.3430575583588128105e4, 6.7265770927008700853e4,
     4.5921953931549871457e4, 1.3731693765509461125e4, 1.9715909503065514427e3,
     1.3314166789178437745e2, 3.3871328727963666080e0),
    (5.2264952788528545610e3, 2.8729085735721942674e4, 3.9307895800092710610e4,
     2.1213794301586595867e4, 5.3941960214247511077e3, 6.8718700749205790830e2,
     4.2313330701600911252e1, 1.0),
)
OUTER = (
    (7.74545014278341407640e-4, 2.27238449892691845833e-2, 2.41780725177450611770e-1,
     1.27045825245236838258e0, 3.64784832476320460504e0, 5.76949722146069140550e0,
     4.63033784615654529590e0, 1.42343711074968357734e0),
    (1.05075007164441684324e-9, 5.47593808499534494600e-4, 1.51986665636164571966e-2,
     1.48103976427480074590e-1, 6.89767334985100004550e-1, 1.67638483018380384940e0,
     2.05319162663775882187e0, 1.0),
)
FURTHEST = (
    (2.01033439929228813265e-7, 2.71155556874348757815e-5, 1.24266094738807843860e-3,
     2.65321895265761230930e-2, 2.96560571828504891230e-1, 1.78482653991729133580e0,
     5.46378491116411436990e0, 6.65790464350110377720e0),
    (2.04426310338993978564e-15, 1.42151175831644588870e-7, 1.84631831751005468180e-5,
     7.86869131145613259100e-4, 1.48753612908506148525e-2, 1.36929880922735805310e-1,
     5.99832206555887937690e-1, 1.0),
)
# Coefficients of the error function [cody-1969], highest power first.
ERF_NEAR = (
    (1.85777706184603153e-1, 3.16112374387056560e0, 1.13864154151050156e2,
     3.77485237685302021e2, 3.20937758913846947e3),
    (1.0, 2.36012909523441209e1, 2.44024637934444173e2, 1.28261652607737228e3,
     2.84423683343917062e3,),
)
ERFC_OUTER = (
    (2.15311535474403846e-8, 5.64188496988670089e-1, 8.88314979438837594e0,
     6.61191906371416295e1, 2.98635138197400131e2, 8.81952221241769090e2,
     1.71204761263407058e3, 2.05107837782607147e3, 1.23033935479799725e3),
    (1.0, 1.57449261107098347e1, 1.17693950891312499e2, 5.37181101862009858e2,
     1.62138957456669019e3, 3.29079923573345963e3, 4.36261909014324716e3,
     3.43936767414372164e3, 1.23033935480374942e3),
)
ERFC_FURTHEST = (
    (1.63153871373020978e-2, 3.05326634961232344e-1, 3.60344899949804439e-1,
     1.25781726111229246e-1, 1.60837851487422766e-2, 6.58749161529837803e-4),
    (1.0, 2.56852019228982242e0, 1.87295284992346047e0, 5.27905102951428412e-1,
     6.05183413124413191e-2, 2.33520497626869185e-3),
)
# fmt: on
# the ranges of the approximations, as their authors set them
SPLIT_QUANTILE, SPLIT_TAIL, SPLIT_ERF, SPLIT_ERFC = 0.425, 5.0, 0.46875, 4.0
QUADRATURE = 64  # Gauss-Legendre points of the integral over the correlation


def _ratio(coefficients: tuple[tuple[float, ...], tuple[float, ...]], x: Floats) -> Floats:
    """Return numerator over denominator, both by Horner's rule."""
    parts = []
    for powers in coefficients:
        total = np.full_like(x, powers[0])
        for coefficient in powers[1:]:
            total *= x
            total += coefficient
        parts.append(total)
    above, below = parts
    above /= below
    return above


def normal_density(z: ArrayLike) -> Floats:
    """Return the density of the standard normal law at `z`, any shape.

    Examples
    --------
    >>> normal_density([0.0, 1.0]).round(6)
    array([0.398942, 0.241971])
    """
    z = np.asarray(z, dtype=np.float64)
    return np.asarray(np.exp(-0.5 * z * z) / np.sqrt(2 * np.pi))


def normal_cdf(z: ArrayLike) -> Floats:
    """Return the chance that a standard normal score lies below `z`, any shape.

    Good to 1e-15 absolute, and to 1e-12 relative in the lower tail down to z = -37.

    References
    ----------
    cody-1969

    Examples
    --------
    >>> normal_cdf([-2.0, 0.0, 2.0]).round(6)
    array([0.02275, 0.5    , 0.97725])
    """
    z = np.asarray(z, dtype=np.float64)
    x = np.abs(z) / np.sqrt(2)
    chance = np.full(z.shape, np.nan)
    near, far = x <= SPLIT_ERF, x > SPLIT_ERFC
    between = ~near & (x <= SPLIT_ERFC)
    # erf(x) = x R(x^2); erfc(x) = e^(-x^2) R(x); erfc(x) = e^(-x^2) (pi^-1/2 - R(1/x^2)/x^2)/x
    chance[near] = 0.5 + 0.5 * (z[near] / np.sqrt(2)) * _ratio(ERF_NEAR, x[near] ** 2)
    chance[between] = 0.5 * np.exp(-0.5 * z[between] ** 2) * _ratio(ERFC_OUTER, x[between])
    inverse = 1 / x[far] ** 2
    rest = (1 / np.sqrt(np.pi) - inverse * _ratio(ERFC_FURTHEST, inverse)) / x[far]
    chance[far] = 0.5 * np.exp(-0.5 * z[far] ** 2) * rest
    upper = ~near & (z > 0)
    chance[upper] = 1 - chance[upper]
    return chance


def normal_quantile(p: ArrayLike) -> Floats:
    """Return the standard normal score with chance `p` below it, any shape.

    Good to about 1 part in 1e15 [wichura-1988].

    Raises
    ------
    ValueError
        If a chance is not strictly between 0 and 1.

    References
    ----------
    wichura-1988

    Examples
    --------
    >>> normal_quantile([0.05, 0.5, 0.95]).round(6)
    array([-1.644854,  0.      ,  1.644854])
    """
    p = np.asarray(p, dtype=np.float64)
    outside = ~((p > 0) & (p < 1))
    if np.any(outside):
        raise ValueError(f"p must be above 0 and below 1, got {p[outside].flat[0]:g}")
    q = np.atleast_1d(p - 0.5)
    score = q * _ratio(NEAR, np.maximum(SPLIT_QUANTILE**2 - q * q, 0.0))
    tail = np.abs(q) > SPLIT_QUANTILE
    depth = np.atleast_1d(p)[tail]
    r = np.sqrt(-np.log(np.minimum(depth, 1 - depth)))
    far = r > SPLIT_TAIL
    size = _ratio(OUTER, r - 1.6)
    size[far] = _ratio(FURTHEST, r[far] - SPLIT_TAIL)
    score[tail] = np.copysign(size, q[tail])
    return score.reshape(p.shape)


@cache
def _quadrature() -> tuple[Floats, Floats]:
    """Return Gauss-Legendre points over -1 to 1 and their weights; few processes ask for them."""
    points, weights = np.polynomial.legendre.leggauss(QUADRATURE)
    return points, weights


def normal_both_below(first: float, second: float, correlation: float) -> float:
    """Return the chance that two standard normal scores lie below a limit each.

    Parameters
    ----------
    first, second : float
        The limits.
    correlation : float
        Of the two scores, above -1 and below 1.

    Raises
    ------
    ValueError
        If the correlation is out of range.

    References
    ----------
    plackett-1954

    Examples
    --------
    >>> round(normal_both_below(0.0, 0.0, 0.5), 6)
    0.333333
    """
    if not -1 < correlation < 1:
        raise ValueError(f"correlation must be above -1 and below 1, got {correlation:g}")
    # Phi(h) Phi(k) + 1/2pi int_0^(arcsin r) exp(-(h^2 + k^2 - 2 h k sin t) / (2 cos^2 t)) dt
    far = float(np.arcsin(correlation))
    nodes, weights = _quadrature()
    angle = 0.5 * far * (nodes + 1)
    lean = first * first + second * second - 2 * first * second * np.sin(angle)
    together = 0.5 * far * float(weights @ np.exp(-lean / (2 * np.cos(angle) ** 2)))
    apart = float(normal_cdf(first) * normal_cdf(second))
    return min(1.0, max(0.0, apart + together / (2 * np.pi)))
