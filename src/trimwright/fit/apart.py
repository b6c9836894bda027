"""How far apart many convex bodies are at least, all pairs at once."""

from collections.abc import Sequence
from functools import cache
from itertools import product
from math import gcd

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.fit.convex import Piece

Floats = NDArray[np.float64]
AXES = 3  # of the ways, the first ones


@cache
def _ways() -> Floats:
    """Return unit vectors all round, each for both its ways, the three axes first.

    They run along axes, and across edges and corners of a grid of 5 cubed.
    """
    grid = [way for way in product(range(-2, 3), repeat=3) if way > (0, 0, 0) and gcd(*way) == 1]
    every = np.array(sorted(grid, key=np.count_nonzero), dtype=np.float64)
    found = np.asarray(every / np.linalg.norm(every, axis=1, keepdims=True))
    found.setflags(write=False)
    return found


class Reach(Struct, frozen=True, eq=False):
    """How far pieces reach along fixed directions, both ways, shape (pieces, ways); their coats."""

    low: Floats
    high: Floats
    coat: Floats

    @classmethod
    def of(cls, pieces: Sequence[Piece]) -> "Reach":
        """Return the reach of some pieces."""
        starts = np.cumsum([0, *(len(piece.corners) for piece in pieces[:-1])])
        along = np.concatenate([piece.corners for piece in pieces]) @ _ways().T
        return cls(
            np.minimum.reduceat(along, starts, axis=0),
            np.maximum.reduceat(along, starts, axis=0),
            np.array([piece.coat for piece in pieces]),
        )


def least_rooms(some: Reach, others: Reach) -> Floats:
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
    >>> least_rooms(Reach.of([one]), Reach.of([other])).round(6).tolist()
    [[3.0]]
    """
    ahead, behind = others.low - some.high[:, None], some.low[:, None] - others.high
    rooms = np.maximum(ahead, behind, out=ahead)
    box = np.linalg.norm(np.maximum(rooms[..., :AXES], 0.0), axis=-1)
    coats = some.coat[:, None] + others.coat
    return np.asarray(np.maximum(rooms.max(axis=-1), np.where(box > 0, box, -np.inf)) - coats)
