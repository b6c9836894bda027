"""Fuses: how soon one opens, and whether it does so before its wire is too hot."""

from functools import lru_cache
from itertools import pairwise
from math import inf

import numpy as np
from msgspec import Struct
from numpy.typing import ArrayLike, NDArray

from trimwright.stock import FuseClass
from trimwright.wiring.copper.ampacity import Laid, ampacity, copper_c
from trimwright.wiring.copper.short import seconds_to

_HALVINGS = 50  # of a current that is looked for: to the last digit
_GRID = 240  # currents up to the prospective one
SHORT_SHARE = 3.5  # of its rating, from which on a fuse opens before much of its heat has left


class Fuse(Struct, frozen=True):
    """A fuse of a class, by its rating [A]."""

    kind: FuseClass
    rating_a: float

    def __post_init__(self) -> None:
        """Refuse a rating of nothing."""
        if not self.rating_a > 0:
            raise ValueError(f"rating_a must be above 0, got {self.rating_a:g}")


class Protection(Struct, frozen=True):
    """Whether a fuse opens before its wire is too hot, at every current a short may drive.

    Parameters
    ----------
    protects : bool
        Whether it does.
    worst_a : float
        The current [A] at which the fuse is latest against the wire.
    wire_s, fuse_s : float
        There: when the wire reaches its limit, and the latest the fuse opens [s]; infinite: never.
    carried_a : float
        What the wire bears for good [A].
    held_a : float
        The largest current [A] at which the fuse need never open, as far as the short drives it.
    margin : float
        What it bears over what may be held, less 1; or wire time over fuse time, less 1, where
        that is less and the first is enough. Below 0 it fails.
    """

    protects: bool
    worst_a: float
    wire_s: float
    fuse_s: float
    carried_a: float
    held_a: float
    margin: float


def opening_band(
    fuse: Fuse, current_a: ArrayLike
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return the earliest and the latest a fuse opens [s] at currents; infinite: never.

    Between printed points nothing is printed: times follow straight lines of log time over log
    current. Such a line lies above a curve that flattens, so the latest is on the late side. Below
    the first printed latest time it may never open. Beyond the last point the latest follows the heat
    that melted it there, I^2 t: in less time less of it leaves. No earliest is known there.

    Parameters
    ----------
    fuse : Fuse
        The fuse.
    current_a : array_like
        Currents [A], each above 0.

    Examples
    --------
    >>> from trimwright.stock import fuse_class
    >>> ten = Fuse(fuse_class("mini blade"), 10.0)
    >>> [[float(f"{one:.4g}") for one in times] for times in opening_band(ten, [10.0, 20.0, 120.0])]
    [[inf, 0.15, 0.0], [inf, 5.0, 0.025]]
    """
    share = np.asarray(current_a, float) / fuse.rating_a
    points, last = fuse.kind.points, fuse.kind.points[-1]
    beyond = last.most_s * (last.share / np.maximum(share, last.share)) ** 2
    latest = _between(share, [(one.share, one.most_s) for one in points])
    return (
        _between(share, [(one.share, one.least_s) for one in points]),
        np.where(share > last.share, beyond, latest),
    )


def melts_a2s(fuse: Fuse) -> float | None:
    """Return the least heat of a short current that opens a fuse [A2 s]; None if none is printed.

    It is the least of I^2 t over the printed points from `SHORT_SHARE` of its rating up, each with
    the earliest time at which it may open: so soon little of the heat has left.

    Examples
    --------
    >>> from trimwright.stock import fuse_class
    >>> round(melts_a2s(Fuse(fuse_class("blade"), 10.0)), 6)
    98.0
    """
    known = [
        (one.share * fuse.rating_a) ** 2 * one.least_s
        for one in fuse.kind.points
        if one.share >= SHORT_SHARE and 0 < one.least_s < inf
    ]
    return min(known, default=None)


@lru_cache(maxsize=256)
def sure_a(fuse: Fuse, seconds: float) -> float:
    """Return the least current [A] at which a fuse has opened within a time [s] at the latest.

    Examples
    --------
    >>> from trimwright.stock import fuse_class
    >>> round(sure_a(Fuse(fuse_class("blade"), 10.0), 5.0), 6)
    20.0
    """
    low, high = fuse.rating_a, fuse.rating_a
    while opening_band(fuse, high)[1] > seconds:
        low, high = high, 2 * high
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if opening_band(fuse, middle)[1] > seconds else (low, middle)
    return high


def _between(share: NDArray[np.float64], printed: list[tuple[float, float]]) -> NDArray[np.float64]:
    """Return times at shares of the rating, by straight lines between logarithms; 0 beyond."""
    seconds = np.full(share.shape, inf)
    for (low, at_low), (high, at_high) in pairwise(printed):
        inside = (share >= low) & (share < high)
        seconds = np.where(inside, _on_line(share, (low, at_low), (high, at_high)), seconds)
    last, at_last = printed[-1]
    seconds = np.where(share > last, 0.0, seconds)
    return np.where(share == last, at_last, seconds)


def _on_line(
    share: NDArray[np.float64], low: tuple[float, float], high: tuple[float, float]
) -> NDArray[np.float64]:
    """Return times from one point up to the next; a line needs two times that are printed."""
    if low[1] == inf:
        above = inf if high[1] > 0 else 0.0
        return np.where(share == low[0], low[1], above)
    if high[1] == 0 or low[1] == 0:
        return np.where(share == low[0], low[1], 0.0)
    slope = np.log(high[1] / low[1]) / np.log(high[0] / low[0])
    return np.asarray(low[1] * (np.maximum(share, low[0]) / low[0]) ** slope)


@lru_cache(maxsize=2048)
def protection(
    laid: Laid,
    fuse: Fuse,
    *,
    prospective_a: float,
    carried_a: float = 0.0,
) -> Protection:
    """Return whether a fuse opens before its wire is too hot, whatever current flows.

    At a current at which the fuse need never open the wire must settle below what its insulation
    bears for good; at others the fuse must open before the wire passes what it bears for a while.

    Parameters
    ----------
    laid : Laid
        The wire where it lies.
    fuse : Fuse
        The fuse that feeds it.
    prospective_a : float
        The largest current [A] that a short can drive through it.
    carried_a : float, default 0
        What it carries before the short [A].

    Raises
    ------
    ValueError
        If the prospective current is not above 0.

    Examples
    --------
    >>> from trimwright.stock import fuse_class, wire
    >>> ten = Fuse(fuse_class("mini blade"), 10.0)
    >>> protection(Laid(wire("1 mm2"), 40.0), ten, prospective_a=200.0).protects
    True
    >>> protection(Laid(wire("0.5 mm2"), 60.0), ten, prospective_a=200.0).protects
    False
    """
    if not prospective_a > 0:
        raise ValueError(f"prospective_a must be above 0, got {prospective_a:g}")
    carried, start = ampacity(laid), float(copper_c(laid, carried_a))
    held = min(held_a(fuse), prospective_a)
    if carried <= held:
        wire_s = seconds_to(laid, held, limit_c=laid.wire.class_c, start_c=start)
        short = carried / held - 1
        return Protection(
            protects=False,
            worst_a=held,
            wire_s=float(wire_s[0]),
            fuse_s=inf,
            carried_a=carried,
            held_a=held,
            margin=short,
        )
    amperes = _currents(fuse, held, prospective_a)
    fuse_s = opening_band(fuse, amperes)[1]
    wire_s = seconds_to(laid, amperes, limit_c=laid.wire.excursion_c, start_c=start)
    opens = np.isfinite(fuse_s)  # at all but the first current, which the wire bears for good
    ahead = np.where(opens, wire_s / np.where(opens, fuse_s, 1.0), inf)
    worst = int(np.argmin(ahead))
    margin = min(float(ahead[worst]), carried / held) - 1
    return Protection(
        protects=margin > 0,
        worst_a=float(amperes[worst]),
        wire_s=float(wire_s[worst]),
        fuse_s=float(fuse_s[worst]),
        carried_a=carried,
        held_a=held,
        margin=margin,
    )


def held_a(fuse: Fuse) -> float:
    """Return the largest current [A] at which a fuse need never open.

    Examples
    --------
    >>> from trimwright.stock import fuse_class
    >>> round(held_a(Fuse(fuse_class("blade"), 10.0)), 6)
    13.5
    """
    first = next((one.share for one in fuse.kind.points if one.most_s < inf), inf)
    return float(np.nextafter(first * fuse.rating_a, 0.0))


def _currents(fuse: Fuse, held_a: float, prospective_a: float) -> NDArray[np.float64]:
    """Return the currents to look at [A]: a fine grid, and both sides of every printed point."""
    corners = fuse.rating_a * np.array([one.share for one in fuse.kind.points])
    beside = np.concatenate([corners, np.nextafter(corners, 0.0)])
    every = np.concatenate([np.geomspace(held_a, prospective_a, _GRID), beside])
    return np.unique(every[(every >= held_a) & (every <= prospective_a)])
