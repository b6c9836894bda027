"""The covered tunnel as the console's lower edges meet it."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.car import Drop, Plumb, Ridged, Tunnel, World, raised
from trimwright.fit.as_built import taller_mm
from trimwright.fit.pose import Contact
from trimwright.fit.rigid import turn
from trimwright.fit.strip import Strip

Floats = NDArray[np.float64]
FOOT_STEPS = 3  # fixed-point steps to the foot; each divides the miss by radius over thickness
NEXT_STEPS = 2  # towards a foot that was found from nearby
STEEPEST = 0.05  # upright part of a normal below which an edge is not counted as resting on it


class Bed(Struct, frozen=True, eq=False):
    """Contact points with the metal under each, square to it.

    Attributes
    ----------
    points : ndarray, shape (n, 3)
        On the edges, at the design place [mm].
    area : ndarray, shape (n,)
        Plan area each stands for [mm2].
    foot : ndarray, shape (n, 3)
        On the bare metal, straight under the point along the metal's normal [mm].
    plumb : Plumb
        The metal's height at each foot, world by world.
    edge, station : ndarray of int, shape (n,)
        Which strip each point belongs to, and which place along it (numbered through).
    panels : tuple of str
        The panel of each strip.
    ridged : tuple of Ridged
        How far each foot is from what lies on the metal under the carpet.
    """

    points: Floats
    area: Floats
    foot: Floats
    plumb: Plumb
    edge: NDArray[np.int64]
    station: NDArray[np.int64]
    panels: tuple[str, ...] = ()
    ridged: tuple[Ridged, ...] = ()

    @property
    def normal(self) -> Floats:
        """Unit normals of the metal at the feet, shape (n, 3)."""
        return np.asarray(self.plumb.normal)

    def clear(self) -> Floats:
        """Return how far each point stands off the metal along its normal, shape (n,) [mm]."""
        return np.asarray(np.einsum("nk,nk->n", self.points - self.foot, self.normal))

    def climb(self, motion: Floats, about: Floats) -> Floats:
        """Return how far each point rises off the bed's tangent plane, straight up, (rows, n) [mm].

        A point that slides along the bed meets it higher or lower by the bed's slope.

        Parameters
        ----------
        motion : ndarray, shape (rows, 3)
            Of the console, as in `rigid.turn`.
        about : ndarray, shape (3,)
            The point it turns about [mm].
        """
        slope = self.normal / self.normal[:, 2:]
        parts = slope[:, :, None] * (self.points - about)[:, None, :]
        turned = (turn(motion) - np.eye(3)).reshape(-1, 9)
        return np.asarray(turned @ parts.reshape(-1, 9).T + motion[:, :1])

    def contact(self, world: World, tunnel: Tunnel, soft: Floats, about: Floats) -> Contact:
        """Return the contact in every world, under carpet of a loose thickness.

        Parameters
        ----------
        world : World
            Deviations.
        tunnel : Tunnel
            For the layers under the carpet.
        soft : ndarray, shape (rows,)
            The carpet's loose thickness [mm].
        about : ndarray, shape (3,)
            The point the console turns about [mm].
        """
        upright = self.normal[:, 2]
        cover = soft[:, None] + tunnel.layered(self.foot[:, 0], world) + raised(self.ridged, soft)
        rise = self.plumb.hit(world).z - self.foot[:, 2]
        overlap = (cover - self.clear()) / upright + rise
        overlap = overlap + taller_mm(world, self.panels, self.edge, self.points[:, 0])
        tilt = np.sqrt(1 - upright**2) / upright
        bearing = self.area * (1 + world.of("model:friction")[:, None] * tilt)
        at = self.points - about
        return Contact(at[:, 0], at[:, 1], overlap, upright, bearing)


def feet(tunnel: Tunnel, points: Floats, near: Drop | None = None) -> Drop:
    """Return the foot of each point on the bare metal, along the metal's normal, as plumb lines.

    Parameters
    ----------
    tunnel : Tunnel
        The bare metal.
    points : ndarray, shape (n, 3)
        Where the feet are sought from [mm].
    near : Drop, optional
        Feet that were found from nearby; without them they are sought from under the points.
    """
    found, steps = (
        (tunnel.drop(*points[:, :2].T), FOOT_STEPS) if near is None else (near, NEXT_STEPS)
    )
    for _ in range(steps):
        x, y, hit = found.spot.x, found.y, found.seen
        off = np.einsum("nk,nk->n", points - np.column_stack([x, y, hit.z[0]]), hit.normal)
        lost = np.isnan(off)
        flat = points[:, :2] - np.where(lost, 0.0, off)[:, None] * hit.normal[:, :2]
        x, y = np.where(lost, x, flat[:, 0]), np.where(lost, y, flat[:, 1])
        found = tunnel.drop(x, y, found)
    return found


def beds(
    groups: tuple[tuple[Strip, ...], ...], tunnel: Tunnel, foot: Drop
) -> tuple[Bed | None, ...]:
    """Return the bed under each group of edges, None where no point stands over metal that was read.

    Points beyond the sections and beside the tunnel over an unread floor are left out: nothing is
    known to carry them.

    Parameters
    ----------
    groups : tuple of tuple of Strip
        Points on the edges at the design place.
    tunnel : Tunnel
        The bare metal and its layers.
    foot : Drop
        The `feet` of all their points, in order.
    """
    if not len(foot.y):
        return (None,) * len(groups)
    plumb = tunnel.followed(foot)
    flat = np.column_stack([foot.spot.x, foot.y])
    ends = np.cumsum([0, *(sum(len(strip.points) for strip in group) for group in groups)])
    return tuple(
        _bed(group, flat[first:last], plumb.some(slice(first, last)), tunnel)
        for group, first, last in zip(groups, ends[:-1].tolist(), ends[1:].tolist(), strict=True)
    )


def _bed(strips: tuple[Strip, ...], flat: Floats, plumb: Plumb, tunnel: Tunnel) -> Bed | None:
    """Return the bed under one group: its feet in plan (n, 2), and its plumb lines."""
    if not strips:
        return None
    area = np.concatenate([s.area for s in strips])
    known = np.isfinite(plumb.z) & (plumb.normal[:, 2] > STEEPEST) & (area > 0)
    ridged = tunnel.ridged(np.nan_to_num(np.column_stack([flat, plumb.z])))
    known &= ~np.asarray(tunnel.relieved(ridged))
    if not known.any():
        return None
    points = np.concatenate([s.points for s in strips])
    edge = np.repeat(np.arange(len(strips)), [len(s.points) for s in strips])
    kept = plumb.some(known)
    foot = np.column_stack([flat[known], kept.z])
    return Bed(
        points[known],
        area[known],
        foot,
        kept,
        edge[known],
        _numbered_through(strips)[known],
        tuple(s.panel for s in strips),
        tuple(one.some(known) for one in ridged),
    )


def _numbered_through(strips: tuple[Strip, ...]) -> NDArray[np.int64]:
    """Return the stations of all strips, each strip's after those of the one before."""
    before = np.cumsum([0, *(int(s.station[-1]) + 1 for s in strips[:-1])])
    return np.concatenate([s.station + first for s, first in zip(strips, before, strict=True)])
