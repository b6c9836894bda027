"""A flat panel cut into convex pieces: strips across its length, split beside its holes."""

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from trimwright.fit.convex import Piece, prisms

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


def _let_out(outline: Floats, cuts: Floats, across: Floats) -> Floats:
    """Return v low and high at both ends of every strip, let out to hold what bulges between.

    `across` (m, 2) is v low and high at the cuts (m,); the strips are (m - 1, 2 ends, 2).
    """
    bands = np.stack([across[:-1], across[1:]], axis=1)
    u, v = outline.T
    strip = np.clip(np.searchsorted(cuts, u) - 1, 0, len(cuts) - 2)
    share = (u - cuts[strip]) / np.maximum(np.diff(cuts)[strip], NARROWEST_MM)
    line = bands[strip, 0] + share[:, None] * (bands[strip, 1] - bands[strip, 0])
    under = v <= 0.5 * (line[:, 0] + line[:, 1])
    inside = (cuts[strip] < u) & (u < cuts[strip + 1])
    down, up = np.zeros(len(bands)), np.zeros(len(bands))
    low, high = inside & under, inside & ~under
    np.maximum.at(down, strip[low], line[low, 0] - v[low])
    np.maximum.at(up, strip[high], v[high] - line[high, 1])
    return np.asarray(bands + np.stack([-down, up], axis=-1)[:, None])


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
    both = np.stack(
        [_let_out(outline, cuts, crossings(outline, cuts)) for outline in (inner, outer)]
    )
    wide = np.diff(cuts) > NARROWEST_MM
    ends, bands = np.stack([cuts[:-1], cuts[1:]], axis=-1)[wide], both.swapaxes(0, 1)[wide]
    if holes and len(bands):
        ends, bands = _beside_holes(holes, ends, bands)
    whole = (bands[..., 1] - bands[..., 0]).min(axis=(1, 2)) > NARROWEST_MM
    return _blocks(ends[whole], bands[whole], to_car)


def _beside_holes(holes: tuple[Floats, ...], ends: Floats, bands: Floats) -> tuple[Floats, Floats]:
    """Return strips, `ends` (n, 2), `bands` (n, 2 faces, 2 ends, 2), without what holes take out."""
    kept: list[Floats] = []
    numbers: list[int] = []
    for k, band in enumerate(bands):
        middle = 0.5 * (ends[k, 0] + ends[k, 1])
        taken = [
            (float(h[:, 1].min()), float(h[:, 1].max()))
            for h in holes
            if h[:, 0].min() < middle < h[:, 0].max()
        ]
        free = [band]
        for low, high in sorted(taken):
            left, right = free[-1].copy(), free[-1].copy()
            left[..., 1] = np.minimum(left[..., 1], low)
            right[..., 0] = np.maximum(right[..., 0], high)
            free[-1:] = [left, right]
        kept += free
        numbers += [k] * len(free)
    return ends[numbers], np.stack(kept)


def _blocks(ends: Floats, bands: Floats, to_car: tuple[Floats, Floats]) -> tuple[Piece, ...]:
    """Return strips with ends (n, 2) and bands (n, 2, 2, 2) as blocks in the car's axes."""
    flat = np.empty((*bands.shape, 2))  # strip, face, end, low and high, u and v
    flat[..., 0], flat[..., 1] = ends[:, None, :, None], bands
    round_ = np.stack([flat[:, :, 0, 0], flat[:, :, 1, 0], flat[:, :, 1, 1], flat[:, :, 0, 1]], 2)
    faces = [axes[0] + round_[:, face] @ axes[1:] for face, axes in enumerate(to_car)]
    return prisms(faces[0], faces[1])
