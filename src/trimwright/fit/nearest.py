"""The nearest points of many pairs of convex bodies at once, where none of the pairs overlap.

They lie on an edge of either, or on a corner of one and a face of the other.
"""

import numpy as np
from numpy.typing import NDArray

from trimwright.fit.segment import nearest_on_segments

Floats = NDArray[np.float64]
Indices = NDArray[np.int64]
Skin = tuple[Indices, Indices]  # triangles (t, 3), edges (e, 2)
THINNEST = 1e-12  # a cross product shorter than this gives no direction


def nearest_points(a: Floats, b: Floats, skin_a: Skin, skin_b: Skin) -> tuple[Floats, Floats]:
    """Return the nearest point on each body of every pair.

    Parameters
    ----------
    a, b : ndarray, shape (n, v, 3)
        Corners of the first and the second body of each pair [mm].
    skin_a, skin_b : tuple of ndarray
        Triangles (t, 3) and edges (e, 2) as corner indices, of all first and all second bodies.

    Returns
    -------
    tuple of ndarray, shape (n, 3)
        On the first and on the second [mm].

    Examples
    --------
    >>> none, edge = np.zeros((0, 3), dtype=np.int64), np.array([[0, 1]])
    >>> a, b = np.array([[[0.0, 0, 0], [9, 0, 0]]]), np.array([[[4.0, 5, 0], [4, 9, 0]]])
    >>> [one.tolist() for one in nearest_points(a, b, (none, edge), (none, edge))]
    [[[4.0, 0.0, 0.0]], [[4.0, 5.0, 0.0]]]
    """
    (triangles_a, edges_a), (triangles_b, edges_b) = skin_a, skin_b
    rods_a, rods_b = a[:, edges_a], b[:, edges_b]
    between = nearest_on_segments(
        rods_a[:, :, None, 0], rods_a[:, :, None, 1], rods_b[:, None, :, 0], rods_b[:, None, :, 1]
    )
    near_a, near_b = (one.reshape(len(a), -1, 3) for one in between)
    rods = ((near_b - near_a) ** 2).sum(axis=-1)
    over_a, feet_b = _over_faces(a, b[:, triangles_b])
    over_b, feet_a = _over_faces(b, a[:, triangles_a])
    best = np.concatenate([rods, over_a, over_b], axis=1).argmin(axis=1)
    on_a = np.concatenate([near_a, np.repeat(a, len(triangles_b), axis=1), feet_a], axis=1)
    on_b = np.concatenate([near_b, feet_b, np.repeat(b, len(triangles_a), axis=1)], axis=1)
    row = np.arange(len(a))
    return on_a[row, best], on_b[row, best]


def _over_faces(corners: Floats, faces: Floats) -> tuple[Floats, Floats]:
    """Return the square of each corner's height over each face, and its foot in that face.

    The height is infinite where the corner does not stand over the face, or the face has no area.

    Parameters
    ----------
    corners : ndarray, shape (n, v, 3)
    faces : ndarray, shape (n, t, 3, 3)
        Corners of triangles.

    Returns
    -------
    tuple of ndarray, shape (n, v * t), (n, v * t, 3)
    """
    p, q, r = (faces[:, None, :, k] for k in range(3))
    normal = cross(q - p, r - p)
    square = (normal**2).sum(axis=-1)
    flat = square > THINNEST**2
    to = corners[:, :, None] - p
    height = (to * normal).sum(axis=-1) / np.where(flat, square, 1.0)
    foot = corners[:, :, None] - height[..., None] * normal
    inside = np.broadcast_to(flat, height.shape).copy()
    for start, end in ((p, q), (q, r), (r, p)):
        inside &= (cross(end - start, foot - start) * normal).sum(axis=-1) >= 0
    away = np.where(inside, height**2 * square, np.inf)
    return away.reshape(len(corners), -1), foot.reshape(len(corners), -1, 3)


def cross(a: Floats, b: Floats) -> Floats:
    """Return the cross products over the last axis; numpy's own takes five times as long here."""
    ax, ay, az = a[..., 0], a[..., 1], a[..., 2]
    bx, by, bz = b[..., 0], b[..., 1], b[..., 2]
    x = ay * bz - az * by
    found = np.empty((*x.shape, 3))
    found[..., 0], found[..., 1], found[..., 2] = x, az * bx - ax * bz, ax * by - ay * bx
    return found
