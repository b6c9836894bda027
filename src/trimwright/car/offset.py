"""A skin moved off along its normals, with the folds that hollow places make clipped off."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

WINDOW = 60  # points either side of a fold among which its two branches are sought


def offset_grid(points: Floats, normals: Floats, off: Floats) -> Floats:
    """Return points (a, b, 3) moved by `off` (a,) along `normals` (a, b, 3), clipped row by row."""
    moved = points + off[:, None, None] * normals
    steps = np.diff(points[..., 1:], axis=1)
    back = (np.diff(moved[..., 1:], axis=1) * steps).sum(axis=-1) < 0
    for row in np.flatnonzero(back.any(axis=1)):
        moved[row] = clipped(moved[row], back[row])
    return moved


def clipped(line: Floats, back: NDArray[np.bool_]) -> Floats:
    """Return a line (b, 3) whose swallowtails, steps that run `back` (b - 1,), are cut off.

    The points of a tail move to where its two branches cross, so that the count stays.
    """
    line = line.copy()
    edges = np.flatnonzero(np.diff(np.concatenate([[0], back.astype(np.int8), [0]])))
    for first, last in zip(edges[::2], edges[1::2], strict=True):
        before = np.arange(max(first - WINDOW, 0), first)
        after = np.arange(last, min(last + WINDOW, len(back)))
        cross = _crossing(line[:, 1:], before, after)
        if cross is not None:
            i, j, share = cross
            line[i + 1 : j + 1] = line[i] + share * (line[i + 1] - line[i])
    return line


def _crossing(
    line: Floats, before: NDArray[np.intp], after: NDArray[np.intp]
) -> tuple[int, int, float] | None:
    """Return the steps i, j whose segments cross, farthest out, and the share along step i."""
    if not len(before) or not len(after):
        return None
    a, u = line[before][:, None], (line[before + 1] - line[before])[:, None]
    b, v = line[after][None], (line[after + 1] - line[after])[None]
    det = u[..., 0] * v[..., 1] - u[..., 1] * v[..., 0]
    safe = np.where(np.abs(det) < 1e-12, np.nan, det)  # noqa: PLR2004  parallel
    w = b - a
    s = (w[..., 0] * v[..., 1] - w[..., 1] * v[..., 0]) / safe
    t = (w[..., 0] * u[..., 1] - w[..., 1] * u[..., 0]) / safe
    found = np.argwhere((s >= 0) & (s <= 1) & (t >= 0) & (t <= 1))
    if not len(found):
        return None
    i, j = found[0]
    return int(before[i]), int(after[j]), float(s[i, j])
