"""How far apart two convex bodies are, with a sign: below 0, how deep they overlap.

For convex bodies the signed distance is the largest, over all directions n, of the room between
them along n. A few directions therefore never promise more room than there is, which is how many
rows are done at once: `room_along` with the directions found for the nominal row.
"""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.fit.nearest import THINNEST, Skin, cross, nearest_points

Floats = NDArray[np.float64]
Indices = NDArray[np.int64]


class Piece(Struct, frozen=True, eq=False):
    """A convex body: a block, a prism or a rod, with an even coat around it.

    Attributes
    ----------
    corners : ndarray, shape (v, 3)
        Corners [mm].
    triangles : ndarray of int, shape (t, 3)
        Skin, as corner indices; empty for a rod.
    edges : ndarray of int, shape (e, 2)
        Edges, as corner indices.
    coat : float
        Radius of a rod or thickness of a coat [mm].
    """

    corners: Floats
    triangles: Indices
    edges: Indices
    coat: float = 0.0

    @property
    def skin(self) -> Skin:
        """Triangles and edges, as corner indices."""
        return self.triangles, self.edges


def rod(start: Floats, end: Floats, radius_mm: float) -> Piece:
    """Return a rod with round ends."""
    none = np.zeros((0, 3), dtype=np.int64)
    return Piece(np.stack([start, end]), none, np.array([[0, 1]]), radius_mm)


def prisms(near: Floats, far: Floats) -> tuple[Piece, ...]:
    """Return bodies, each between two convex outlines with matching corners.

    Parameters
    ----------
    near, far : ndarray, shape (n, k, 3)
        Corners of either end of each, in the same order [mm].

    Returns
    -------
    tuple of Piece
        With their skin in triangles; twisted sides keep both their diagonals' corners.
    """
    skin = _prism_skin(near.shape[1])
    return tuple(Piece(corners, *skin) for corners in np.concatenate([near, far], axis=1))


@lru_cache(maxsize=16)
def _prism_skin(n: int) -> tuple[Indices, Indices]:
    """Return triangles and edges of a prism with n corners at either end."""
    after = [(i + 1) % n for i in range(n)]
    caps = [(0, i, i + 1) for i in range(1, n - 1)]
    caps += [(n, n + i + 1, n + i) for i in range(1, n - 1)]
    sides = [(i, n + i, after[i]) for i in range(n)]
    sides += [(after[i], n + i, n + after[i]) for i in range(n)]
    rims = [(i, after[i]) for i in range(n)] + [(n + i, n + after[i]) for i in range(n)]
    triangles = np.array(caps + sides, dtype=np.int64)
    edges = np.array(rims + [(i, n + i) for i in range(n)], dtype=np.int64)
    for indices in (triangles, edges):
        indices.setflags(write=False)
    return triangles, edges


class Separation(Struct, frozen=True, eq=False):
    """Signed distance [mm], the direction from a to b, and the nearest point on each."""

    distance: float
    direction: Floats
    on_a: Floats
    on_b: Floats


def _unit(vectors: Floats) -> Floats:
    """Return the vectors that have a direction, at length 1."""
    size = np.sqrt((vectors * vectors).sum(axis=-1))
    long = size > THINNEST
    if not long.all():
        vectors, size = vectors[long], size[long]
    return np.asarray(vectors / size[..., None])


def _face_normals(piece: Piece) -> Floats:
    a, b, c = (piece.corners[piece.triangles[:, i]] for i in range(3))
    return _unit(cross(b - a, c - a))


def _edge_ways(piece: Piece) -> Floats:
    return _unit(piece.corners[piece.edges[:, 1]] - piece.corners[piece.edges[:, 0]])


def candidate_directions(a: Piece, b: Piece) -> Floats:
    """Return the directions among which the deepest overlap's is, both ways round, shape (n, 3).

    These are the face normals of the difference of two polytopes: of either's faces, and across
    each pair of edges.
    """
    ways = cross(_edge_ways(a)[:, None], _edge_ways(b)[None]).reshape(-1, 3)
    some = np.concatenate([_face_normals(a), _face_normals(b), _unit(ways)])
    return np.concatenate([some, -some])


def room_along(a: Floats, b: Floats, directions: Floats) -> Floats:
    """Return the room between two sets of corners along some directions.

    Parameters
    ----------
    a, b : ndarray, shape (rows, v, 3) or (v, 3)
        Corners of the bodies [mm].
    directions : ndarray, shape (n, 3)
        Unit vectors from a to b.

    Returns
    -------
    ndarray, shape (rows, n) or (n,)
        Room [mm], never more than the bodies' signed distance.
    """
    return np.asarray((b @ directions.T).min(axis=-2) - (a @ directions.T).max(axis=-2))


def separation(a: Piece, b: Piece) -> Separation:
    """Return the exact signed distance of two convex bodies.

    Examples
    --------
    >>> upright = rod(np.array([0.0, 0, -50]), np.array([0.0, 0, 50]), 10.0)
    >>> across = rod(np.array([60.0, -50, 0]), np.array([60.0, 50, 0]), 15.0)
    >>> round(separation(upright, across).distance, 6)
    35.0
    """
    directions = candidate_directions(a, b)
    room = room_along(a.corners, b.corners, directions)
    coat = a.coat + b.coat
    if len(room) and room.max() <= 0:
        way = directions[int(np.argmax(room))]
        on_a = a.corners[int(np.argmax(a.corners @ way))]
        return Separation(float(room.max()) - coat, way, on_a, on_a + float(room.max()) * way)
    found = apart([a], [b])[0]
    if found is not None:
        return found
    way = directions[int(np.argmax(room))]
    return Separation(-coat, way, *(one[0] for one in _nearest([a], [b])))


def apart(some: Sequence[Piece], others: Sequence[Piece]) -> list[Separation | None]:
    """Return the exact distances of pairs of bodies whose bare corners do not overlap.

    None for a pair that touches: its nearest points then tell no direction.

    Parameters
    ----------
    some, others : sequence of Piece
        One of each to a pair; all of `some` have one skin, and all of `others`.
    """
    found: list[Separation | None] = []
    for a, b, on_a, on_b in zip(some, others, *_nearest(some, others), strict=True):
        far = float(np.linalg.norm(on_b - on_a))
        touch = far <= THINNEST
        coat = a.coat + b.coat
        found.append(None if touch else Separation(far - coat, (on_b - on_a) / far, on_a, on_b))
    return found


def _nearest(some: Sequence[Piece], others: Sequence[Piece]) -> tuple[Floats, Floats]:
    """Return the nearest points of pairs that do not overlap, shape (pairs, 3) each."""
    a, b = (np.array([piece.corners for piece in pieces]) for pieces in (some, others))
    return nearest_points(a, b, some[0].skin, others[0].skin)
