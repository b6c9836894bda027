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
    none = np.zeros_like(cp)
    rows = [[cp, sp * sr, sp * cr], [none, cr, -sr], [-sp, cp * sr, cp * cr]]
    return np.stack([np.stack(row, axis=-1) for row in rows], axis=-2)


def placed(points: Floats, motion: Floats, about: Floats) -> Floats:
    """Return points of the console after it has moved.

    Parameters
    ----------
    points : ndarray, shape (n, 3) or (rows, n, 3)
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
    # coordinate by coordinate in memory, and one product where all rows share the points: this is
    # asked of every point in thousands of rows
    moved = np.empty((len(motion), 3, points.shape[-2]))
    matrix, from_here = turn(motion), points - about
    if points.ndim == 2:  # noqa: PLR2004  n points
        np.matmul(matrix.reshape(-1, 3), from_here.T, out=moved.reshape(-1, points.shape[0]))
    else:
        x, y, z = np.moveaxis(from_here, -1, 0)
        for axis in range(3):
            a, b, c = matrix[:, axis, :, None].transpose(1, 0, 2)
            moved[:, axis] = a * x + b * y + c * z
    moved += about[:, None]
    moved[:, 2] += motion[:, :1]
    return moved.transpose(0, 2, 1)
