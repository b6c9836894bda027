"""How a figure runs along the car between the sections where it was read."""

from typing import Final

import numpy as np
from numpy.typing import NDArray

from trimwright.car.curve import hermite

Floats = NDArray[np.float64]
Places = NDArray[np.intp]

WAYS: Final = {
    1: "constant along the car: one section only",
    2: "straight between two sections",
    3: "a parabola through three sections",
}
MONOTONE: Final = "monotone cubics between the sections"
FEWEST: Final = 4  # sections from which monotone cubics are used


def _end(h0: Floats, h1: Floats, m0: Floats, m1: Floats) -> Floats:
    """Return the one-sided end slope that keeps the shape (Moler, Numerical Computing, 3.6)."""
    slope = ((2 * h0 + h1) * m0 - h0 * m1) / (h0 + h1)
    slope = np.where(np.sign(slope) != np.sign(m0), 0.0, slope)
    steep = (np.sign(m0) != np.sign(m1)) & (np.abs(slope) > 3 * np.abs(m0))
    return np.where(steep, 3 * m0, slope)


def slopes(xs: Floats, values: Floats) -> Floats:
    """Return slopes at the stations: monotone cubics from four on, else parabola, line, level.

    Parameters
    ----------
    xs : ndarray, shape (k,), or (k, ...) to go with the values
        Stations [mm], increasing.
    values : ndarray, shape (k, ...)

    References
    ----------
    Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300-304.
    """
    count = len(xs)
    if count == 1:
        return np.zeros_like(values)
    h = np.diff(_beside(xs, values), axis=0)
    m = np.diff(values, axis=0) / h
    if count == 2:  # noqa: PLR2004  two stations
        return np.repeat(m, 2, axis=0)
    if count < FEWEST:
        middle = (h[1] * m[0] + h[0] * m[1]) / (h[0] + h[1])
        return np.stack([2 * m[0] - middle, middle, 2 * m[1] - middle])
    w1, w2 = 2 * h[1:] + h[:-1], h[1:] + 2 * h[:-1]
    turns = m[:-1] * m[1:] <= 0
    safe = [np.where(turns, 1.0, part) for part in (m[:-1], m[1:])]
    inner = np.where(turns, 0.0, (w1 + w2) / (w1 / safe[0] + w2 / safe[1]))
    first = _end(h[0], h[1], m[0], m[1])
    last = _end(h[-1], h[-2], m[-1], m[-2])
    return np.concatenate([first[None], inner, last[None]])


def between(xs: Floats, values: Floats, x: Floats) -> tuple[Floats, Floats]:
    """Return value and slope at `x`; beyond the outer stations it runs on straight.

    Parameters
    ----------
    xs : ndarray, shape (k,), or (k, ...) to go with the values
    values : ndarray, shape (k, ...)
    x : ndarray
        Places [mm], broadcast against one station's values.

    Examples
    --------
    >>> xs, values = np.array([0.0, 100, 200, 300]), np.array([0.0, 10, 10, 10])
    >>> between(xs, values, np.array(150.0))[0].round(6)
    np.float64(10.0)
    """
    shape = np.broadcast_shapes(xs.shape[1:], values.shape[1:], x.shape)
    if len(xs) == 1:
        return np.broadcast_to(values[0], shape).copy(), np.zeros(shape)
    parts = (_beside(xs, values), values, slopes(xs, values))
    every, points, d = (np.broadcast_to(part, (len(xs), *shape)) for part in parts)
    place = np.broadcast_to(x, shape)
    inside = np.minimum(np.maximum(place, every[0]), every[-1])
    step = (inside >= every[1:-1]).sum(axis=0)
    first = (step, *np.ogrid[tuple(slice(count) for count in shape)])
    last = (step + 1, *first[1:])
    start = every[first]
    width = every[last] - start
    value, slope = hermite(
        width, (points[first], points[last]), (d[first], d[last]), (inside - start) / width
    )
    return value + (place - inside) * slope, slope


def _beside(xs: Floats, values: Floats) -> Floats:
    """Return stations that broadcast against values."""
    return xs if xs.ndim > 1 else xs.reshape(-1, *[1] * (values.ndim - 1))


def _steps(xs: Floats, place: Floats) -> tuple[Floats, Places]:
    """Return places held between the outer stations, and the station before each."""
    inside = np.clip(place, xs[0], xs[-1])
    return inside, np.clip(np.searchsorted(xs, inside, side="right") - 1, 0, len(xs) - 2)


def _picked(of: Floats, station: Places, number: Places | None) -> Floats:
    """Return all values at each station, (n, m, ...), or some, (n, j, ...)."""
    if number is None:
        return of[station]
    count = of.shape[1]  # of one long row, which takes a third of the time
    row = of.reshape(-1, *of.shape[2:])
    return np.asarray(row.take(station[:, None] * count + number, axis=0))


def throughout(
    xs: Floats, values: Floats, d: Floats, x: Floats, number: Places | None = None
) -> tuple[Floats, Floats]:
    """Return all values, or some, and their slopes at each of several places: `between`, quicker.

    Parameters
    ----------
    xs : ndarray, shape (k,)
    values, d : ndarray, shape (k, m, ...)
        Values at the stations, and their slopes as `slopes` gives them.
    x : ndarray, shape (n,)
        Places [mm].
    number : ndarray of int, shape (n, j), optional
        Which of the m values are wanted at each place; all of them if left out.

    Returns
    -------
    tuple of ndarray, shape (n, m or j, ...) each

    Examples
    --------
    >>> xs, values = np.array([0.0, 100, 200, 300]), np.array([[0.0], [10], [10], [10]])
    >>> x = np.array([150.0, 200.0])
    >>> throughout(xs, values, slopes(xs, values), x)[0].round(6).tolist()
    [[10.0], [10.0]]
    """
    if len(xs) == 1:
        every = _picked(values, np.zeros(len(x), dtype=np.intp), number)
        return every, np.zeros(every.shape)
    inside, step = _steps(xs, x)
    wide = (-1, *[1] * (values.ndim - 1))
    width = np.diff(xs)[step]
    share = ((inside - xs[step]) / width).reshape(wide)
    ends = (_picked(values, step, number), _picked(values, step + 1, number))
    leans = (_picked(d, step, number), _picked(d, step + 1, number))
    value, slope = hermite(width.reshape(wide), ends, leans, share)
    if np.any(x != inside):
        value = value + (x - inside).reshape(wide) * slope
    return value, slope
