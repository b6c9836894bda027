"""A piece of a panel between two depths: volume, centre, mesh."""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from trimwright.parts.frame import Array, Frame

THIN = 1e-9  # mm; a slab no thicker than this holds no wood


@dataclass(frozen=True, slots=True)
class Slab:
    """A solid between two depths below the outer face, straight from one level to the other.

    At each of the two levels a lower and an upper chain of n points bound it; points of equal
    number face each other across the strip and from level to level.
    """

    depths: tuple[float, float]
    lower: Array = field(compare=False)  # (2, n, 2) u and v [mm]
    upper: Array = field(compare=False)  # (2, n, 2)

    def moments(self) -> Array:
        """Return volume and first moments in panel axes.

        Returns
        -------
        ndarray, shape (4,)
            Volume [mm3]; its moments about u, v and depth [mm4]. Exact: area and moments are
            polynomials of degree 3 at most in depth, for which Simpson's rule is exact.

        Examples
        --------
        >>> low, high = np.array([[0.0, 0.0], [4.0, 0.0]]), np.array([[0.0, 3.0], [4.0, 3.0]])
        >>> slab([0.0, 2.0], [low, low], [high, high]).moments()
        array([24., 48., 36., 24.])
        """
        w0, w1 = self.depths
        middle = (self.lower.mean(axis=0), self.upper.mean(axis=0))
        low = np.stack([self.lower[0], middle[0], self.lower[1]])
        high = np.stack([self.upper[0], middle[1], self.upper[1]])
        plane = polygon_moments(np.concatenate([low, high[:, ::-1]], axis=1))
        depth = plane[:, :1] * np.array(((w0,), ((w0 + w1) / 2,), (w1,)))
        simpson = np.array((1.0, 4.0, 1.0)) / 6 * (w1 - w0)
        return np.asarray(simpson @ np.hstack([plane, depth]))

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


def slab(depths: Sequence[float], lower: Sequence[Array], upper: Sequence[Array]) -> Slab:
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
    low, high = np.stack(list(lower)), np.stack(list(upper))
    if polygon_moments(np.concatenate([low, high[:, ::-1]], axis=1))[:, 0].sum() < 0:
        low, high = low[:, ::-1].copy(), high[:, ::-1].copy()
    low.setflags(write=False)
    high.setflags(write=False)
    return Slab((float(depths[0]), float(depths[1])), low, high)


def polygon_moments(points: Array) -> Array:
    """Return area and first moments of polygons.

    Parameters
    ----------
    points : ndarray, shape (..., n, 2)
        Corners, counter-clockwise [mm]; clockwise gives negative values.

    Returns
    -------
    ndarray, shape (..., 3)
        Area [mm2], moments of u and v [mm3] (shoelace formulas).

    Examples
    --------
    >>> polygon_moments(np.array([[0.0, 0.0], [4.0, 0.0], [4.0, 3.0], [0.0, 3.0]]))
    array([12., 24., 18.])
    """
    origin = points[..., :1, :]
    u, v = np.moveaxis(np.concatenate([points, origin], axis=-2) - origin, -1, 0)
    cross = u[..., :-1] * v[..., 1:] - u[..., 1:] * v[..., :-1]
    area = cross.sum(axis=-1) / 2
    u_part = ((u[..., :-1] + u[..., 1:]) * cross).sum(axis=-1) / 6 + area * origin[..., 0, 0]
    v_part = ((v[..., :-1] + v[..., 1:]) * cross).sum(axis=-1) / 6 + area * origin[..., 0, 1]
    return np.stack([area, u_part, v_part], axis=-1)
