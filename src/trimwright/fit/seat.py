"""Gaps 'left wall to seat' and 'right wall to seat', over all of the seat's travel."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.car import SeatSide, World, seats
from trimwright.fit.gap import Gap, Unknown
from trimwright.fit.shell import Patch, covered, face_patch, walls
from trimwright.fit.source import Found, Scene, point
from trimwright.parts import Carcass

Floats = NDArray[np.float64]
ALONG, UP = 7, 4  # points over the part of a wall beside the seat; its edges are among them
REACH_MM = 60.0  # beyond the seat's ends that a wall is still looked at: they are doubted too


class Beside(Struct, frozen=True, eq=False):
    """A covered wall beside a seat.

    Attributes
    ----------
    gap : Gap
        The gap.
    side : {'left', 'right'}
        Which seat.
    patches : tuple of Patch
        Points on the wall's outer faces at the seat's heights.
    runs : ndarray of int, shape (m, 2)
        Pairs of points that a straight line on the face joins, along the wall; a point with
        itself is looked at wherever the seat stands.
    """

    gap: Gap
    side: str
    patches: tuple[Patch, ...]
    runs: NDArray[np.intp]

    @property
    def gaps(self) -> tuple[Gap, ...]:
        """The one gap."""
        return (self.gap,)

    def found(self, scene: Scene) -> Found:
        """Return the least sideways room from cover to seat.

        Face and edge are straight, so the least is at an end of what lies side by side.
        """
        seat = next(one for one in seats(scene.world) if one.side == self.side)
        placed = covered(self.patches, scene)
        edge = seat.inner(placed[..., 2])
        room = edge - np.abs(placed[..., 1])
        first, last = self.runs.T
        low, high, beside = self._shares(placed[..., 0], seat)
        here = room.take(first, axis=1)
        rise = room.take(last, axis=1) - here
        ends = [here + share * rise for share in (low, high)]
        least = np.where(beside, np.minimum(*ends), np.inf)
        run = int(np.argmin(least[0]))
        end = int(ends[1][0, run] < ends[0][0, run])
        share = (low, high)[end][0, run]
        a, b = placed[0, first[run]], placed[0, last[run]]
        near = a + share * (b - a)
        out = np.abs(near[1]) + least[0, run]
        other = (float(near[0]), float(np.sign(near[1]) * out), float(near[2]))
        return Found(least.min(axis=1)[:, None], ((point(near), other),))

    def _shares(self, x: Floats, seat: SeatSide) -> tuple[Floats, Floats, NDArray[np.bool_]]:
        """Return from what share of each run to what share the seat is beside it, and whether.

        A seat that is nowhere beside the wall in some world is taken to be beside all of it.
        """
        first, last = self.runs.T
        spot, here = first == last, x.take(first, axis=1)
        run = x.take(last, axis=1) - here
        run[:, spot] = 1.0
        ends = [(end[:, None] - here) / run for end in (seat.start, seat.end)]
        low = np.maximum(np.minimum(*ends), 0.0)
        high = np.minimum(np.maximum(*ends), 1.0)
        low[:, spot] = high[:, spot] = 0.0
        beside = low <= high
        nowhere = ~beside.any(axis=1)
        low[nowhere], high[nowhere], beside[nowhere] = 0.0, 1.0, True
        return low, high, beside


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
        found.append(Beside(gap, side, patches, _runs(patches)))
    return tuple(found), tuple(unknown)


def _patches(carcass: Carcass, seat: SeatSide) -> tuple[Patch, ...]:
    """Return points on the walls beside a seat at heights where its edge is known."""
    span = (float(seat.start[0]) - REACH_MM, float(seat.end[0]) + REACH_MM)
    heights = seat.heights
    found = (face_patch(panel, span, (ALONG, UP), heights) for panel in walls(carcass, seat.side))
    return tuple(patch for patch in found if patch is not None)


def _runs(patches: tuple[Patch, ...]) -> NDArray[np.intp]:
    """Return which points of patches, `UP` to a station, follow one another along a wall."""
    found, before = [], 0
    for patch in patches:
        spots = before + np.arange(len(patch.points)).reshape(-1, UP)
        ahead, behind = (spots[:-1], spots[1:]) if len(spots) > 1 else (spots, spots)
        found.append(np.stack([ahead.ravel(), behind.ravel()], axis=-1))
        before += len(patch.points)
    return np.concatenate(found)
