"""The first-order law of propagation of uncertainty."""

from collections.abc import Callable, Sequence
from math import inf, isinf, sqrt

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray


class Contribution(Struct, frozen=True):
    """One input of a result.

    Parameters
    ----------
    name : str
        What it is.
    slope : float
        What the result gains for one unit of it.
    sigma : float
        Its standard uncertainty, in its unit, 0 or more.
    freedom : float, default infinite
        Degrees of freedom of `sigma`, above 0.
    group : str, default ''
        Inputs of one named group move together (correlation 1); '' stands alone.

    Raises
    ------
    ValueError
        If `sigma` is negative or `freedom` not above 0.
    """

    name: str
    slope: float
    sigma: float
    freedom: float = inf
    group: str = ""

    def __post_init__(self) -> None:
        """Refuse figures that mean nothing."""
        if not self.sigma >= 0:
            raise ValueError(f"sigma must be 0 or more, got {self.sigma:g}")
        if not self.freedom > 0:
            raise ValueError(f"freedom must be above 0, got {self.freedom:g}")


class Propagated(Struct, frozen=True):
    """A result's standard uncertainty, its effective degrees of freedom, and each input's part.

    `parts` are slope times sigma with their names, in the order given, in the result's unit.
    """

    sigma: float
    freedom: float
    parts: tuple[tuple[str, float], ...]


def slopes(
    model: Callable[[NDArray[np.float64]], float],
    values: NDArray[np.float64],
    sigmas: NDArray[np.float64],
) -> NDArray[np.float64]:
    """Return what a result gains for one unit of each input, over one sigma either way.

    Parameters
    ----------
    model : callable
        Result of all inputs, shape (n,).
    values, sigmas : ndarray, shape (n,)
        Estimates and standard uncertainties; an input with sigma 0 gets slope 0.

    References
    ----------
    jcgm-100-2008 (5.1.3, note 2)

    Examples
    --------
    >>> slopes(lambda x: float(x[0] * x[1]), np.array([2.0, 3.0]), np.array([0.1, 0.1])).round(6)
    array([3., 2.])
    """
    found = np.zeros(values.size)
    for i in np.flatnonzero(sigmas):
        step = np.zeros(values.size)
        step[i] = sigmas[i]
        found[i] = (model(values + step) - model(values - step)) / (2 * sigmas[i])
    return found


def propagate(contributions: Sequence[Contribution]) -> Propagated:
    """Return the standard uncertainty of a result and its effective degrees of freedom.

    Within a group parts add with their signs, between groups as squares. Good where the result
    is nearly linear over the inputs' spread; it fails in kind for |x| or a minimum over points.

    Parameters
    ----------
    contributions : sequence of Contribution
        Inputs; a group has the least degrees of freedom of its members.

    Raises
    ------
    ValueError
        If there are none.

    References
    ----------
    jcgm-100-2008 (5.1.2, 5.2.2, and G.4.1 for Welch and Satterthwaite's formula)

    Examples
    --------
    >>> shared = [Contribution(str(i), 0.1, 1.0, group="string") for i in range(10)]
    >>> round(propagate(shared).sigma, 9)
    1.0
    """
    if not contributions:
        raise ValueError("contributions must not be empty, got none")
    parts = tuple((one.name, float(one.slope * one.sigma)) for one in contributions)
    sums: dict[str, tuple[float, float]] = {}
    for i, (one, (_, part)) in enumerate(zip(contributions, parts, strict=True)):
        key = f"in {one.group}" if one.group else f"alone {i}"
        total, freedom = sums.get(key, (0.0, inf))
        sums[key] = (total + part, min(freedom, one.freedom))
    sigma = sqrt(sum(total**2 for total, _ in sums.values()))
    # u^4 / nu_eff = sum of u_i^4 / nu_i
    loss = sum(total**4 / freedom for total, freedom in sums.values() if not isinf(freedom))
    return Propagated(sigma, float(sigma**4 / loss) if loss else inf, parts)
