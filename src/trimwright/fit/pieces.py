"""A flat panel cut into convex pieces: strips across its length, split beside its holes."""

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from trimwright.fit.convex import Piece, prism

Floats = NDArray[np.float64]
STRIPS = 16  # at least, over a panel's length
NARROWEST_MM = 0.5  # no strip is narrower than this


def crossings(outline: Floats, u: Floats) -> Floats:
    """Return the lowest and highest v at which an outline crosses places along it.

    Parameters
    ----------
    outline : ndarray, shape (n, 2)
        A closed outline [mm], the last point not repeated.
    u : ndarray, shape (m,)
        Within its length [mm].

    Returns
    -------
    ndarray, shape (m, 2)
        Lowest and highest [mm].

    Raises
    ------
    ValueError
        If the outline does not reach one of the places.

    Examples
    --------
    >>> crossings(np.array([[0.0, 0], [10, 0], [10, 8], [0, 4]]), np.array([5.0])).tolist()
    [[0.0, 6.0]]
    """
    start, end = outline, np.roll(outline, -1, axis=0)
    low, high = np.minimum(start[:, 0], end[:, 0]), np.maximum(start[:, 0], end[:, 0])
    met = (low <= u[:, None]) & (u[:, None] <= high)
    if not met.any(axis=1).all():
        raise ValueError(f"u must be within the outline, got {u[~met.any(axis=1)][0]:g}")
    run = end[:, 0] - start[:, 0]
    upright = run == 0
    share = np.where(upright, 0.0, (u[:, None] - start[:, 0]) / np.where(upright, 1.0, run))
    v = start[:, 1] + share * (end[:, 1] - start[:, 1])
    other = np.where(upright, end[:, 1], v)
    lowest = np.where(met, np.minimum(v, other), np.inf).min(axis=1)
    highest = np.where(met, np.maximum(v, other), -np.inf).max(axis=1)
    return np.stack([lowest, highest], axis=-1)


def _let_out(outline: Floats, band: Floats, first: float, last: float) -> Floats:
    """Return v low and high at both ends of a strip, let out to hold what bulges between."""
    (low_a, high_a), (low_b, high_b) = band
    inside = outline[(outline[:, 0] > first) & (outline[:, 0] < last)]
    if not len(inside):
        return band
    share = (inside[:, 0] - first) / (last - first)
    line_low = low_a + share * (low_b - low_a)
    line_high = high_a + share * (high_b - high_a)
    under = inside[:, 1] <= 0.5 * (line_low + line_high)
    down = max(0.0, float(np.max((line_low - inside[:, 1])[under], initial=0.0)))
    up = max(0.0, float(np.max((inside[:, 1] - line_high)[~under], initial=0.0)))
    return np.asarray(band + np.array([-down, up]))


def stations(outline: Floats, holes: tuple[Floats, ...]) -> Floats:
    """Return where to cut a panel: evenly, and at the ends of its holes."""
    first, last = float(outline[:, 0].min()), float(outline[:, 0].max())
    ends = [float(e) for hole in holes for e in (hole[:, 0].min(), hole[:, 0].max())]
    fixed = sorted({first, last, *(e for e in ends if first < e < last)})
    cuts = [fixed[0]]
    for start, end in pairwise(fixed):
        count = max(1, round(STRIPS * (end - start) / (last - first)))
        steps = start + (end - start) * np.arange(1, count + 1) / count
        cuts += [float(s) for s in steps if s - cuts[-1] > NARROWEST_MM]
    return np.array(cuts)


def panel_pieces(
    inner: Floats, outer: Floats, holes: tuple[Floats, ...], to_car: tuple[Floats, Floats]
) -> tuple[Piece, ...]:
    """Return convex pieces that together hold a panel.

    Straight strips lean outward where the outline bulges, so room to them is never overstated; a
    hole is left free over the rectangle around it, its round corners counted as free.

    Parameters
    ----------
    inner, outer : ndarray, shape (n, 2)
        Outlines of either face [mm], along and up or across.
    holes : tuple of ndarray, shape (m, 2)
        Holes through the panel.
    to_car : tuple of ndarray, shape (2, 4, 3)
        For the inner and the outer face: origin, along, up, as rows of a (3, 3) array.

    Returns
    -------
    tuple of Piece
        In the car's axes [mm].
    """
    cuts = stations(np.concatenate([inner, outer]), holes)
    cuts = np.clip(
        cuts, max(inner[:, 0].min(), outer[:, 0].min()), min(inner[:, 0].max(), outer[:, 0].max())
    )
    found: list[Piece] = []
    across = [(outline, crossings(outline, cuts)) for outline in (inner, outer)]
    for k, (first, last) in enumerate(pairwise(cuts.tolist())):
        if last - first <= NARROWEST_MM:
            continue
        bands = [_let_out(outline, v[k : k + 2], first, last) for outline, v in across]
        free = _beside_holes(holes, first, last, bands)
        found.extend(_block((first, last), shares, to_car) for shares in free)
    return tuple(found)


def _beside_holes(
    holes: tuple[Floats, ...], first: float, last: float, bands: list[Floats]
) -> list[list[Floats]]:
    """Return the bands of a strip, both faces, without what its holes take out."""
    middle = 0.5 * (first + last)
    taken = [
        (float(h[:, 1].min()), float(h[:, 1].max()))
        for h in holes
        if h[:, 0].min() < middle < h[:, 0].max()
    ]
    free = [bands]
    for low, high in sorted(taken):
        left = [np.stack([b[:, 0], np.minimum(b[:, 1], low)], axis=-1) for b in free[-1]]
        right = [np.stack([np.maximum(b[:, 0], high), b[:, 1]], axis=-1) for b in free[-1]]
        free[-1:] = [left, right]
    return [f for f in free if all((b[:, 1] - b[:, 0]).min() > NARROWEST_MM for b in f)]


def _block(ends: tuple[float, float], bands: list[Floats], to_car: tuple[Floats, Floats]) -> Piece:
    """Return one strip as a block in the car's axes."""
    faces = []
    for band, axes in zip(bands, to_car, strict=True):
        (a, b), (c, d) = band
        flat = np.array([[ends[0], a], [ends[1], c], [ends[1], d], [ends[0], b]])
        faces.append(axes[0] + flat @ axes[1:])
    return prism(faces[0], faces[1])
