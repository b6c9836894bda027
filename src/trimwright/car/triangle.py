"""A piecewise flat surface over a few scattered points, as weights of the points."""

from itertools import combinations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

FLAT = 1.0  # mm2: a triangle smaller than this is a line


def triangles(places: Floats) -> NDArray[np.intp]:
    """Return the triangles (t, 3) over places (n, 2) that no other place's circle test breaks.

    The lower hull of the places lifted to x^2 + y^2. Places on one circle are told apart by a
    tiny lift that grows with their number, so that a grid too has one answer.

    Examples
    --------
    >>> len(triangles(np.array([[0.0, 0], [10, 0], [10, 10], [0, 10]])))
    2
    """
    count = len(places)
    if count < 3:  # noqa: PLR2004  a triangle
        return np.zeros((0, 3), dtype=np.intp)
    size = float(np.ptp(places, axis=0).max())
    centred = places - places.mean(axis=0)
    number = np.arange(count)
    lift = (centred**2).sum(axis=1) + 1e-7 * size**2 * (number**2 % 97) / 97
    all_of = np.array(list(combinations(range(count), 3)), dtype=np.intp)
    a, b, c = (centred[all_of[:, k]] for k in range(3))
    area = (b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]
    all_of = all_of[np.abs(area) > 2 * FLAT]
    if not len(all_of):
        return np.asarray(all_of)
    corners = np.concatenate([centred[all_of], np.ones((*all_of.shape, 1))], axis=-1)
    plane = np.linalg.solve(corners, lift[all_of][..., None])[..., 0]
    on_plane = plane[:, :2] @ centred.T + plane[:, 2:]
    above = lift - on_plane >= -1e-9 * size**2
    return np.asarray(all_of[above.all(axis=1)])


def weights(places: Floats, faces: NDArray[np.intp], x: Floats) -> tuple[Floats, Floats]:
    """Return weights (n, p) of the places (p, 2) at `x` (n, 2), and how far outside (n,) [mm].

    Outside all triangles the one whose edge is passed least runs on flat.
    """
    a = places[faces[:, 0]]
    edges = np.stack([places[faces[:, 1]] - a, places[faces[:, 2]] - a], axis=-1)
    inverse = np.linalg.inv(edges)
    local = np.einsum("tij,ntj->nti", inverse, x[:, None] - a)
    parts = np.concatenate([1 - local.sum(axis=-1, keepdims=True), local], axis=-1)
    # a barycentric part times the height on that corner is the distance past the opposite edge
    rows = np.concatenate([-inverse.sum(axis=1, keepdims=True), inverse], axis=1)
    past = np.maximum(-parts / np.linalg.norm(rows, axis=-1), 0.0).max(axis=-1)
    best = np.argmin(past.round(9), axis=1)
    pick = np.arange(len(x))
    found = np.zeros((len(x), len(places)))
    for corner in range(3):
        found[pick, faces[best, corner]] += parts[pick, best, corner]
    return found, past[pick, best]
