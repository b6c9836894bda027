"""Student's t: how far a result may lie when its spread is itself known from few readings."""

from math import exp, inf, isinf, lgamma, log

from trimwright.quantities import normal_quantile

TERMS = 500  # of the continued fraction, far more than it takes
SMALL = 1e-300
CLOSE = 1e-15
HALVINGS = 200


def _beta_fraction(a: float, b: float, x: float) -> float:
    """Return the continued fraction of the incomplete beta function, by Lentz's method."""
    # 26.5.8 of [abramowitz-stegun-1964]: d_2m = m(b-m)x / ((a+2m-1)(a+2m)),
    # d_2m+1 = -(a+m)(a+b+m)x / ((a+2m)(a+2m+1))
    found, upper, lower = 1.0, 1.0, 0.0
    for j in range(1, TERMS):
        m = j // 2
        if j % 2:
            term = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        else:
            term = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        lower = 1 / ((1 + term * lower) or SMALL)
        upper = (1 + term / upper) or SMALL
        found *= upper * lower
        if abs(upper * lower - 1) < CLOSE:
            break
    return 1 / found


def _beta_share(a: float, b: float, x: float) -> float:
    """Return the regularised incomplete beta function I_x(a, b)."""
    if x <= 0 or x >= 1:
        return float(x >= 1)
    scale = exp(lgamma(a + b) - lgamma(a) - lgamma(b) + a * log(x) + b * log(1 - x))
    if x < (a + 1) / (a + b + 2):
        return scale * _beta_fraction(a, b, x) / a
    return 1 - scale * _beta_fraction(b, a, 1 - x) / b


def student_cdf(t: float, freedom: float) -> float:
    """Return the chance that Student's t with these degrees of freedom lies below `t`.

    Raises
    ------
    ValueError
        If `freedom` is not above 0 or not finite.

    References
    ----------
    abramowitz-stegun-1964 (26.5.8, 26.7.1)

    Examples
    --------
    >>> round(student_cdf(1.0, 1.0), 9)
    0.75
    """
    if not 0 < freedom < inf:
        raise ValueError(f"freedom must be above 0 and finite, got {freedom:g}")
    tail = 0.5 * _beta_share(freedom / 2, 0.5, freedom / (freedom + t * t))
    return 1 - tail if t > 0 else tail


def coverage_factor(p: float, freedom: float) -> float:
    """Return the factor k so that the result lies within k standard uncertainties with chance `p`.

    Parameters
    ----------
    p : float
        Chance, above 0 and below 1.
    freedom : float
        Degrees of freedom, above 0; infinite gives the normal law's factor.

    Raises
    ------
    ValueError
        If an argument is out of range.

    References
    ----------
    jcgm-100-2008 (annex G.3)

    Examples
    --------
    >>> round(coverage_factor(0.95, 10.0), 3)
    2.228
    """
    if not 0 < p < 1:
        raise ValueError(f"p must be above 0 and below 1, got {p:g}")
    half = (1 + p) / 2
    if isinf(freedom):
        return float(normal_quantile(half))
    low, high = 0.0, 1.0
    while student_cdf(high, freedom) < half:
        high *= 2
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (middle, high) if student_cdf(middle, freedom) < half else (low, middle)
    return high
