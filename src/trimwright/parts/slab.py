"""A piece of a panel between two depths: volume, centre, mesh."""

from collections.abc import Sequence

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.parts.frame import Array, Frame, fixed

THIN = 1e-9  # mm; a slab no thicker than this holds no wood


class Slab(Struct, frozen=True, eq=False):
    """A solid between two depths below the outer face, straight from one level to the other.

    At each of the two levels a lower and an upper chain of n points bound it; points of equal
    number face each other across the strip and from level to level.
    """

    depths: tuple[float, float]
    lower: Array  # (2, n, 2) u and v [mm]
    upper: Array  # (2, n, 2)

    def moments(self) -> Array:
        """Return volume and first moments in panel axes.

        Returns
        -------
        ndarray, shape (4,)
            Volume [mm3]; its moments about u, v and depth [mm4].

        Examples
        --------
        >>> low, high = np.array([[0.0, 0.0], [4.0, 0.0]]), np.array([[0.0, 3.0], [4.0, 3.0]])
        >>> slab([0.0, 2.0], [low, low], [high, high]).moments()
        array([24., 48., 36., 24.])
        """
        return np.asarray(moments((self,))[0])

    def mesh(self, frame: Frame) -> tuple[Array, NDArray[np.int64]]:
        """Return the slab as a closed mesh in car axes.

        Parameters
        ----------
        frame : Frame
            Axes of the panel.

        Returns
        -------
        vertices : ndarray, shape (6 n, 3)
            Points [mm].
        faces : ndarray, shape (12 n - 4, 3)
            Triangles, counter-clockwise seen from outside.
        """
        n = self.lower.shape[1]
        rings = [frame.placed(self.lower[k], self.depths[k]) for k in (0, 1)]
        rings += [frame.placed(self.upper[k], self.depths[k]) for k in (0, 1)]
        corners = np.concatenate(rings)
        i = np.arange(n - 1)
        low0, low1, up0, up1 = (k * n + i for k in range(4))
        faces = np.concatenate(
            [
                np.column_stack([low0, low0 + 1, up0 + 1, up0]),  # outer face
                np.column_stack([low1, up1, up1 + 1, low1 + 1]),  # inner face
            ]
        )
        # a bevel may twist: fanned from its middle, a side holds the volume of the ruled surface
        sides = np.concatenate(
            [
                np.column_stack([low0, low1, low1 + 1, low0 + 1]),
                np.column_stack([up0, up0 + 1, up1 + 1, up1]),
                np.array([[0, 2 * n, 3 * n, n], [n - 1, 2 * n - 1, 4 * n - 1, 3 * n - 1]]),
            ]
        )
        middle = 4 * n + np.arange(len(sides))
        fans = [np.column_stack([sides[:, k], sides[:, k - 3], middle]) for k in range(4)]
        triangles = [faces[:, [0, 1, 2]], faces[:, [0, 2, 3]], *fans]
        return np.concatenate([corners, corners[sides].mean(axis=1)]), np.concatenate(triangles)

    def strips(self, frame: Frame) -> Array:
        """Return the slab as convex pieces of eight corners.

        Parameters
        ----------
        frame : Frame
            Axes of the panel.

        Returns
        -------
        ndarray, shape (n - 1, 8, 3)
            Corners of each piece in car axes [mm].
        """
        low = [frame.placed(self.lower[k], self.depths[k]) for k in (0, 1)]
        up = [frame.placed(self.upper[k], self.depths[k]) for k in (0, 1)]
        chains = [*low, *up]
        return np.stack([c[:-1] for c in chains] + [c[1:] for c in chains], axis=1)


def slab(
    depths: Sequence[float], lower: Sequence[Array] | Array, upper: Sequence[Array] | Array
) -> Slab:
    """Return a slab, its chains turned so that u and v run counter-clockwise.

    Parameters
    ----------
    depths : two floats
        Depths of the two levels below the outer face, rising [mm].
    lower, upper : two ndarrays each, shape (n, 2)
        Chains at the two levels in u and v [mm].

    Returns
    -------
    Slab
        With read-only arrays.

    Examples
    --------
    >>> low, high = np.array([[0.0, 0.0], [4.0, 0.0]]), np.array([[0.0, 3.0], [4.0, 3.0]])
    >>> slab([0.0, 2.0], [high, high], [low, low]).moments()[0]
    np.float64(24.0)
    """
    low, high = np.array(lower), np.array(upper)
    if _clockwise(np.concatenate([low, high[:, ::-1]], axis=1)):
        low, high = low[:, ::-1].copy(), high[:, ::-1].copy()
    return Slab((float(depths[0]), float(depths[1])), fixed(low), fixed(high))


def _clockwise(rings: Array) -> bool:
    """Tell whether polygons (2, n, 2) run clockwise, their areas taken together."""
    around = rings - rings[:, :1]
    u, v = around[..., 0], around[..., 1]
    return bool((u[:, :-1] * v[:, 1:] - u[:, 1:] * v[:, :-1]).sum() < 0)


def moments(slabs: Sequence[Slab]) -> Array:
    """Return volumes and first moments of slabs, each in the axes of its panel.

    Parameters
    ----------
    slabs : sequence of Slab
        One or more.

    Returns
    -------
    ndarray, shape (slabs, 4)
        Volume [mm3]; its moments about u, v and depth [mm4]. Exact: area and moments are
        polynomials of degree 3 at most in depth, for which Simpson's rule is exact.
    """
    chains = [chain for one in slabs for chain in (one.lower, one.upper[:, ::-1])]
    outer, inner = np.concatenate(chains, axis=1)
    count = np.array([2 * one.lower.shape[1] for one in slabs])
    plane = polygon_moments(np.stack([outer, (outer + inner) / 2, inner]), count)
    w0, w1 = np.array([one.depths for one in slabs]).T
    depth = plane[..., 0] * np.stack([w0, (w0 + w1) / 2, w1])
    simpson = np.array((1.0, 4.0, 1.0)) / 6
    level = np.concatenate([plane, depth[..., None]], axis=-1)
    return np.asarray(np.tensordot(simpson, level, axes=1) * (w1 - w0)[:, None])


def polygon_moments(points: Array, count: NDArray[np.intp]) -> Array:
    """Return area and first moments of polygons.

    Parameters
    ----------
    points : ndarray, shape (..., n, 2)
        Corners, one polygon after another, counter-clockwise [mm]; clockwise gives negative values.
    count : ndarray, shape (polygons,)
        How many corners each has; n in all.

    Returns
    -------
    ndarray, shape (..., polygons, 3)
        Area [mm2], moments of u and v [mm3] (shoelace formulas).

    Examples
    --------
    >>> sheet = np.array([[0.0, 0.0], [4.0, 0.0], [4.0, 3.0], [0.0, 3.0]])
    >>> polygon_moments(sheet, np.array([4]))
    array([[12., 24., 18.]])
    """
    ends = np.cumsum(count)
    first = ends - count
    after = np.arange(1, ends[-1] + 1)
    after[ends - 1] = first
    origin = points[..., first, :]
    here = points - np.repeat(origin, count, axis=-2)
    there = here[..., after, :]
    cross = here[..., 0] * there[..., 1] - there[..., 0] * here[..., 1]
    terms = np.stack([cross / 2, *np.moveaxis((here + there) * cross[..., None] / 6, -1, 0)])
    area, u_part, v_part = np.add.reduceat(terms, first, axis=-1)
    u_part += area * origin[..., 0]
    v_part += area * origin[..., 1]
    return np.stack([area, u_part, v_part], axis=-1)
