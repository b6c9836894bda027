"""A console moved as one body: up, nose up, right side up, about a point on its lower edges."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def turn(motion: Floats) -> Floats:
    """Return the rotation of each row: roll about the car's length first, then pitch.

    Parameters
    ----------
    motion : ndarray, shape (rows, 3)
        Rise [mm], pitch [rad, nose up], roll [rad, right side up].

    Returns
    -------
    ndarray, shape (rows, 3, 3)
        Matrices that turn column vectors.

    Examples
    --------
    >>> nose = turn(np.array([[0.0, 0.01, 0.0]]))[0] @ [-600.0, 0, 0]
    >>> nose.round(3).tolist()
    [-599.97, 0.0, 6.0]
    """
    pitch, roll = motion[:, 1], motion[:, 2]
    cp, sp, cr, sr = np.cos(pitch), np.sin(pitch), np.cos(roll), np.sin(roll)
    found = np.empty((len(motion), 3, 3))
    found[:, 0, 0], found[:, 0, 1], found[:, 0, 2] = cp, sp * sr, sp * cr
    found[:, 1, 0], found[:, 1, 1], found[:, 1, 2] = 0.0, cr, -sr
    found[:, 2, 0], found[:, 2, 1], found[:, 2, 2] = -sp, cp * sr, cp * cr
    return found


def placed(points: Floats, motion: Floats, about: Floats) -> Floats:
    """Return points of the console after it has moved.

    Parameters
    ----------
    points : ndarray, shape (n, 3)
        At the design place [mm].
    motion : ndarray, shape (rows, 3)
        As in `turn`.
    about : ndarray, shape (3,)
        The point it turns about [mm].

    Returns
    -------
    ndarray, shape (rows, n, 3)
        Where they are then [mm].
    """
    return _turned(turn(motion), points - about, about, motion).transpose(0, 2, 1)


def placed_off(points: Floats, ways: Floats, off: Floats, motion: Floats, about: Floats) -> Floats:
    """Return points that stand off the console, as covers do, after it has moved.

    Parameters
    ----------
    points, motion, about
        As in `placed`.
    ways : ndarray, shape (n, 3)
        Unit vectors at the design place.
    off : ndarray, shape (rows, n)
        How far along its own vector each point stands off, row by row [mm].
    """
    matrix = turn(motion)
    moved = _turned(matrix, points - about, about, motion)
    turned = (matrix.reshape(-1, 3) @ ways.T).reshape(moved.shape)
    turned *= off[:, None]
    moved += turned
    return moved.transpose(0, 2, 1)


def _turned(matrix: Floats, from_here: Floats, about: Floats, motion: Floats) -> Floats:
    """Return points (n, 3) turned and risen, (rows, 3, n): one product for all rows is quick."""
    moved = (matrix.reshape(-1, 3) @ from_here.T).reshape(len(motion), 3, -1)
    moved += about[:, None]
    moved[:, 2] += motion[:, :1]
    return moved
