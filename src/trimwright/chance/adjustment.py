"""Redundant readings adjusted together, and which of them does not fit the others."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.quantities import normal_quantile

FALSE_ALARM = 0.001  # chance that a good reading is suspected [baarda-1968: 0.1 %]
POWER = 0.80  # chance that a slip of the least detectable size is found [baarda-1968: 80 %]
NO_CHECK = 1e-9  # redundancy below which nothing checks a reading
ALIKE = 0.999  # tests correlated beyond this cannot tell their readings apart

Floats = NDArray[np.float64]


class Adjustment(Struct, frozen=True, eq=False):
    """Readings adjusted by weighted least squares.

    Parameters
    ----------
    unknowns : ndarray, shape (m,)
        Adjusted unknowns, of least norm where the readings leave some of them open.
    residuals : ndarray, shape (n,)
        Observed less adjusted, in the readings' unit.
    redundancy : tuple of float
        Share of each reading that the others check, 0 to 1; they sum to readings less rank.
    w : tuple of float
        Standardised residuals; 0 where nothing checks the reading.
    detectable : tuple of float
        Least slip of each reading found four times in five; infinite where nothing checks it.
    critical : float
        Standardised residual beyond which a reading is suspect.
    suspect : int or None
        The reading with the largest standardised residual, if beyond `critical`.
    slip : float
        Estimated slip of the suspect, observed less true, in its unit; 0 without one.
    as_likely : tuple of int
        Other readings whose slip would show exactly like the suspect's.
    unchecked : tuple of int
        Readings that no other checks.
    open_unknowns : int
        How many unknowns the readings leave open.
    """

    unknowns: Floats
    residuals: Floats
    redundancy: tuple[float, ...]
    w: tuple[float, ...]
    detectable: tuple[float, ...]
    critical: float
    suspect: int | None
    slip: float
    as_likely: tuple[int, ...]
    unchecked: tuple[int, ...]
    open_unknowns: int


def adjust(
    design: Floats, observed: Floats, sigma: Floats, false_alarm: float = FALSE_ALARM
) -> Adjustment:
    """Return the readings adjusted, and the one that does not fit, if any.

    Readings are independent and normal; the test finds one slip at a time.

    Parameters
    ----------
    design : ndarray, shape (n, m)
        What each of n readings would be, as a linear form of m unknowns.
    observed : ndarray, shape (n,)
        Readings, less any constant of their linear forms.
    sigma : ndarray, shape (n,)
        Standard deviation of each, above 0.
    false_alarm : float, default 0.001
        Chance that one given good reading is suspected.

    Raises
    ------
    ValueError
        If the shapes disagree, a sigma is not above 0, or `false_alarm` is out of range.

    References
    ----------
    baarda-1968

    Examples
    --------
    >>> same = adjust(np.ones((4, 1)), np.array([200.0, 200.2, 199.8, 206.0]), np.ones(4))
    >>> same.suspect, round(same.slip, 2), same.redundancy[0]
    (3, 6.0, 0.75)
    """
    n = observed.size
    if design.ndim != 2 or design.shape[0] != n or sigma.shape != (n,) or not n:  # noqa: PLR2004  a matrix
        raise ValueError(
            "design, observed, sigma must be (n, m), (n,), (n,),"
            f" got {design.shape}, {observed.shape}, {sigma.shape}"
        )
    if not np.all(sigma > 0) or not 0 < false_alarm < 1:
        raise ValueError(
            "sigma must be above 0 and false_alarm between 0 and 1,"
            f" got {sigma.min():g} and {false_alarm:g}"
        )
    weighed = design / sigma[:, None]
    left, sizes, right = np.linalg.svd(weighed, full_matrices=False)
    kept = sizes > sizes.max(initial=0.0) * n * np.finfo(np.float64).eps
    left = left[:, kept]
    unknowns = right[kept].T @ ((left.T @ (observed / sigma)) / sizes[kept])
    residuals = observed - design @ unknowns
    # cofactors of the weighed residuals: I - U U'; its diagonal are the redundancy numbers
    cofactors = np.eye(n) - left @ left.T
    redundancy = np.clip(np.diag(cofactors), 0.0, 1.0)
    checked = redundancy > NO_CHECK
    root = np.sqrt(np.where(checked, redundancy, 1.0))
    w = np.where(checked, residuals / sigma / root, 0.0)
    critical = float(normal_quantile(1 - false_alarm / 2))
    shift = critical + float(normal_quantile(POWER))
    suspect, alike = _suspect(w, cofactors / np.outer(root, root), checked, critical)
    slip = 0.0 if suspect is None else float(residuals[suspect] / redundancy[suspect])
    for array in (unknowns, residuals):
        array.setflags(write=False)
    return Adjustment(
        unknowns=unknowns,
        residuals=residuals,
        redundancy=_plain(redundancy),
        w=_plain(w),
        detectable=_plain(np.where(checked, shift * sigma / root, np.inf)),
        critical=critical,
        suspect=suspect,
        slip=slip,
        as_likely=alike,
        unchecked=tuple(np.flatnonzero(~checked).tolist()),
        open_unknowns=design.shape[1] - int(kept.sum()),
    )


def _plain(values: Floats) -> tuple[float, ...]:
    """Return an array as plain numbers."""
    return tuple(float(value) for value in values)


def _suspect(
    w: Floats, correlation: Floats, checked: NDArray[np.bool_], critical: float
) -> tuple[int | None, tuple[int, ...]]:
    """Return the suspect reading, if any, and the others that cannot be told from it."""
    # rounded, so that of readings that cannot be told apart the first one is named
    worst = int(np.argmax(np.abs(w).round(9)))
    if abs(w[worst]) <= critical:
        return None, ()
    alike = checked & (np.abs(correlation[worst]) > ALIKE)
    alike[worst] = False
    return worst, tuple(np.flatnonzero(alike).tolist())
