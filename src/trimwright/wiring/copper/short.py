"""What a short does to a wire: the time to a temperature, and the temperature after a time.

The published forms leave out the heat that leaves on the way, or the time. These keep both: they are
the adiabatic form where the current is large, and never get beyond what the wire settles at.
"""

from math import inf

import numpy as np
from numpy.typing import ArrayLike, NDArray

from trimwright.wiring.copper.ampacity import Laid, copper_c, heat_lost
from trimwright.wiring.copper.resistance import (
    IACS_OHM_MM2_M,
    MELTING_C,
    resistance_factor,
)

_K_COPPER, _BETA_C = 226.0, 234.5  # A s^0.5/mm2, degC [iec-60949-1988]
# rho c of copper [J/K mm3], what k stands for: k^2 = rho c (beta + 20)/rho20
_HEAT_J_PER_K_MM3 = _K_COPPER**2 * IACS_OHM_MM2_M / 1000 / (_BETA_C + 20)
_STEPS = 241
_NEARING = 8.0  # of what is left to where it settles, how many times it shrinks by e


def seconds_to(
    laid: Laid, current_a: ArrayLike, *, limit_c: float, start_c: float | None = None
) -> NDArray[np.float64]:
    """Return how long currents take to bring a wire's copper to a temperature [s].

    The copper is counted as what its resistance says it is, its insulation takes up no heat, and
    what leaves is what would leave if the wire settled at each temperature on the way.

    Parameters
    ----------
    laid : Laid
        The wire where it lies.
    current_a : array_like, shape (n,) or one number
        Currents [A].
    limit_c : float
        The temperature [degC].
    start_c : float, optional
        The copper at the start [degC]: the air, if none is given.

    Returns
    -------
    ndarray, shape (n,)
        Times [s]: infinite where the wire settles below the limit, 0 where it starts above it.

    Examples
    --------
    >>> from trimwright.stock import wire
    >>> seconds_to(Laid(wire("1 mm2"), 25.0), [15.0, 100.0], limit_c=150.0).round(2)
    array([ inf, 1.63])
    """
    start = laid.ambient_c if start_c is None else start_c
    amperes = np.atleast_1d(np.asarray(current_a, float))
    if start >= limit_c:
        return np.zeros_like(amperes)
    celsius = np.linspace(start, limit_c, _STEPS)
    return np.asarray(np.trapezoid(_seconds_per_degree(laid, amperes, celsius), celsius, axis=1))


def celsius_after(
    laid: Laid, current_a: ArrayLike, seconds: ArrayLike, *, start_c: float
) -> NDArray[np.float64]:
    """Return how warm currents have made a wire's copper after some time [degC]; at most melting.

    Reckoned as `seconds_to` is; after an infinite time it stands at what it settles at.

    Parameters
    ----------
    laid : Laid
        The wire where it lies.
    current_a, seconds : array_like, shape (n,) or one number
        Currents [A], and how long each flows [s].
    start_c : float
        The copper at the start [degC], below melting.

    Examples
    --------
    >>> from trimwright.stock import wire
    >>> found = celsius_after(Laid(wire("1 mm2"), 25.0), [15.0, 100.0], [inf, 1.63], start_c=25.0)
    >>> found.round(0)
    array([ 61., 150.])
    """
    amperes, whole = np.broadcast_arrays(
        np.atleast_1d(np.asarray(current_a, float)), np.asarray(seconds, float)
    )
    rests = np.maximum(copper_c(laid, amperes), start_c)
    melts = ~np.isfinite(rests)
    way = np.linspace(0.0, 1.0, _STEPS)
    # towards melting in steps that grow, towards where it settles in such that shrink: the nearer
    # it comes, the longer each degree takes
    share = np.where(melts[:, np.newaxis], way**2, 1 - np.exp(-_NEARING * way))
    upto = np.where(melts, MELTING_C, rests)
    stays = upto <= start_c
    celsius = start_c + np.where(stays, 1.0, upto - start_c)[:, np.newaxis] * share
    rate = _seconds_per_degree(laid, amperes, celsius)
    steps = (rate[:, 1:] + rate[:, :-1]) / 2 * np.diff(celsius, axis=1)
    spent = np.pad(np.cumsum(steps, axis=1), ((0, 0), (1, 0)))
    reached = [
        np.interp(time, own, warm) for time, own, warm in zip(whole, spent, celsius, strict=True)
    ]
    return np.where(np.isinf(whole) | stays, upto, np.array(reached))


def _seconds_per_degree(
    laid: Laid, amperes: NDArray[np.float64], celsius: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return how long each degree takes at temperatures [s/K], shape (currents, steps).

    Infinite from where on no more heat comes in than leaves.
    """
    ohm_per_m = laid.wire.conductor.ohm_per_m
    gained = amperes[:, np.newaxis] ** 2 * ohm_per_m * resistance_factor(celsius)
    surplus = gained - heat_lost(laid, celsius)
    # a metre of wire takes up rho c A per degree; A = rho20/R20, the copper that it really has
    joules = _HEAT_J_PER_K_MM3 * IACS_OHM_MM2_M / ohm_per_m * 1000
    settled = np.logical_or.accumulate(surplus <= 0, axis=1)
    return np.where(settled, inf, joules / np.where(settled, 1.0, surplus))
