"""How far apart two convex bodies are, with a sign: below 0, how deep they overlap.

For convex bodies the signed distance is the largest, over all directions n, of the room between
them along n. A few directions therefore never promise more room than there is, which is how many
rows are done at once: `room_along` with the directions found for the nominal row.
"""

from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from trimwright.fit.segment import nearest_on_segments

Floats = NDArray[np.float64]
Indices = NDArray[np.int64]
THINNEST = 1e-12  # a cross product shorter than this gives no direction


@dataclass(frozen=True, slots=True)
class Piece:
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

    corners: Floats = field(compare=False)
    triangles: Indices = field(compare=False)
    edges: Indices = field(compare=False)
    coat: float = 0.0


def rod(start: Floats, end: Floats, radius_mm: float) -> Piece:
    """Return a rod with round ends."""
    none = np.zeros((0, 3), dtype=np.int64)
    return Piece(np.stack([start, end]), none, np.array([[0, 1]]), radius_mm)


def prism(near: Floats, far: Floats) -> Piece:
    """Return the body between two convex outlines with matching corners.

    Parameters
    ----------
    near, far : ndarray, shape (n, 3)
        Corners of either end, in the same order [mm].

    Returns
    -------
    Piece
        With its skin in triangles; twisted sides keep both their diagonals' corners.
    """
    return Piece(np.concatenate([near, far]), *_prism_skin(len(near)))


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


@dataclass(frozen=True, slots=True)
class Separation:
    """Signed distance [mm], the direction from a to b, and the nearest point on each."""

    distance: float
    direction: Floats = field(compare=False)
    on_a: Floats = field(compare=False)
    on_b: Floats = field(compare=False)


def _unit(vectors: Floats) -> Floats:
    """Return the vectors that have a direction, at length 1."""
    size = np.linalg.norm(vectors, axis=-1)
    return np.asarray(vectors[size > THINNEST] / size[size > THINNEST, None])


def _cross(a: Floats, b: Floats) -> Floats:
    """Return the cross products over the last axis; numpy's own takes five times as long here."""
    ax, ay, az = a[..., 0], a[..., 1], a[..., 2]
    bx, by, bz = b[..., 0], b[..., 1], b[..., 2]
    return np.stack([ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx], axis=-1)


def _face_normals(piece: Piece) -> Floats:
    a, b, c = (piece.corners[piece.triangles[:, i]] for i in range(3))
    return _unit(_cross(b - a, c - a))


def _edge_ways(piece: Piece) -> Floats:
    return _unit(piece.corners[piece.edges[:, 1]] - piece.corners[piece.edges[:, 0]])


def candidate_directions(a: Piece, b: Piece) -> Floats:
    """Return the directions among which the deepest overlap's is, both ways round, shape (n, 3).

    These are the face normals of the difference of two polytopes: of either's faces, and across
    each pair of edges.
    """
    ways = _cross(_edge_ways(a)[:, None], _edge_ways(b)[None]).reshape(-1, 3)
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
    found = apart(a, b)
    if found is not None:
        return found
    way = directions[int(np.argmax(room))]
    return Separation(-coat, way, *_nearest(a, b))


def apart(a: Piece, b: Piece) -> Separation | None:
    """Return the exact distance of two bodies whose bare corners do not overlap.

    None where they touch: their nearest points then tell no direction.
    """
    on_a, on_b = _nearest(a, b)
    far = float(np.linalg.norm(on_b - on_a))
    if far <= THINNEST:
        return None
    return Separation(far - a.coat - b.coat, (on_b - on_a) / far, on_a, on_b)


def _nearest(a: Piece, b: Piece) -> tuple[Floats, Floats]:
    """Return the nearest points of two bodies that do not overlap."""
    rods_a, rods_b = a.corners[a.edges], b.corners[b.edges]
    pairs = nearest_on_segments(
        rods_a[:, None, 0], rods_a[:, None, 1], rods_b[None, :, 0], rods_b[None, :, 1]
    )
    found = [(p.reshape(-1, 3), q.reshape(-1, 3)) for p, q in [pairs]]
    found.append(_corners_over_faces(a, b))
    over_b, on_b = _corners_over_faces(b, a)
    found.append((on_b, over_b))
    on_a = np.concatenate([p for p, _ in found])
    on_b = np.concatenate([q for _, q in found])
    best = int(np.argmin(np.linalg.norm(on_b - on_a, axis=-1)))
    return on_a[best], on_b[best]


def _corners_over_faces(a: Piece, b: Piece) -> tuple[Floats, Floats]:
    """Return the corners of a that stand over a triangle of b, and the foot of each."""
    p, q, r = (b.corners[b.triangles[:, i]] for i in range(3))
    normal = _cross(q - p, r - p)
    square = np.einsum("tk,tk->t", normal, normal)
    flat = square > THINNEST**2
    p, q, r, normal, square = p[flat], q[flat], r[flat], normal[flat], square[flat]
    to = a.corners[:, None] - p
    foot = a.corners[:, None] - (np.einsum("vtk,tk->vt", to, normal) / square)[..., None] * normal
    inside = np.ones(foot.shape[:2], dtype=bool)
    for start, end in ((p, q), (q, r), (r, p)):
        inside &= (
            np.einsum(
                "tvk,tk->tv", _cross(end - start, (foot - start)).transpose(1, 0, 2), normal
            ).T
            >= 0
        )
    over = np.broadcast_to(a.corners[:, None], foot.shape)
    return over[inside], foot[inside]
