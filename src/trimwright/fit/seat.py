"""Gaps 'left wall to seat' and 'right wall to seat', over all of the seat's travel."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.car import SeatSide, World, seats
from trimwright.fit.gap import Gap, Unknown
from trimwright.fit.shell import Patch, covered, face_patch, walls
from trimwright.fit.source import Found, Scene, point
from trimwright.parts import Carcass

Floats = NDArray[np.float64]
ALONG, UP = 7, 4  # points over the part of a wall beside the seat; its edges are among them
REACH_MM = 15.0  # how far the seat's ends and heights may be off and still be looked at


@dataclass(frozen=True, slots=True)
class Beside:
    """A covered wall beside a seat.

    Attributes
    ----------
    gap : Gap
        The gap.
    side : {'left', 'right'}
        Which seat.
    patches : tuple of Patch
        Points on the wall's outer faces at the seat's heights.
    """

    gap: Gap
    side: str
    patches: tuple[Patch, ...] = field(compare=False)

    @property
    def gaps(self) -> tuple[Gap, ...]:
        """The one gap."""
        return (self.gap,)

    def found(self, scene: Scene) -> Found:
        """Return the least sideways room from cover to seat."""
        seat = next(one for one in seats(scene.world) if one.side == self.side)
        at = np.concatenate([patch.points for patch in self.patches])
        placed = covered(self.patches, scene)
        edge = _edge(seat, at[:, 2], placed[..., 2])
        room = edge - np.abs(placed[..., 1])
        # a seat that ends elsewhere than read frees or takes the wall's outermost points
        past = np.maximum(seat.start[:, None] - placed[..., 0], placed[..., 0] - seat.end[:, None])
        beside = past <= 0
        room = np.where(beside | ~beside.any(axis=1, keepdims=True), room, np.inf)
        nearest = int(np.argmin(room[0]))
        near = placed[0, nearest]
        other = (float(near[0]), float(np.sign(near[1]) * edge[0, nearest]), float(near[2]))
        return Found(room.min(axis=1)[:, None], ((point(near), other),))


def _edge(seat: SeatSide, nominal_z: Floats, z: Floats) -> Floats:
    """Return how far off the middle the seat's edge is at heights near the nominal, (rows, n)."""
    here = seat.inner(nominal_z)
    rise = seat.high[:, 1] - seat.low[:, 1]
    flat = np.abs(rise) <= 1.0
    slope = np.where(flat, 0.0, (seat.high[:, 0] - seat.low[:, 0]) / np.where(flat, 1.0, rise))
    return np.asarray(here + slope[:, None] * (z - nominal_z))


def beside(
    build: Build, carcass: Carcass, world: World
) -> tuple[tuple[Beside, ...], tuple[Unknown, ...]]:
    """Return the gap beside each seat, and what is missing for the others."""
    read = {seat.side: seat for seat in seats(world)}
    found, unknown = [], []
    for side in ("left", "right"):
        name = f"{side} wall to seat"
        seat = next((one for key, one in read.items() if key == side), None)
        if seat is None:
            missing = (f"where the {side} seat's inner edge is",)
            unknown.append(Unknown(name, missing, (f"car.seats.{side}", "car.between seats")))
            continue
        patches = _patches(carcass, seat)
        if not patches:
            missing = (f"the {side} seat's inner edge at the height of the wall",)
            unknown.append(Unknown(name, missing, (f"car.seats.{side}",)))
            continue
        says = "sideways from the covered wall to the seat, through all of its travel"
        on = (f"car.seats.{side}", "car.between seats", "covers.walls")
        wanted = build.wanted.walls_to_seats.value
        gap = Gap(name, says, (f"{side} wall", f"{side} seat"), wanted, on, moves=True)
        found.append(Beside(gap, side, patches))
    return tuple(found), tuple(unknown)


def _patches(carcass: Carcass, seat: SeatSide) -> tuple[Patch, ...]:
    """Return points on the walls beside a seat at heights where its edge is known."""
    span = (float(seat.start[0]) - REACH_MM, float(seat.end[0]) + REACH_MM)
    kept = []
    for panel in walls(carcass, seat.side):
        for reach in (span, (float(seat.start[0]), float(seat.end[0]))):
            patch = face_patch(panel, reach, (ALONG, UP))
            if patch is not None:
                known = np.isfinite(seat.inner(patch.points[:, 2])[0])
                if known.any():
                    kept.append(Patch(panel, patch.points[known]))
    return tuple(kept)
