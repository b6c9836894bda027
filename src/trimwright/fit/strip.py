"""Where to look along a wall's lower edge: Gauss points over its length and its thickness."""

from functools import lru_cache

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

Floats = NDArray[np.float64]
ALONG, LEAST_ALONG = 14, 3  # Gauss points per edge; per piece between kinks
ACROSS_BEVELLED, ACROSS_SQUARE = 2, 5  # a bevelled edge touches all over, a square one in part
KINK = np.cos(np.radians(4.0))  # a sharper turn than this starts a new piece


class Strip(Struct, frozen=True, eq=False):
    """Points on the underside of one edge.

    Attributes
    ----------
    points : ndarray, shape (n, 3)
        On the wood [mm].
    area : ndarray, shape (n,)
        Plan area that each point stands for [mm2].
    station : ndarray of int, shape (n,)
        Which place along the edge each point belongs to, rising; its points lie across the wood.
    panel : str
        The panel whose edge it is.
    """

    points: Floats
    area: Floats
    station: NDArray[np.int64]
    panel: str = ""


def kinks(line: Floats) -> list[int]:
    """Return the indices at which a polyline starts, turns sharply, and ends.

    Examples
    --------
    >>> kinks(np.array([[0.0, 0, 0], [1, 0, 0], [2, 0, 0], [3, 0, 1]]))
    [0, 2, 3]
    """
    steps = np.diff(line, axis=0)
    length = np.linalg.norm(steps, axis=1, keepdims=True)
    way = steps / np.where(length > 0, length, 1.0)
    turns = np.einsum("nk,nk->n", way[:-1], way[1:]) < KINK
    return [0, *(int(i) + 1 for i in np.flatnonzero(turns)), len(line) - 1]


def _shares(line: Floats, cuts: list[int], count: int) -> list[int]:
    """Return how many Gauss points each piece gets, by its length."""
    travelled = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1))])
    pieces = np.diff(travelled[cuts])
    return [max(LEAST_ALONG, round(count * p / travelled[-1])) for p in pieces]


@lru_cache(maxsize=64)
def _gauss(count: int) -> tuple[Floats, Floats]:
    """Return Gauss-Legendre points over -1 to 1 and their weights."""
    points, weights = np.polynomial.legendre.leggauss(count)
    return points, weights


def edge_strip(inner: Floats, outer: Floats, *, across: int, along: int = ALONG) -> Strip:
    """Return Gauss points over the band between an edge's inner and outer line.

    Parameters
    ----------
    inner, outer : ndarray, shape (n, 3)
        The edge's line on either face of the wall, point for point [mm].
    across, along : int
        Gauss points through the thickness, and over the whole length (more if it has kinks).

    Returns
    -------
    Strip
        Areas are plan areas: height does not count.

    Raises
    ------
    ValueError
        If the lines differ in length or have fewer than 2 points.

    Examples
    --------
    >>> inner = np.array([[0.0, 0, 0], [100, 0, 10]])
    >>> strip = edge_strip(inner, inner + [0, 12, 0], across=1, along=4)
    >>> len(strip.points), round(float(strip.area.sum()), 6)
    (4, 1200.0)
    """
    if inner.shape != outer.shape or len(inner) < 2:  # noqa: PLR2004  a line has two ends
        raise ValueError(f"inner and outer must match, 2 points or more, got {len(inner)}")
    middle = 0.5 * (inner + outer)
    cuts = kinks(middle)
    v_nodes, v_weights = _gauss(across)
    v, v_share = 0.5 * (v_nodes + 1), 0.5 * v_weights
    points, areas = [], []
    shares = _shares(middle, cuts, along)
    for first, last, count in zip(cuts[:-1], cuts[1:], shares, strict=True):
        nodes, weights = _gauss(count)
        place = first + 0.5 * (nodes + 1) * (last - first)
        low, low_slope = _between(inner, place)
        high, high_slope = _between(outer, place)
        band = low[:, None] + v[None, :, None] * (high - low)[:, None]
        run = low_slope[:, None] + v[None, :, None] * (high_slope - low_slope)[:, None]
        reach = np.broadcast_to((high - low)[:, None], run.shape)
        plan = np.abs(run[..., 0] * reach[..., 1] - run[..., 1] * reach[..., 0])
        points.append(band.reshape(-1, 3))
        areas.append((plan * (0.5 * weights * (last - first))[:, None] * v_share).ravel())
    flat = np.concatenate(points)
    return Strip(flat, np.concatenate(areas), np.arange(len(flat)) // across)


def _between(line: Floats, place: Floats) -> tuple[Floats, Floats]:
    """Return points at fractional indices of a polyline, and the change per index there."""
    index = np.minimum(place.astype(int), len(line) - 2)
    step = line[index + 1] - line[index]
    return line[index] + (place - index)[:, None] * step, step
