"""Panels that were measured when finished: how much taller one may be than it reads."""

import numpy as np
from numpy.typing import NDArray

from trimwright.build import AsBuilt
from trimwright.car import World

Floats = NDArray[np.float64]


def _means(item: AsBuilt, panel: str) -> bool:
    """Return whether a reading is of a panel, or of the run of panels it is one of."""
    rest = panel.removeprefix(item.panel)
    return panel == item.panel or (rest != panel and rest[:1] == " " and rest[1:].isdigit())


def taller_mm(world: World, panels: tuple[str, ...], edge: NDArray[np.int64], x: Floats) -> Floats:
    """Return how much taller each panel is at points of its edge than was read of it.

    Parameters
    ----------
    world : World
        Deviations, those of the readings of finished heights among them.
    panels : tuple of str
        The panel of each edge.
    edge : ndarray of int, shape (n,)
        Which edge each point belongs to.
    x : ndarray, shape (n,)
        Where it is, along the car [mm]; between two readings it is even.

    Returns
    -------
    ndarray, shape (rows, n)
        Heights [mm], 0 where nothing was read.
    """
    more = np.zeros((world.rows, len(x)))
    console = world.build.console
    read = [one for one in console.as_built if one.what == "height"] if console else []
    for k, panel in enumerate(panels):
        items = sorted(
            (one for one in read if _means(one, panel)),
            key=lambda one: one.at.value if one.at else 0.0,
        )
        if items:
            here = edge == k
            off = np.stack([world.read(one, "reads") - one.reads.value for one in items], axis=-1)
            at = np.array([one.at.value if one.at else 0.0 for one in items])
            share = np.stack([np.interp(x[here], at, unit) for unit in np.eye(len(items))], axis=0)
            more[:, here] = off @ share
    return more
