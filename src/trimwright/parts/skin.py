"""The covered tunnel as the grid a panel is scribed to."""

from functools import lru_cache

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.parts.frame import Array, Flags, fixed


class Skin(Struct, frozen=True, eq=False):
    """A surface as rows of points, one row across the car at each place along it.

    A skin equals itself alone: what is kept of its cuts is kept by which skin it is.
    """

    points: Array  # (a, b, 3), a rows front to rear, b points left to right
    normals: Array  # (a, b, 3), unit, out of the metal

    def raised(self, thickness_mm: Array) -> "Skin":
        """Return the surface of what lies on it, square to the skin.

        Parameters
        ----------
        thickness_mm : ndarray, shape (a,) or ()
            Thickness of the layers at each row [mm].

        Returns
        -------
        Skin

        Examples
        --------
        >>> up = np.broadcast_to([0.0, 0.0, 1.0], (2, 2, 3))
        >>> Skin(np.zeros((2, 2, 3)), up).raised(np.array(12.0)).points[0, 0]
        array([ 0.,  0., 12.])
        """
        thick = np.broadcast_to(thickness_mm, self.points.shape[:1])
        return Skin(self.points + thick[:, None, None] * self.normals, self.normals)

    def rows_along(self, start_mm: float, end_mm: float) -> tuple[int, int]:
        """Return the rows that matter between two places: those within, and one more either way.

        Parameters
        ----------
        start_mm, end_mm : float
            Places along the car [mm].

        Returns
        -------
        tuple of int
            The first, and the one after the last; two rows or more of those there are.

        Examples
        --------
        >>> rows = np.zeros((9, 2, 3)) + np.arange(9.0)[:, None, None]
        >>> Skin(rows, rows).rows_along(2.5, 4.0)
        (2, 6)
        """
        least, most = _reach(self)
        first = min(max(int(np.searchsorted(most, start_mm)) - 1, 0), len(most) - 2)
        last = max(int(np.searchsorted(least, end_mm, side="right")), first + 1)
        return first, min(last + 1, len(most))

    def full_length(self, within_mm: float) -> tuple[float, float]:
        """Return where every line along the car begins and ends, less a little each [mm]."""
        return _full_length(self, within_mm)

    def part(self, rows: tuple[int, int]) -> "Skin":
        """Return some rows alone, from the first to before the last."""
        return Skin(self.points[slice(*rows)], self.normals[slice(*rows)])

    def turned(self) -> "Skin":
        """Return the same surface with rows along the car.

        Returns
        -------
        Skin

        Examples
        --------
        >>> Skin(np.zeros((2, 5, 3)), np.zeros((2, 5, 3))).turned().points.shape
        (5, 2, 3)
        """
        return Skin(self.points.transpose(1, 0, 2), self.normals.transpose(1, 0, 2))


@lru_cache(maxsize=8)
def _reach(skin: Skin) -> tuple[Array, Array]:
    """Return the least and the most x of each row, (a,) each."""
    x = np.ascontiguousarray(skin.points[..., 0])
    return fixed(x.min(axis=1)), fixed(x.max(axis=1))


@lru_cache(maxsize=8)
def _full_length(skin: Skin, within_mm: float) -> tuple[float, float]:
    x = skin.points[..., 0]
    return float(x.min(axis=0).max()) + within_mm, float(x.max(axis=0).min()) - within_mm


class Cut(Struct, frozen=True, eq=False):
    """Where parallel planes cut a skin, row by row."""

    points: Array  # (planes, rows, 3)
    normals: Array  # (planes, rows, 3) of the skin, unit
    found: Flags  # (planes, rows) bool


def plane_cut(skin: Skin, normal: Array, offsets_mm: Array) -> Cut:
    """Return the highest point at which each row of a skin passes through each plane.

    Parameters
    ----------
    skin : Skin
        Rows of points.
    normal : ndarray, shape (3,)
        Normal of the planes.
    offsets_mm : ndarray, shape (planes,)
        Planes are the points with normal . p = offset [mm times the length of the normal].

    Returns
    -------
    Cut
        Straight between neighbouring points of a row. Where a row passes a plane more than once
        (a tucked-in side, an offset folded over a tight hollow) the highest place counts: a panel
        coming from above meets it first. Where it never passes, `found` is false.

    Examples
    --------
    >>> row = np.array([[[0.0, -3.0, 0.0], [0.0, 0.0, 3.0], [0.0, 3.0, 0.0]]])
    >>> plane_cut(Skin(row, row), np.array([0.0, 1.0, 0.0]), np.array([1.0])).points
    array([[[0., 1., 2.]]])
    """
    d = skin.points @ normal
    step, real = _steps(d, float(offsets_mm.min()), float(offsets_mm.max()))
    rows = np.arange(len(d))[:, None]
    before = d[rows, step][None] - offsets_mm[:, None, None]
    after = d[rows, step + 1][None] - offsets_mm[:, None, None]
    passes = real & (((before <= 0) & (after > 0)) | ((before >= 0) & (after < 0)))
    share = np.where(passes, before, 0.0) / np.where(passes, before - after, 1.0)
    z = skin.points[rows, step, 2], skin.points[rows, step + 1, 2]
    height = z[0] + share * (z[1] - z[0])
    best = np.where(passes, height, -np.inf).argmax(axis=-1)
    found = np.asarray(passes.any(axis=-1))
    row = rows[:, 0]
    f = share[np.arange(len(offsets_mm))[:, None], row, best][..., None]
    at = np.where(found, step[row, best], 0)
    points = skin.points[row, at] * (1 - f) + skin.points[row, at + 1] * f
    normals = skin.normals[row, at] * (1 - f) + skin.normals[row, at + 1] * f
    normals = normals / np.linalg.norm(normals, axis=-1, keepdims=True)
    return Cut(points, normals, found)


def _steps(d: Array, low: float, high: float) -> tuple[NDArray[np.intp], Flags]:
    """Return, row by row, the steps of `d` (rows, n) that touch low to high, and which are real.

    Shape (rows, most of any row); rows with fewer are filled up with step 0, which is not real.
    """
    near = np.minimum(d[:, :-1], d[:, 1:]) <= high
    near &= np.maximum(d[:, :-1], d[:, 1:]) >= low
    row, step = np.nonzero(near)
    count = np.bincount(row, minlength=len(d))
    place = np.arange(len(row)) - (np.cumsum(count) - count)[row]
    steps = np.zeros((len(d), max(int(count.max()), 1)), dtype=np.intp)
    steps[row, place] = step
    return steps, np.arange(steps.shape[1]) < count[:, None]
