"""The deck seen from the side: its top line, and lines parallel below it."""

from functools import lru_cache
from itertools import pairwise

import numpy as np
from msgspec import Struct

from trimwright.parts.frame import Array, fixed

STRAIGHT = 1e-7  # a change of slope below this is no kink: 0.1 um in a metre


class Profile(Struct, frozen=True):
    """The top line of the deck as points (x, z) from front to rear [mm].

    The first and the last point are the ends of the console. Lines parallel to it meet on the
    plane that halves each kink, and are cut off plumb at the ends.
    """

    points: tuple[tuple[float, float], ...]

    @property
    def slopes(self) -> Array:
        """Slope dz/dx of each straight piece, shape (n - 1,)."""
        return _slopes(self)

    def line(self, depth_mm: float) -> Array:
        """Return the points of the line that lies parallel below the top.

        Parameters
        ----------
        depth_mm : float
            Distance square to the face, downwards [mm]; below 0 for a line above.

        Returns
        -------
        ndarray, shape (n, 2)
            x and z [mm].

        Examples
        --------
        >>> Profile(((0.0, 200.0), (600.0, 200.0))).line(12.0)
        array([[  0., 188.],
               [600., 188.]])
        """
        return _line(self, depth_mm)

    def height(self, x_mm: Array, depth_mm: float = 0.0) -> Array:
        """Return heights on the top line or on a line parallel below it.

        Parameters
        ----------
        x_mm : ndarray
            Places, rearward from the datum [mm]; beyond the ends the last height holds.
        depth_mm : float, default 0.0
            Distance square to the face, downwards [mm].

        Returns
        -------
        ndarray
            z [mm], of the shape of `x_mm`.

        Examples
        --------
        >>> Profile(((0.0, 200.0), (600.0, 230.0))).height(np.array([0.0, 300.0]))
        array([200., 215.])
        """
        line = self.line(depth_mm)
        return np.interp(x_mm, line[:, 0], line[:, 1])

    def kinks(self, depth_mm: float) -> Array:
        """Return where the line kinks, without its ends.

        Parameters
        ----------
        depth_mm : float
            Distance square to the face, downwards [mm].

        Returns
        -------
        ndarray, shape (n - 2,)
            x [mm].

        Examples
        --------
        >>> Profile(((0.0, 0.0), (3.0, 0.0), (6.0, 3.0))).kinks(0.0)
        array([3.])
        """
        return self.line(depth_mm)[1:-1, 0]


@lru_cache(maxsize=64)
def _slopes(deck: Profile) -> Array:
    """Return the slope of each straight piece, read-only."""
    x, z = np.array(deck.points).T
    return fixed(np.diff(z) / np.diff(x))


@lru_cache(maxsize=256)
def _line(deck: Profile, depth_mm: float) -> Array:
    """Return the line at a depth, read-only: asked for hundreds of times for one carcass."""
    m = deck.slopes
    q = np.sqrt(1 + m**2)
    # lines h lower (square to the face) than pieces with slopes m1, m2 meet h (q2 - q1)/(m2 - m1)
    # further on, q = sqrt(1 + m^2)
    dx = np.concatenate([[0.0], np.diff(q) / np.diff(m), [0.0]]) if m.size > 1 else np.zeros(2)
    dz = np.concatenate([[-q[0]], m[1:] * dx[1:-1] - q[1:], [-q[-1]]])
    return fixed(np.array(deck.points) + depth_mm * np.column_stack([dx, dz]))


def profile(points: tuple[tuple[float, float], ...], start_mm: float, end_mm: float) -> Profile:
    """Return the top line of a deck, cut or run on straight to the console's ends.

    Parameters
    ----------
    points : tuple of (x, z)
        Two or more points of the top line, x rising [mm].
    start_mm, end_mm : float
        Ends of the console [mm].

    Returns
    -------
    Profile
        Points in line with their neighbours are left out.

    Examples
    --------
    >>> profile(((0.0, 200.0), (300.0, 215.0)), -100.0, 500.0).points
    ((-100.0, 195.0), (500.0, 225.0))
    """
    p = np.array(points)
    slopes = np.diff(p[:, 1]) / np.diff(p[:, 0])
    first = float(p[0, 1] + slopes[0] * (start_mm - p[0, 0]))
    last = float(p[-1, 1] + slopes[-1] * (end_mm - p[-1, 0]))
    inner = [(x, z) for x, z in points if start_mm < x < end_mm]
    if start_mm > p[0, 0]:
        first = float(np.interp(start_mm, p[:, 0], p[:, 1]))
    if end_mm < p[-1, 0]:
        last = float(np.interp(end_mm, p[:, 0], p[:, 1]))
    kept = [(start_mm, first)]
    for here, after in pairwise([*inner, (end_mm, last)]):
        before = kept[-1]
        turn = (after[1] - here[1]) / (after[0] - here[0])
        turn -= (here[1] - before[1]) / (here[0] - before[0])
        if abs(turn) > STRAIGHT:
            kept.append((float(here[0]), float(here[1])))
    return Profile((*kept, (end_mm, last)))
