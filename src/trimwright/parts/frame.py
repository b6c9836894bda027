"""Where a flat panel stands in the car."""

from functools import lru_cache
from typing import Any

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

Vector = tuple[float, float, float]
Array = NDArray[np.float64]
Flags = NDArray[np.bool_]


class Frame(Struct, frozen=True):
    """The axes of a panel: u along, v up (or to the right), n out of the outer face.

    u, v, n are right-handed unit vectors, so a drawing of (u, v) shows the outer face as it is
    seen from outside. The origin lies on the outer face.
    """

    origin: Vector
    u: Vector
    v: Vector
    n: Vector

    def flat(self, points: Array) -> Array:
        """Return panel coordinates of points in the car.

        Parameters
        ----------
        points : ndarray, shape (..., 3)
            Points in car axes [mm].

        Returns
        -------
        ndarray, shape (..., 2)
            u and v [mm].

        Examples
        --------
        >>> frame = Frame((0, 0, 5), (1, 0, 0), (0, 1, 0), (0, 0, 1))
        >>> frame.flat(np.array([[3.0, 4.0, 5.0]]))
        array([[3., 4.]])
        """
        origin, axes, _ = _arrays(self)
        return np.asarray((points - origin) @ axes.T)

    def placed(self, flat: Array, depth_mm: float = 0.0) -> Array:
        """Return car coordinates of points of the panel.

        Parameters
        ----------
        flat : ndarray, shape (..., 2)
            u and v [mm].
        depth_mm : float, default 0.0
            How far below the outer face the points lie [mm].

        Returns
        -------
        ndarray, shape (..., 3)
            Points in car axes [mm].

        Examples
        --------
        >>> frame = Frame((0, 0, 5), (1, 0, 0), (0, 1, 0), (0, 0, 1))
        >>> frame.placed(np.array([[3.0, 4.0]]), 2.0)
        array([[3., 4., 3.]])
        """
        origin, axes, out = _arrays(self)
        return np.asarray(origin + flat @ axes - depth_mm * out)


def fixed(array: NDArray[Any]) -> NDArray[Any]:
    """Return an array read-only: what is kept for later must not change.

    Parameters
    ----------
    array : ndarray

    Returns
    -------
    ndarray
        The same.

    Examples
    --------
    >>> fixed(np.zeros(3)).flags.writeable
    False
    """
    array.setflags(write=False)
    return array


@lru_cache(maxsize=256)
def _arrays(frame: Frame) -> tuple[Array, Array, Array]:
    """Return origin, both axes (2, 3) and the outward axis of a frame, read-only."""
    axes = np.array((frame.u, frame.v))
    return fixed(np.array(frame.origin)), fixed(axes), fixed(np.array(frame.n))


def vector(values: Array) -> Vector:
    """Return three numbers as a hashable vector.

    Parameters
    ----------
    values : ndarray, shape (3,)
        Components.

    Returns
    -------
    tuple of float

    Examples
    --------
    >>> vector(np.array([1.0, 2.0, 3.0]))
    (1.0, 2.0, 3.0)
    """
    x, y, z = values.tolist()
    return x, y, z


def square_to(one: Vector, other: Vector) -> Vector:
    """Return the cross product of two vectors.

    Parameters
    ----------
    one, other : tuple of three floats

    Returns
    -------
    tuple of float

    Examples
    --------
    >>> square_to((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
    (0.0, 0.0, 1.0)
    """
    (a, b, c), (d, e, f) = one, other
    return b * f - c * e, c * d - a * f, a * e - b * d
