"""The walls of one side as a row of leaning planes."""

from functools import lru_cache
from math import radians, tan
from typing import Literal

import numpy as np
from msgspec import Struct

from trimwright.parts.frame import Array, Frame, fixed, square_to, vector
from trimwright.parts.profile import STRAIGHT, Profile

SideName = Literal["left", "right"]


class Side(Struct, frozen=True):
    """Outer faces of one side: sign * y = a + b x - c z, piece by piece from front to rear.

    c is the tangent of the lean, measured in a plane across the car (as with a bevel gauge held
    across), above 0 for walls that stand wider at the bottom. Neighbouring pieces meet in an
    upright plane x = const at every depth, which therefore is where they are mitred.
    """

    name: SideName
    ends: tuple[float, ...]
    a: tuple[float, ...]
    b: tuple[float, ...]
    c: float

    @property
    def sign(self) -> float:
        """+1 for the right side, -1 for the left."""
        return 1.0 if self.name == "right" else -1.0

    @property
    def stretch(self) -> Array:
        """Sideways distance per mm square to each face, shape (n,)."""
        return _planes(self, 0.0).stretch

    def bounds(self, depth_mm: float) -> Array:
        """Return where the pieces begin and end at a depth below the outer face.

        Parameters
        ----------
        depth_mm : float
            Depth square to the face [mm].

        Returns
        -------
        ndarray, shape (n + 1,)
            x [mm].

        Examples
        --------
        >>> Side("left", (0.0, 600.0), (110.0,), (0.0,), 0.0).bounds(12.0)
        array([  0., 600.])
        """
        return _planes(self, depth_mm).bounds

    def reach(self, x_mm: Array, z_mm: Array, depth_mm: float = 0.0) -> Array:
        """Return half-widths of the side, or of a line parallel inside it.

        Parameters
        ----------
        x_mm, z_mm : ndarray
            Places along the car and heights [mm], broadcast together.
        depth_mm : float, default 0.0
            Depth below the outer face, square to it [mm].

        Returns
        -------
        ndarray
            Distance from the middle plane, outwards [mm].

        Examples
        --------
        >>> Side("left", (0.0, 600.0), (110.0,), (0.0,), 0.1).reach(np.array(5.0), np.array(200.0))
        array(90.)
        """
        inside = _planes(self, depth_mm)
        i = np.searchsorted(inside.bounds[1:-1], x_mm, side="right") if len(self.a) > 1 else 0
        return np.asarray(inside.a[i] + inside.b[i] * x_mm - self.c * z_mm)

    def frame(self, piece: int) -> Frame:
        """Return the axes of one piece: v up the face, u level, n outwards.

        Parameters
        ----------
        piece : int
            Number of the piece, from 0.

        Returns
        -------
        Frame
            u points forward on the right side and rearward on the left: as seen from outside.

        Examples
        --------
        >>> Side("right", (0.0, 600.0), (110.0,), (0.0,), 0.0).frame(0).u
        (-1.0, -0.0, -0.0)
        """
        s, a, b = self.sign, self.a[piece], self.b[piece]
        n = vector(np.array((-b, s, self.c)) / self.stretch[piece])
        u = vector(-s * np.array((1.0, s * b, 0.0)) / np.hypot(1.0, b))
        x = self.ends[piece + 1] if s > 0 else self.ends[piece]
        return Frame((x, s * (a + b * x), 0.0), u, square_to(n, u), n)


class _Planes(Struct, frozen=True, eq=False):
    """The planes of a side at one depth, read-only arrays: asked for hundreds of times."""

    bounds: Array
    a: Array
    b: Array
    stretch: Array


@lru_cache(maxsize=256)
def _planes(walls: Side, depth_mm: float) -> _Planes:
    """Return the planes of a side at a depth below its outer faces."""
    b, ends = np.array(walls.b), np.array(walls.ends)
    stretch = np.sqrt(1 + b**2 + walls.c**2)
    # pieces a1 + b1 x - w s1 and a2 + b2 x - w s2 meet w (s2 - s1)/(b2 - b1) further on
    ends[1:-1] += depth_mm * np.diff(stretch) / np.diff(b)
    a = np.array(walls.a) - depth_mm * stretch
    return _Planes(fixed(ends), fixed(a), fixed(b), fixed(stretch))


def side(
    name: SideName, widths: tuple[tuple[float, float], ...], deck: Profile, lean_deg: float
) -> Side:
    """Return the walls of one side from half-widths at deck level.

    Parameters
    ----------
    name : {'left', 'right'}
        Which side.
    widths : tuple of (x, half-width)
        Two or more outside half-widths at the deck's top, x rising [mm].
    deck : Profile
        Top line of the deck; its ends are the ends of the walls.
    lean_deg : float
        Lean from upright in a plane across the car [degrees], above 0 wider at the bottom.

    Returns
    -------
    Side
        Neighbouring pieces in one plane are one piece.

    Examples
    --------
    >>> deck = Profile(((0.0, 200.0), (600.0, 200.0)))
    >>> side("left", ((0.0, 110.0), (600.0, 110.0)), deck, 0.0).a
    (110.0,)
    """
    c = tan(radians(lean_deg))
    start, end = deck.points[0][0], deck.points[-1][0]
    x = np.array([width[0] for width in widths])
    foot = np.array([width[1] for width in widths]) + c * deck.height(x)
    ends, a, b = [start], list[float](), list[float]()
    for i in range(len(x) - 1):
        slope = float((foot[i + 1] - foot[i]) / (x[i + 1] - x[i]))
        if (i and x[i] >= end) or (x[i + 1] <= start and i < len(x) - 2):
            continue
        if b and abs(slope - b[-1]) <= STRAIGHT:
            continue
        if b:
            ends.append(float(x[i]))
        a.append(float(foot[i] - slope * x[i]))
        b.append(slope)
    return Side(name, (*ends, end), tuple(a), tuple(b), c)
