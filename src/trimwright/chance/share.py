"""Which doubt the spread comes from: first-order Sobol indices by regression on the rows."""

from collections.abc import Sequence
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from trimwright.quantities import normal_cdf

HIGHEST_DEGREE = 8

Floats = NDArray[np.float64]


def _hermite(z: Floats, degree: int) -> list[Floats]:
    """Return the orthonormal Hermite polynomials of degree 1 and up."""
    # sqrt(k) h_k = z h_(k-1) - sqrt(k-1) h_(k-2), h_0 = 1: probabilists' Hermite over sqrt(k!)
    found = [np.ones_like(z), z]
    for k in range(2, degree + 1):
        found.append((z * found[-1] - np.sqrt(k - 1) * found[-2]) / np.sqrt(k))
    return found[1:]


def _legendre(z: Floats, degree: int) -> list[Floats]:
    """Return the orthonormal Legendre polynomials, degree 1 and up, of the score's rank."""
    # (k) P_k = (2k-1) t P_(k-1) - (k-1) P_(k-2), t = 2 Phi(z) - 1; sqrt(2k+1) P_k is orthonormal
    t = 2 * normal_cdf(z) - 1
    found = [np.ones_like(z), t]
    for k in range(2, degree + 1):
        found.append(((2 * k - 1) * t * found[-1] - (k - 1) * found[-2]) / k)
    return [np.sqrt(2 * k + 1) * found[k] for k in range(1, degree + 1)]


BASES = {"score": _hermite, "rank": _legendre}


def shares(
    scores: Floats, outputs: Floats, degree: int = 2, of: Literal["score", "rank"] = "score"
) -> Floats:
    """Return the share of each factor alone in the variance of each output.

    One joint least-squares regression on orthonormal polynomials of all factors; a share is the
    sum of the squares of the factor's coefficients over the variance of the output. What the
    shares of an output leave to 1 belongs to factors acting together, or to degrees above.

    Parameters
    ----------
    scores : ndarray, shape (rows, factors)
        Independent standard normal scores, such as `sobol_scores` draws; not rows already
        updated by a test fit.
    outputs : ndarray, shape (rows,) or (rows, outputs)
        Any unit.
    degree : int, default 2
        1 to 8; 2 suits gaps, which are nearly linear in the scores.
    of : {'score', 'rank'}, default 'score'
        'score': Hermite polynomials of the score. 'rank': Legendre polynomials of Phi(score), for
        outputs strongly bent in a bounded figure (degree 8); Hermite ones of high degree are all
        tail and scatter widely there.

    Returns
    -------
    ndarray, shape (factors,) or (factors, outputs)
        First-order Sobol indices; all 0 for an output that does not vary.

    Raises
    ------
    ValueError
        If the rows are fewer than twice the regressors, the shapes disagree, an output is
        not finite, or `degree` is out of range.

    References
    ----------
    sobol-1993, blatman-sudret-2010

    Examples
    --------
    >>> from trimwright.chance import sobol_scores
    >>> z = sobol_scores(2, seed=1)
    >>> shares(z, 2 * z[:, 0] + z[:, 1]).round(3)
    array([0.8, 0.2])
    """
    rows, factors = scores.shape
    if not 1 <= degree <= HIGHEST_DEGREE:
        raise ValueError(f"degree must be from 1 to {HIGHEST_DEGREE}, got {degree}")
    if outputs.shape[0] != rows or rows < 2 * (degree * factors + 1):
        raise ValueError(
            f"outputs must have the {rows} rows of scores, and those must be at least"
            f" {2 * (degree * factors + 1)}, got {outputs.shape[0]}"
        )
    if not np.isfinite(outputs).all():
        raise ValueError("outputs must be finite in every row, got one that is not")
    columns = np.concatenate(BASES[of](scores, degree), axis=1)
    columns = columns - columns.mean(axis=0)
    centred = (outputs - outputs.mean(axis=0)).reshape(rows, -1)
    coefficients = np.linalg.solve(columns.T @ columns, columns.T @ centred)
    parts = np.sum(coefficients.reshape(degree, factors, -1) ** 2, axis=0)
    # the polynomials' variance is known, only that of the rest has to come from the rows
    variance = parts.sum(axis=0) + np.mean((centred - columns @ coefficients) ** 2, axis=0)
    size = np.max(np.abs(outputs), axis=0, initial=np.finfo(np.float64).tiny)
    still = variance <= (np.finfo(np.float64).eps * rows * size) ** 2
    found = np.where(still, 0.0, parts / np.where(still, 1.0, variance))
    return found.reshape(factors, *outputs.shape[1:])


def group_shares(found: Floats, groups: Sequence[str]) -> tuple[tuple[str, float], ...]:
    """Return the share of each group of factors, largest first.

    The shares of independent factors add up, so a set-up that many readings share is weighed as
    one: name the same group for each factor that would change with it.

    Parameters
    ----------
    found : ndarray, shape (factors,)
        Shares of one output.
    groups : sequence of str
        A group for each factor.

    Raises
    ------
    ValueError
        If there is not one group for each factor.

    Examples
    --------
    >>> group_shares(np.array([0.2, 0.5, 0.3]), ["string", "dash", "string"])
    (('dash', 0.5), ('string', 0.5))
    """
    if found.shape != (len(groups),):
        raise ValueError(f"groups must name one for each of {found.shape}, got {len(groups)}")
    sums: dict[str, float] = {}
    for group, share in zip(groups, found.tolist(), strict=True):
        sums[group] = sums.get(group, 0.0) + share
    return tuple(sorted(sums.items(), key=lambda item: (-item[1], item[0])))
