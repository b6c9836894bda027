"""Gauss points along an edge over a ridge: close where the ridge raises the carpet, else as ever."""

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from trimwright.car import Tunnel
from trimwright.fit.bed import feet
from trimwright.fit.strip import LEAST_ALONG, Strip, edge_strip

Floats = NDArray[np.float64]
STEP_MM = 5.0  # of an edge at which it is asked how near a ridge is
CLOSE_MM, MOST_CLOSE = 2.0, 240  # of edge to a Gauss point over a ridge; points to a piece


def ridged_strip(
    lines: tuple[Floats, Floats], tunnel: Tunnel, *, across: int, step_mm: float
) -> Strip | None:
    """Return the points over the band between an edge's lines; None where no ridge is near.

    Parameters
    ----------
    lines : tuple of ndarray, shape (n, 3)
        The edge on the inner and on the outer face, point for point [mm].
    tunnel : Tunnel
        With its ridges.
    across : int
        Gauss points through the thickness.
    step_mm : float
        Of edge to a Gauss point where no ridge is [mm].
    """
    if not tunnel.ridges:
        return None
    inner, outer = _even(lines)
    near = _near((inner + outer) / 2, tunnel, float(np.linalg.norm(outer[0] - inner[0])))
    if not near.any():
        return None
    turns = np.flatnonzero(near[1:] != near[:-1]) + 1
    pieces = []
    for first, last in pairwise([0, *turns.tolist(), len(near) - 1]):
        if first == last:
            continue
        part = slice(first, last + 1)
        long = float(np.linalg.norm(np.diff(outer[part], axis=0), axis=1).sum())
        count = min(MOST_CLOSE, round(long / CLOSE_MM)) if near[first] else round(long / step_mm)
        along = max(LEAST_ALONG, count)
        pieces.append(edge_strip(inner[part], outer[part], across=across, along=along))
    return _joined(pieces)


def _even(lines: tuple[Floats, Floats]) -> tuple[Floats, Floats]:
    """Return both lines with points between theirs, so that none are further apart than a step."""
    inner, outer = lines
    steps = np.linalg.norm(np.diff(outer, axis=0), axis=1)
    places = [np.zeros(1)]
    for number, long in enumerate(steps.tolist()):
        count = max(1, int(np.ceil(long / STEP_MM)))
        places.append(number + np.arange(1, count + 1) / count)
    at, own = np.concatenate(places), np.arange(len(outer))
    even = (np.stack([np.interp(at, own, one[:, k]) for k in range(3)], axis=1) for one in lines)
    inner, outer = even
    return inner, outer


def _near(points: Floats, tunnel: Tunnel, thick_mm: float) -> NDArray[np.bool_]:
    """Return whether a ridge may raise the carpet at points on the middle of an edge, (n,)."""
    foot = feet(tunnel, points)
    on = np.column_stack([foot.spot.x, foot.y, foot.seen.z[0]])
    known = np.isfinite(on[:, 2])
    own = tunnel.car.carpet
    soft = own.loose.value if own is not None and own.loose is not None else 0.0
    near = np.zeros(len(points), dtype=bool)
    for one in tunnel.ridged(np.nan_to_num(on)):
        near |= known & (one.off_mm < one.ridge.reach_mm(soft) + thick_mm / 2 + STEP_MM)
    return near


def _joined(pieces: list[Strip]) -> Strip:
    """Return strips one after the other as one."""
    first, stations = 0, []
    for one in pieces:
        stations.append(one.station + first)
        first += int(one.station[-1]) + 1
    return Strip(
        np.concatenate([one.points for one in pieces]),
        np.concatenate([one.area for one in pieces]),
        np.concatenate(stations),
    )
