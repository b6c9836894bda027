"""Reliefs in a panel's lower edge: cut out over a loom that lies under the carpet."""

import numpy as np
from numpy.typing import NDArray

from trimwright.cabin import Cabin
from trimwright.car import Ridge
from trimwright.parts import LowerEdge, Panel

Floats = NDArray[np.float64]
FLATTEST = 0.35  # sine of the angle to the edge below which a loom runs along it, not across


def reliefs(cabin: Cabin, panel: Panel) -> tuple[tuple[tuple[float, float], ...], ...]:
    """Return the outline of each relief of a panel, in the panel's own plane [mm], open below.

    Parameters
    ----------
    cabin : Cabin
        With its carcass and what lies under its carpet.
    panel : Panel
        One of the carcass.
    """
    edges = () if cabin.carcass is None else cabin.carcass.lower_edges
    own = cabin.build.car.carpet
    soft = 0.0 if own is None or own.loose is None else own.loose.value
    return tuple(
        outline
        for edge in edges
        if edge.panel == panel.name
        for ridge in cabin.ridges
        if ridge.relieved
        for outline in _over(ridge, edge, panel, soft)
    )


def _over(
    ridge: Ridge, edge: LowerEdge, panel: Panel, soft_mm: float
) -> tuple[tuple[tuple[float, float], ...], ...]:
    """Return the reliefs of one edge over one ridge."""
    found = []
    flat = panel.frame.flat(edge.outer)[:, :2]
    for place in ridge.crossed(edge.outer[:, :2]):
        near = int(np.argmin(np.linalg.norm(edge.outer[:, :2] - place, axis=1)))
        first = min(max(near - 1, 0), len(flat) - 2)
        last = min(first + 2, len(flat) - 1)
        way = edge.outer[last, :2] - edge.outer[first, :2]
        slant = max(ridge.slant(place, way), FLATTEST)
        along = (flat[last] - flat[first]) / np.linalg.norm(flat[last] - flat[first])
        share = np.linalg.norm(place - edge.outer[first, :2]) / np.linalg.norm(way)
        at = flat[first] + share * (flat[last] - flat[first])
        half = along * ridge.reach_mm(soft_mm) / slant
        up = np.array([-along[1], along[0]])
        up = up * ridge.high_mm * (1.0 if up[1] > 0 else -1.0)
        corners = (at - half, at - half + up, at + half + up, at + half)
        found.append(tuple((float(u), float(v)) for u, v in corners))
    return tuple(found)
