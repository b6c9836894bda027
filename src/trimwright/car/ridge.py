"""A ridge under the carpet: something long and thin that lies on the metal, such as a loom."""

from itertools import pairwise

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

Floats = NDArray[np.float64]
EVERY_MM = 8.0  # between points of its line on the metal, at most


class Ridge(Struct, frozen=True):
    """A ridge that does not give, with rounded flanks; the carpet over it does.

    Parameters
    ----------
    path : tuple of (float, float)
        Places along and across the car that it runs straight between, in plan [mm].
    high_mm, wide_mm : float
        How high and how wide it is, wide at least as much as high [mm].
    relieved : bool, default False
        Whether edges are cut out over it, so that they do not stand on it.
    """

    path: tuple[tuple[float, float], ...]
    high_mm: float
    wide_mm: float
    relieved: bool = False

    def plan(self) -> Floats:
        """Return points along it in plan, shape (n, 2) [mm]."""
        corners = np.array(self.path)
        steps = [corners[:1]]
        for start, end in pairwise(corners):
            count = max(1, int(np.ceil(np.linalg.norm(end - start) / EVERY_MM)))
            share = np.arange(1, count + 1)[:, None] / count
            steps.append(start + share * (end - start))
        return np.concatenate(steps)

    def crossed(self, line: Floats) -> Floats:
        """Return where in plan it crosses a line through points (n, 2), shape (m, 2) [mm].

        Examples
        --------
        >>> ridge = Ridge(((300.0, -90.0), (300.0, 90.0)), 8.0, 8.0)
        >>> ridge.crossed(np.array([[0.0, 50.0], [200.0, 50.0], [600.0, 50.0]])).tolist()
        [[300.0, 50.0]]
        """
        found = []
        for start, end in pairwise(np.array(self.path)):
            for one, other in pairwise(line):
                own, theirs = end - start, other - one
                cross = own[0] * theirs[1] - own[1] * theirs[0]
                if not cross:
                    continue
                gap = one - start
                along = (gap[0] * theirs[1] - gap[1] * theirs[0]) / cross
                beside = (gap[0] * own[1] - gap[1] * own[0]) / cross
                if 0 <= along <= 1 and 0 <= beside < 1:
                    found.append(start + along * own)
        return np.array(found).reshape(-1, 2)

    def slant(self, place: Floats, way: Floats) -> float:
        """Return the sine of the angle between it, at a place (2,), and a way (2,) in plan."""
        corners = np.array(self.path)
        legs = corners[1:] - corners[:-1]
        share = np.einsum("nk,nk->n", place - corners[:-1], legs) / np.einsum(
            "nk,nk->n", legs, legs
        )
        foot = corners[:-1] + np.clip(share, 0.0, 1.0)[:, None] * legs
        leg = legs[int(np.argmin(np.linalg.norm(foot - place, axis=1)))]
        across = abs(float(leg[0] * way[1] - leg[1] * way[0]))
        return across / float(np.linalg.norm(leg) * np.linalg.norm(way))

    def reach_mm(self, soft_mm: float) -> float:
        """Return how far beside its middle it raises a carpet of a thickness at all [mm].

        Examples
        --------
        >>> Ridge(((0.0, 0.0), (9.0, 0.0)), 8.0, 8.0).reach_mm(16.0)
        16.0
        """
        radius = self.high_mm / 2
        flat = max(self.wide_mm / 2 - radius, 0.0)
        over = np.sqrt(radius * soft_mm) * 2 if soft_mm >= radius else radius + soft_mm
        return flat + float(over)

    def rise(self, off_mm: Floats, soft_mm: Floats) -> Floats:
        """Return how far it raises the top of a carpet that lies over it, (rows, n) [mm].

        Carpet t thick on a round of radius r is a round of radius r + t, on flat metal flat: where
        they cross the carpet leaves the metal.

        Parameters
        ----------
        off_mm : ndarray, shape (n,)
            Distance along the metal from the ridge's middle line [mm].
        soft_mm : ndarray, shape (rows,)
            The carpet's loose thickness [mm].

        Examples
        --------
        >>> ridge = Ridge(((0.0, 0.0), (9.0, 0.0)), 8.0, 8.0)
        >>> ridge.rise(np.array([0.0, 12.0, 16.0, 40.0]), np.array([16.0])).round(6).tolist()
        [[8.0, 4.0, 0.0, 0.0]]
        """
        radius, thick = self.high_mm / 2, soft_mm[:, None]
        beside = np.maximum(off_mm - max(self.wide_mm / 2 - radius, 0.0), 0.0)
        under = (radius + thick) ** 2 - beside**2
        up = radius - thick + np.sqrt(np.maximum(under, 0.0))
        return np.asarray(np.where(under > 0, np.maximum(up, 0.0), 0.0))


class Ridged(Struct, frozen=True, eq=False):
    """Points with a ridge near them: how far each is off its middle line, shape (n,) [mm]."""

    ridge: Ridge
    off_mm: Floats

    def some(self, which: NDArray[np.bool_]) -> "Ridged":
        """Return some of the points."""
        return Ridged(self.ridge, self.off_mm[which])


def off_line(points: Floats, line: Floats) -> Floats:
    """Return how far points (n, 3) are from a line through points (m, 3), shape (n,) [mm].

    Endless where the line has fewer than two points.
    """
    nearest = np.full(len(points), np.inf)
    for start, end in pairwise(line):
        way = end - start
        square = float(way @ way)
        share = np.clip((points - start) @ way / square, 0.0, 1.0) if square else 0.0
        foot = start + np.multiply.outer(share, way)
        nearest = np.minimum(nearest, np.linalg.norm(points - foot, axis=1))
    return np.asarray(nearest)


def raised(ridged: tuple[Ridged, ...], soft_mm: Floats) -> Floats | float:
    """Return how far ridges raise the carpet at points, (rows, n) [mm]; 0 where there is none."""
    up: Floats | float = 0.0
    for one in ridged:
        up = np.maximum(up, one.ridge.rise(one.off_mm, soft_mm))
    return up
