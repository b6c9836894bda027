"""How far apart many convex bodies are at least, all pairs at once."""

from collections.abc import Sequence
from itertools import product

import numpy as np
from numpy.typing import NDArray

from trimwright.fit.convex import Piece

Floats = NDArray[np.float64]


def _ways() -> Floats:
    """Return unit vectors all round: along axes, across edges and corners of a grid of 5 cubed."""
    steps = np.array([way for way in product((-2.0, -1, 0, 1, 2), repeat=3) if any(way)])
    return np.asarray(steps / np.linalg.norm(steps, axis=1, keepdims=True))


def least_rooms(some: Sequence[Piece], others: Sequence[Piece]) -> Floats:
    """Return, for each pair, a room that their signed distance is never below [mm].

    The larger of the room along any of some fixed directions and the distance of the boxes.

    Returns
    -------
    ndarray, shape (some, others)

    Examples
    --------
    >>> from trimwright.fit.convex import rod
    >>> one = rod(np.zeros(3), np.array([0.0, 0, 9]), 1.0)
    >>> other = rod(np.array([5.0, 0, 0]), np.array([5.0, 0, 9]), 1.0)
    >>> least_rooms([one], [other]).round(6).tolist()
    [[3.0]]
    """
    ways = _ways()
    reach, start = _furthest(some, ways), -_furthest(others, -ways)
    room = (start - reach[:, None]).max(axis=-1)
    axes = np.eye(3)
    high, low = (_furthest(some, axes), -_furthest(some, -axes))
    high_o, low_o = (_furthest(others, axes), -_furthest(others, -axes))
    apart = np.maximum(np.maximum(low_o - high[:, None], low[:, None] - high_o), 0.0)
    box = np.linalg.norm(apart, axis=-1)
    coats = np.array([a.coat for a in some])[:, None] + np.array([b.coat for b in others])
    return np.asarray(np.where(box > 0, np.maximum(room, box), room) - coats)


def _furthest(pieces: Sequence[Piece], ways: Floats) -> Floats:
    """Return how far each piece reaches along each direction, shape (pieces, ways)."""
    starts = np.cumsum([0, *(len(piece.corners) for piece in pieces[:-1])])
    along = np.concatenate([piece.corners for piece in pieces]) @ ways.T
    return np.asarray(np.maximum.reduceat(along, starts, axis=0))
