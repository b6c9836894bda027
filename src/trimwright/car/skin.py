"""The tunnel: its skin, what lies on it, and where a plumb line meets it in every world."""

from functools import lru_cache
from itertools import pairwise

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Car
from trimwright.car.along import MONOTONE, WAYS
from trimwright.car.loft import (
    GRID_STEP,
    POINTS,
    STEEPEST,
    Loft,
    Spot,
    between_doubts,
    bumps,
    common_foot,
    dropped,
    facing_out,
    station_shares,
)
from trimwright.car.offset import offset_grid
from trimwright.car.ridge import Ridge, Ridged, off_line
from trimwright.car.section import Rail, corner_numbers, rail
from trimwright.car.shape import LEVEL, Unmeasured, floor_height, shape_of
from trimwright.car.world import World

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Places = NDArray[np.intp]
KEPT = 32  # drops: a few for each console that is looked at in many worlds

TAPER = "assumed:tunnel taper"  # mm per metre, each half width, for a single section


class Grid(Struct, frozen=True, eq=False):
    """A skin as points: `x` (a,), `points` (a, b, 3), unit `normals` (a, b, 3), outward."""

    x: Floats
    points: Floats
    normals: Floats


class Hit(Struct, frozen=True, eq=False):
    """Where plumb lines meet the metal: `z` (rows, n) and the nominal `normal` (n, 3)."""

    z: Floats
    normal: Floats


class Drop(Struct, frozen=True, eq=False):
    """Plumb lines at `spot.x` and `y` (n,), and where they meet the metal, or the floor, as read."""

    y: Floats
    spot: Spot
    seen: Hit


class Plumb(Struct, frozen=True, eq=False):
    """Some plumb lines to be looked at in many worlds: heights `z` (n,) as read.

    `off` says which missed the skin; these lie on the floor, or are NaN where it is not read.
    `which` are their numbers among those dropped: how all of these follow each factor is found
    when it is first asked for, which takes longer than the drop.
    """

    z: Floats
    normal: Floats
    off: Flags
    metal: "Tunnel"
    drop: Drop
    which: Places

    def some(self, which: slice | Flags) -> "Plumb":
        """Return some of the lines."""
        z, normal, off = self.z[which], self.normal[which], self.off[which]
        return Plumb(z, normal, off, self.metal, self.drop, self.which[which])

    def hit(self, world: World | None = None) -> Hit:
        """Return the heights in every world, (rows, n); one row as read without a world."""
        if world is None or world.as_read:
            return Hit(self.z[None], self.normal)
        keys, share = _following(self.metal, self.drop)
        return Hit(self.z + world.shift(keys, share[self.which]), self.normal)


def between_key(gap: int) -> str:
    """Return the key of what the skin does between section `gap` and the next."""
    return f"between sections:{gap}"


class Tunnel(Struct, frozen=True, eq=False):
    """The tunnel's bare skin as lofted from its sections."""

    car: Car
    loft: Loft
    rails: tuple[Rail, ...]
    at_keys: tuple[str, ...]
    foot_mm: float  # height at which the sections are cut
    floor_mm: float | None
    floor_parts: tuple[tuple[str, float], ...]  # readings the floor's height hangs on
    doubts: Floats  # 19-to-1 doubt midway between sections, (k - 1,)
    ridges: tuple[Ridge, ...] = ()  # what lies on it under the carpet

    @property
    def span(self) -> tuple[float, float]:
        """Where the skin is given [mm along]."""
        return self.loft.span

    @property
    def measured(self) -> tuple[float, float]:
        """The outer sections [mm along]."""
        return float(self.loft.stations[0]), float(self.loft.stations[-1])

    @property
    def assumption(self) -> str:
        """How the skin runs along the car, in words."""
        return WAYS.get(len(self.rails), MONOTONE)

    def section(self, x: float) -> Floats:
        """Return the section at a place as points y, z from left to right, (n, 2)."""
        return np.asarray(self.loft.rows(np.array([x]))[0][0])

    def crown(self, x: Floats) -> tuple[Floats, Floats]:
        """Return where across (n,) and how high (n,) the skin is highest at each place."""
        rows = self.loft.rows(x)[0]
        top = np.clip(np.argmax(rows[..., 1], axis=1), 1, POINTS - 2)
        pick = np.arange(len(x))
        a, b, c = (rows[pick, top + k, 1] for k in (-1, 0, 1))
        bend = a - 2 * b + c
        part = np.where(bend < 0, 0.5 * (a - c) / np.where(bend < 0, bend, 1.0), 0.0)
        part = np.clip(part, -1, 1)
        ahead = np.where(part > 0, 1, -1)
        y0, y1 = rows[pick, top, 0], rows[pick, top + ahead, 0]
        return y0 + np.abs(part) * (y1 - y0), b - 0.25 * (a - c) * part

    def top(self, x: Floats | float) -> Floats:
        """Return the height of the skin's highest point at each place, (n,)."""
        return self.crown(np.atleast_1d(np.asarray(x, dtype=np.float64)))[1]

    def grid_x(self) -> Floats:
        """Return the places along the car at which `surface` has its rows."""
        start, end = self.span
        return np.linspace(start, end, round((end - start) / GRID_STEP) + 1)

    def surface(self, offset_mm: float | Floats = 0.0) -> Grid:
        """Return the skin, bare or offset along its normals.

        Parameters
        ----------
        offset_mm : float or ndarray, shape (a,)
            Distance [mm] off the bare skin, outward; one for each row of `grid_x`, or one for
            all. Where the skin is hollower than the offset, the fold is clipped off.
        """
        bare = _bare(self)
        off = np.broadcast_to(np.asarray(offset_mm, dtype=np.float64), bare.x.shape)
        return Grid(bare.x, offset_grid(bare.points, bare.normals, off), bare.normals)

    def layered(self, x: Floats | float, world: World | None = None) -> Floats:
        """Return the thickness of the layers under the carpet at each place.

        Returns
        -------
        ndarray, shape (n,), or (rows, n) with a world
        """
        place = np.atleast_1d(np.asarray(x, dtype=np.float64))
        thick = np.zeros((1 if world is None else world.rows, len(place)))
        for layer in self.car.layers:
            lies = (layer.start.value <= place) & (place <= layer.end.value)
            one = np.array([layer.thick.value]) if world is None else world.read(layer, "thick")
            thick = thick + one[:, None] * lies
        return thick[0] if world is None else thick

    def ridged(self, points: Floats) -> tuple[Ridged, ...]:
        """Return how far points on the metal, (n, 3), are from each ridge's middle line."""
        found = []
        for ridge in self.ridges:
            x, y = ridge.plan().T
            line = np.column_stack([x, y, self.drop(x, y).seen.z[0]])
            found.append(Ridged(ridge, off_line(points, line[np.isfinite(line[:, 2])])))
        return tuple(found)

    def relieved(self, ridged: tuple[Ridged, ...]) -> Flags | bool:
        """Return whether edges are cut out over points, (n,): a ridge with reliefs reaches there."""
        own = self.car.carpet
        soft = 0.0 if own is None or own.loose is None else own.loose.value
        cut: Flags | bool = False
        for one in ridged:
            if one.ridge.relieved:
                cut = cut | (one.off_mm < one.ridge.reach_mm(soft))
        return cut

    def drop(self, x: Floats, y: Floats, near: Drop | None = None) -> Drop:
        """Return where plumb lines at x, y (n,) meet the metal as read; others met it close by."""
        spot = dropped(self.loft, x, y, None if near is None else near.spot)
        return Drop(y, spot, self._seen(spot))

    def plumb(self, x: Floats, y: Floats) -> Plumb:
        """Return plumb lines at x, y (n,) dropped once, to be looked at in many worlds."""
        return self.followed(self.drop(x, y))

    def followed(self, drop: Drop) -> Plumb:
        """Return plumb lines to be looked at in many worlds."""
        every = np.arange(len(drop.y))
        return Plumb(drop.seen.z[0], drop.seen.normal, drop.spot.missed, self, drop, every)

    def following(self, drop: Drop) -> tuple[tuple[str, ...], Floats]:
        """Return the keys that heights follow, and how each does, mm per unit, (n, keys)."""
        keys, columns = _numbered(self)
        share = self._shares(drop, keys, columns).T.copy()
        missed = drop.spot.missed
        share[missed] = 0.0
        for key, times in self.floor_parts:
            share[missed, keys.index(key)] = times
        return keys, share

    def under(self, x: Floats, y: Floats, world: World | None = None) -> Hit:
        """Return where plumb lines from above meet the bare metal, in every world.

        Parameters
        ----------
        x, y : ndarray, shape (n,)
            Places along and across [mm].
        world : World, optional
            Deviations, carried through the skin linearised at the readings.

        Returns
        -------
        Hit
            `z` is the floor's height beside the tunnel, NaN where that is not read or `x` lies
            outside the span.
        """
        if world is None:
            return self.drop(x, y).seen
        return self.plumb(x, y).hit(world)

    def _seen(self, spot: Spot) -> Hit:
        """Return the heights as read, the floor's where a line missed the skin."""
        floor = np.nan if self.floor_mm is None else self.floor_mm
        inside = (self.span[0] <= spot.x) & (spot.x <= self.span[1])
        z = np.where(spot.missed, np.where(inside, floor, np.nan), spot.z)
        normal = np.where(spot.missed[:, None], np.array([0.0, 0.0, 1.0]), spot.normal)
        return Hit(z[None], normal)

    def _shares(self, drop: Drop, keys: tuple[str, ...], columns: tuple[Places, ...]) -> Floats:
        """Return how each height follows each factor, mm per unit of it, (keys, n)."""
        spot = drop.spot
        shares, places = station_shares(self.loft, spot)
        step = np.clip(np.floor(spot.t).astype(np.intp), 0, POINTS - 2)
        part = (spot.t - step)[:, None]
        found = np.zeros((len(keys), len(drop.y)))
        for k, (one, rows) in enumerate(zip(self.rails, columns, strict=True)):
            near = np.flatnonzero(shares[k].any(axis=-1))
            low, high = (one.moves.take(step[near] + end, axis=1) for end in (0, 1))
            moves = low * (1 - part[near]) + high * part[near]
            found[rows[:, None], near] += np.einsum("knc,nc->kn", moves, shares[k, near])
            found[keys.index(self.at_keys[k])] = places[k]
        up = np.maximum(spot.normal[:, 2], STEEPEST)
        if len(self.rails) == 1:
            away = (spot.x - self.loft.stations[0]) / 1000
            found[keys.index(LEVEL)] += away
            found[keys.index(TAPER)] = np.sign(drop.y) * spot.normal[:, 1] / up * away
        else:
            humps = bumps(self.loft.stations, spot.x) / up
            found[[keys.index(between_key(gap)) for gap in range(len(humps))]] = humps
        return found


@lru_cache(maxsize=KEPT)
def _following(metal: Tunnel, drop: Drop) -> tuple[tuple[str, ...], Floats]:
    """Return what `Tunnel.following` does, kept: block after block of worlds asks for it."""
    keys, share = metal.following(drop)
    share.setflags(write=False)
    return keys, share


@lru_cache(maxsize=8)
def _numbered(metal: Tunnel) -> tuple[tuple[str, ...], tuple[Places, ...]]:
    """Return the keys of all that a tunnel follows, and where among them each rail's own are."""
    keys = [
        key for one, at in zip(metal.rails, metal.at_keys, strict=True) for key in (*one.keys, at)
    ]
    gaps = range(len(metal.rails) - 1)
    keys += [between_key(gap) for gap in gaps] if gaps else [LEVEL, TAPER]
    place = {key: k for k, key in enumerate(dict.fromkeys([*keys, *dict(metal.floor_parts)]))}
    columns = (np.array([place[key] for key in one.keys], dtype=np.intp) for one in metal.rails)
    return tuple(place), tuple(columns)


@lru_cache(maxsize=8)
def _bare(metal: Tunnel) -> Grid:
    """Return the bare skin as points, read-only: every layer over it begins with it."""
    x = metal.grid_x()
    rows, run = metal.loft.rows(x)
    normals = facing_out(run, np.gradient(rows, axis=1, edge_order=2))
    places = np.broadcast_to(x[:, None, None], (*rows.shape[:2], 1))
    made = Grid(x, np.concatenate([places, rows], axis=-1), normals)
    for array in (made.x, made.points, made.normals):
        array.setflags(write=False)
    return made


@lru_cache(maxsize=8)
def tunnel(car: Car) -> Tunnel:
    """Return the tunnel of a car.

    Raises
    ------
    Unmeasured
        If no section was read, or one of them cannot be placed.
    """
    if not car.tunnel:
        raise Unmeasured("no section of the tunnel was read", ("car.tunnel",))
    shapes = sorted((shape_of(car, k) for k in range(len(car.tunnel))), key=lambda one: one.at)
    for one, other in pairwise(shapes):
        if other.at - one.at < 1.0:
            says = f"two sections lie at the same place, {one.at:g} mm behind the datum"
            raise Unmeasured(says, (one.at_key, other.at_key))
    floor = floor_height(car)
    level = None if floor is None else floor.value
    foot = common_foot(tuple(shapes), level)
    numbers = corner_numbers(tuple(shapes), foot, POINTS)
    rails = tuple(rail(one, foot, POINTS, numbers) for one in shapes)
    parts = () if floor is None else tuple((key, times) for key, _, times in floor.parts)
    keys = tuple(one.at_key for one in shapes)
    return Tunnel(car, Loft.through(rails), rails, keys, foot, level, parts, between_doubts(rails))


__all__ = ["TAPER", "Drop", "Grid", "Hit", "Plumb", "Tunnel", "between_key", "tunnel"]
