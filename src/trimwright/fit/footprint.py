"""Whether a load stands over the points that carry it."""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def outline(points: Floats) -> Floats:
    """Return `outline_of` points (n, 2), kept: each bed's is asked for many times over."""
    return _outline(np.ascontiguousarray(points, dtype=np.float64).tobytes())


@lru_cache(maxsize=256)
def _outline(points: bytes) -> Floats:
    return outline_of(np.frombuffer(points).reshape(-1, 2))


def outline_of(points: Floats) -> Floats:
    """Return the corners of the tightest convex outline, anticlockwise, shape (m, 2).

    Parameters
    ----------
    points : ndarray, shape (n, 2)
        Points in plan [mm].

    Returns
    -------
    ndarray, shape (m, 2)
        Corners without those on a straight line; fewer than 3 if all points lie on a line.

    Examples
    --------
    >>> outline_of(np.array([[0.0, 0], [2, 0], [1, 0], [2, 1], [1, 0.5], [0, 1]])).tolist()
    [[0.0, 0.0], [2.0, 0.0], [2.0, 1.0], [0.0, 1.0]]
    """
    ordered = sorted({(float(x), float(y)) for x, y in points})
    if len(ordered) < 3:  # noqa: PLR2004  a triangle is the least outline
        return np.array(ordered).reshape(-1, 2)
    lower, upper = _chain(ordered), _chain(ordered[::-1])
    return np.array(lower[:-1] + upper[:-1])


def _chain(ordered: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return one side of the outline, turning left only."""
    chain: list[tuple[float, float]] = []
    for point in ordered:
        while len(chain) > 1 and _turn(chain[-2], chain[-1], point) <= 0:
            chain.pop()
        chain.append(point)
    return chain


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    """Return twice the signed area of a, b, c: above 0 if it turns left."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def carries(points: Floats, load: Floats) -> NDArray[np.bool_]:
    """Return whether each load stands strictly inside the outline of the points.

    Parameters
    ----------
    points : ndarray, shape (n, 2)
        Points that can push up, in plan [mm].
    load : ndarray, shape (rows, 2)
        Where the resultant of the loads acts, in plan [mm].

    Returns
    -------
    ndarray of bool, shape (rows,)
        False means that it tips: no pose can carry this load.

    Examples
    --------
    >>> square = np.array([[0.0, 0], [10, 0], [10, 10], [0, 10]])
    >>> carries(square, np.array([[5.0, 5], [11, 5]])).tolist()
    [True, False]
    """
    corners = outline(points)
    if len(corners) < 3:  # noqa: PLR2004  points on one line carry nothing beside it
        return np.zeros(len(load), dtype=bool)
    side = np.roll(corners, -1, axis=0) - corners
    to_load = load[:, None, :] - corners
    turn = side[:, 0] * to_load[..., 1] - side[:, 1] * to_load[..., 0]
    return np.asarray((turn > 0).all(axis=-1))
