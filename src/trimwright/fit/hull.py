"""The skin of a convex body that is known by its corners only."""

from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from trimwright.fit.convex import Piece

Floats = NDArray[np.float64]
FLAT_MM = 1e-6  # a corner this close to a face lies in it
MOST = 60  # corners; all triples of them are looked at


def hull(corners: Floats) -> Piece:
    """Return the convex body whose corners are given.

    Parameters
    ----------
    corners : ndarray, shape (v, 3)
        Corners [mm], 4 to 60 of them, not all in one plane; any inside are kept but do not count.

    Raises
    ------
    ValueError
        If there are too many corners, or they lie in one plane.

    Examples
    --------
    >>> box = np.array([[x, y, z] for x in (0.0, 4) for y in (0.0, 3) for z in (0.0, 2)])
    >>> piece = hull(box)
    >>> len(piece.triangles), len(piece.edges)
    (12, 12)
    """
    if len(corners) > MOST:
        raise ValueError(f"corners must be {MOST} at most, got {len(corners)}")
    faces = _faces(corners)
    if len(faces) < 4:  # noqa: PLR2004  a tetrahedron has the fewest faces
        raise ValueError("corners must not lie in one plane")
    triangles, edges = [], set()
    for normal, members in faces:
        ring = _ring(corners, normal, members)
        triangles += [(ring[0], ring[i], ring[i + 1]) for i in range(1, len(ring) - 1)]
        pairs = zip(ring, [*ring[1:], ring[0]], strict=True)
        edges |= {(min(a, b), max(a, b)) for a, b in pairs}
    return Piece(corners, np.array(triangles), np.array(sorted(edges)))


def _faces(corners: Floats) -> list[tuple[Floats, list[int]]]:
    """Return each face once: its outward normal and the corners in it."""
    triples = np.array(list(combinations(range(len(corners)), 3)))
    a, b, c = (corners[triples[:, i]] for i in range(3))
    normal = np.cross(b - a, c - a)
    size = np.linalg.norm(normal, axis=1)
    spans = size > FLAT_MM
    normal, a = normal[spans] / size[spans, None], a[spans]
    height = corners @ normal.T - np.einsum("tk,tk->t", a, normal)
    under, over = (height <= FLAT_MM).all(axis=0), (height >= -FLAT_MM).all(axis=0)
    found: dict[tuple[int, ...], Floats] = {}
    for t in np.flatnonzero(under ^ over):
        members = tuple(int(i) for i in np.flatnonzero(np.abs(height[:, t]) <= FLAT_MM))
        found.setdefault(members, normal[t] if under[t] else -normal[t])
    return [(found[members], list(members)) for members in sorted(found)]


def _ring(corners: Floats, normal: Floats, members: list[int]) -> list[int]:
    """Return a face's corners in order round it, those inside or on a side left out."""
    flat = corners[members] - corners[members].mean(axis=0)
    u = flat[int(np.argmax(np.linalg.norm(flat, axis=1)))]
    u = u / np.linalg.norm(u)
    v = np.cross(normal, u)
    plan = np.stack([flat @ u, flat @ v], axis=-1)
    turn = np.argsort(np.arctan2(plan[:, 1], plan[:, 0]), kind="stable")
    ring = [members[i] for i in turn]
    kept = []
    for i, here in enumerate(ring):
        before, after = corners[ring[i - 1]], corners[ring[(i + 1) % len(ring)]]
        bend = np.cross(corners[here] - before, after - corners[here]) @ normal
        if bend > FLAT_MM:
            kept.append(here)
    return kept
