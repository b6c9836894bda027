"""Gaps between the gear lever's shaft and the bulkheads under the deck, in every gear."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.car import LeverPositions, World, lever, of_cars
from trimwright.fit.convex import Piece, rod
from trimwright.fit.gap import Gap
from trimwright.fit.hull import hull
from trimwright.fit.lever_opening import FELT_MM
from trimwright.fit.nearest import nearest_points
from trimwright.fit.pair import (
    Own,
    Pair,
    Solid,
    Solids,
    at_rest,
    between,
    nearest_pairs,
    own_pieces,
    resting,
    rooms_along,
)
from trimwright.fit.source import Found, Scene, point
from trimwright.parts import Carcass, Panel

Floats = NDArray[np.float64]
FURTHEST_SIGMAS = 12.0
POSE_MM = 30.0  # along the car: a bulkhead 250 mm high in a console pitched by 7 degrees
LEAST_PLAY_MM = 1e-3  # a shaft swept by less has no inside
KEYS = ("car.lever", "car.lever knob", "console.bulkheads", "car.carpet", "car.tunnel")
SAYS = "the shortest way from the bulkhead to the shaft, in every gear"
ROD = rod(np.zeros(3), np.ones(3), 1.0).skin
CORNERS = np.array([[-1.0, -1, 0], [-1, 1, 0], [1, 1, 0], [1, -1, 0]])


class ShaftRoom(Struct, frozen=True, eq=False):
    """The least room between a bulkhead and the shaft, over every gear.

    A shaft that passes an edge leans otherwise in every row, so beside the directions of the
    nominal row each row has its own: that in which the shaft, standing, is nearest. The room is
    the largest along any, so it is never more than the true signed distance.

    Attributes
    ----------
    gap : Gap
        Standing, or with the engine moved.
    pairs : tuple of Pair
        Pieces of the bulkhead, and gears.
    solids : callable
        The shaft in every gear, standing or swept.
    """

    gap: Gap
    pairs: tuple[Pair, ...]
    solids: Solids

    @property
    def gaps(self) -> tuple[Gap, ...]:
        """The one gap."""
        return (self.gap,)

    def found(self, scene: Scene) -> Found:
        """Return the least room over the nearest pairs."""
        others, shafts = self.solids(scene.world), standing_shafts(scene.world)
        placed = at_rest([pair.own for pair in self.pairs], scene)
        rooms, ends = [], []
        for pair, own in zip(self.pairs, placed, strict=True):
            other, shaft = others[pair.other], shafts[pair.other]
            fixed = pair.directions(scene)
            along = rooms_along(own, other.corners, fixed)
            near, beside = nearest_points(own, shaft.corners, pair.own.piece.skin, ROD)
            way = (beside - near) / np.maximum(np.linalg.norm(beside - near, axis=-1), 1e-9)[
                :, None
            ]
            outward = np.einsum("rkc,rc->rk", other.corners, way).min(axis=1)
            free = outward - np.einsum("rkc,rc->rk", own, way).max(axis=1)
            room = np.maximum(along.max(axis=0), free) - other.coat
            rooms.append(room)
            if free[0] >= along[:, 0].max() - 1e-9:
                ends.append((point(near[0]), point(near[0] + way[0] * room[0])))
            else:
                ends.append(between(own[0], other, fixed[int(np.argmax(along[:, 0]))]))
        room = np.stack(rooms, axis=-1)
        return Found(room.min(axis=1)[:, None], (ends[int(np.argmin(room[0]))],))


def lever_bulkheads(build: Build, carcass: Carcass, scene: Scene) -> tuple[ShaftRoom, ...]:
    """Return the gaps to each bulkhead the shaft may come near: standing, and the engine moved.

    A bulkhead has no gap here if along the car it is further from the shaft than the gap wanted,
    with the engine moved, every reading of the lever off by twelve times its spread and the
    console pitched by far more than it can be. No reading within that can change what such a gap
    says, so nothing is left unsaid; and what is cut of a console moves no bulkhead along the car,
    so a console has the same gaps however it is cut.

    Parameters
    ----------
    build : Build
        For the wanted gap.
    carcass : Carcass
        With the bulkheads.
    scene : Scene
        The nominal row, with the console at rest.
    """
    if scene.stick is None or not carcass.shape.plan.bulkheads:
        return ()
    wanted = build.wanted.lever_to_opening.value
    ends = reach_along(scene.world)
    spare = wanted + POSE_MM
    near = [
        panel
        for panel in (carcass.panel(one.name) for one in carcass.shape.plan.bulkheads)
        if _beside(panel, (ends[0] - spare, ends[1] + spare))
    ]
    owns = own_pieces(carcass, scene.world) if near else ()
    return tuple(
        gap
        for panel in near
        for gap in _gaps(tuple(own for own in owns if own.panel.name == panel.name), wanted, scene)
    )


@of_cars
def reach_along(world: World) -> tuple[float, float]:
    """Return how far forward and rearward a shaft reaches at most, the engine moved [mm].

    Each end is that of the figures as written and twelve standard deviations of it further out,
    to the first order in each doubt.
    """
    ledger = world.ledger
    off = ledger.deviations(np.eye(len(ledger) + 1, len(ledger), -1))
    stick = lever(World(world.build, ledger, off))
    if stick is None:
        raise ValueError("world must hold the lever")
    places = np.concatenate([stick.pivot[:, None, 0], stick.tops[..., 0]], axis=1)
    beside = (stick.shaft_radius + stick.along)[:, None]
    ends = np.stack([places - beside, places + beside])
    spread = np.sqrt(((ends[:, 1:] - ends[:, :1]) ** 2).sum(axis=1))
    far = FURTHEST_SIGMAS * spread
    return float((ends[0, 0] - far[0]).min()), float((ends[1, 0] + far[1]).max())


def _beside(panel: Panel, span: tuple[float, float]) -> bool:
    """Return whether a panel, as designed, stands within a stretch along the car."""
    n, depth = np.array(panel.frame.n), panel.thickness
    outer = panel.outer_points()
    x = np.concatenate([outer, outer - depth * n])[:, 0]
    return bool(x.min() <= span[1] and x.max() >= span[0])


def _gaps(owns: tuple[Own, ...], wanted: float, scene: Scene) -> tuple[ShaftRoom, ShaftRoom]:
    """Return both gaps of one bulkhead."""
    own, name = resting(owns, scene), owns[0].panel.name
    between = (name, "gear lever")
    standing = Gap(f"lever to {name}, standing", SAYS, between, wanted, KEYS, moves=True)
    moved = Gap(
        f"lever to {name}, engine moved",
        f"{SAYS}, with the engine at the end of its play",
        between,
        min(wanted, FELT_MM),
        (*KEYS, "car.engine moves"),
        moves=True,
    )
    rods = tuple(
        rod(one.corners[0, 0], one.corners[0, 1], float(one.coat[0]))
        for one in standing_shafts(scene.world)
    )
    swept = tuple(_swept(one) for one in moved_shafts(scene.world))
    return (
        ShaftRoom(standing, nearest_pairs(own, rods), standing_shafts),
        ShaftRoom(moved, nearest_pairs(own, swept), moved_shafts),
    )


def _swept(solid: Solid) -> Piece:
    """Return a swept shaft, nominal, as a body with a coat."""
    body = hull(solid.corners[0])
    return Piece(body.corners, body.triangles, body.edges, float(solid.coat[0]))


def _lines(world: World) -> tuple[LeverPositions, Floats]:
    """Return the lever and its shaft's middle lines, foot and top, (rows, g, 2, 3)."""
    stick = lever(world)
    if stick is None:
        raise ValueError("world must hold the lever")
    feet = np.broadcast_to(stick.pivot[:, None], stick.tops.shape)
    return stick, np.stack([feet, stick.tops], axis=2)


def standing_shafts(world: World) -> tuple[Solid, ...]:
    """Return the shaft in every gear, a round rod from the pivot to its top."""
    stick, lines = _lines(world)
    return tuple(Solid(lines[:, g], stick.shaft_radius) for g in range(lines.shape[1]))


def moved_shafts(world: World) -> tuple[Solid, ...]:
    """Return all that the shaft sweeps in every gear while the engine goes through its play."""
    stick, lines = _lines(world)
    play = np.stack([stick.along, stick.across, np.zeros_like(stick.along)], axis=-1)
    shifts = np.maximum(play, LEAST_PLAY_MM)[:, None] * CORNERS
    corners = lines[:, :, :, None] + shifts[:, None, None]
    swept = corners.reshape(*lines.shape[:2], 8, 3)
    return tuple(Solid(swept[:, g], stick.shaft_radius) for g in range(lines.shape[1]))
