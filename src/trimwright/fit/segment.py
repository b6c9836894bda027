"""How far apart two straight rods are, whatever way they lie."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
SHORTEST_MM2 = 1e-18  # a segment shorter than 1e-9 mm is a point


def _dot(a: Floats, b: Floats) -> Floats:
    """Return the dot product over the last axis."""
    return np.asarray(np.einsum("...k,...k->...", a, b))


def nearest_on_segments(
    start_a: Floats, end_a: Floats, start_b: Floats, end_b: Floats
) -> tuple[Floats, Floats]:
    """Return the nearest points of segments a and segments b, pair by pair.

    Parameters
    ----------
    start_a, end_a, start_b, end_b : ndarray, shape (..., 3)
        Ends of the segments [mm]; the leading axes broadcast. A segment may be a point.

    Returns
    -------
    tuple of ndarray, shape (..., 3)
        The nearest point on a and the nearest point on b [mm].

    Examples
    --------
    >>> a, b = nearest_on_segments(
    ...     np.array([0.0, 0, 0]), np.array([10.0, 0, 0]),
    ...     np.array([5.0, -5, 3]), np.array([5.0, 5, 3]))
    >>> a.tolist(), b.tolist()
    ([5.0, 0.0, 0.0], [5.0, 0.0, 3.0])
    """
    along_a, along_b, between = end_a - start_a, end_b - start_b, start_a - start_b
    # minimise |between + s along_a - t along_b|^2 over the unit square: the inner optimum if the
    # rods are not parallel, clamped one at a time (convex, so clamping s then t then s is exact)
    a, e, b = _dot(along_a, along_a), _dot(along_b, along_b), _dot(along_a, along_b)
    c, f = _dot(along_a, between), _dot(along_b, between)
    safe_a, safe_e = np.maximum(a, SHORTEST_MM2), np.maximum(e, SHORTEST_MM2)
    span = a * e - b * b
    skew = span > 1e-12 * safe_a * safe_e
    s = np.where(skew, np.clip((b * f - c * e) / np.where(skew, span, 1.0), 0.0, 1.0), 0.0)
    t = np.where(e > SHORTEST_MM2, np.clip((b * s + f) / safe_e, 0.0, 1.0), 0.0)
    s = np.where(a > SHORTEST_MM2, np.clip((b * t - c) / safe_a, 0.0, 1.0), 0.0)
    return start_a + s[..., None] * along_a, start_b + t[..., None] * along_b


def segment_distance(start_a: Floats, end_a: Floats, start_b: Floats, end_b: Floats) -> Floats:
    """Return the distance between segments a and b, pair by pair.

    Parameters
    ----------
    start_a, end_a, start_b, end_b : ndarray, shape (..., 3)
        Ends of the segments [mm]; the leading axes broadcast.

    Returns
    -------
    ndarray, shape (...)
        Distances [mm], never negative.

    Examples
    --------
    >>> float(segment_distance(
    ...     np.array([0.0, 0, 0]), np.array([0.0, 0, 9]),
    ...     np.array([3.0, 4, 0]), np.array([3.0, 4, 9])))
    5.0
    """
    on_a, on_b = nearest_on_segments(start_a, end_a, start_b, end_b)
    return np.asarray(np.linalg.norm(on_a - on_b, axis=-1))
