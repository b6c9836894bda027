"""What the console stands on: its edges over the metal, sought from where it comes to rest."""

from functools import lru_cache

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright.car import Drop, Tunnel, Unmeasured, World, carpet
from trimwright.fit.bed import Bed, beds, feet
from trimwright.fit.daylight import visible_lines
from trimwright.fit.first_guess import Start, resumed
from trimwright.fit.gap import Unknown
from trimwright.fit.pose import Pose
from trimwright.fit.rest import Rest
from trimwright.fit.ridged_strip import ridged_strip
from trimwright.fit.rigid import placed
from trimwright.fit.screw import screws
from trimwright.fit.strip import ACROSS_BEVELLED, ACROSS_SQUARE, LEAST_ALONG, Strip, edge_strip
from trimwright.parts import Carcass

Floats = NDArray[np.float64]
WALL_STEP_MM = (
    80.0  # of wall to a Gauss point; 8 along an edge are true to 0.0001 mm on a smooth bed
)
ALONG_BULKHEAD = 5  # Gauss points; a bulkhead's edge is short and hidden
NEARLY_SQUARE_DEG = 8.0  # on a flatter bed a square edge touches all over
FOOT_ROUNDS = 2  # times the feet are sought again from where the console came to rest
POSE = "resting pose"


class Footing(Struct, frozen=True):
    """The console on its carpet, and the beds under what is seen of its left and right walls.

    `near` is close to where it comes to rest, None where it tips.
    """

    rest: Rest
    seen: tuple[Bed | None, ...]
    near: Start | None


class _Edges:
    """The lower edges of a console; two are equal where they are the very same."""

    __slots__ = ("carcass",)

    def __init__(self, carcass: Carcass) -> None:
        self.carcass = carcass

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Edges) and self.carcass.lower_edges is other.carcass.lower_edges

    def __hash__(self) -> int:
        return id(self.carcass.lower_edges)


class _Designed(Struct, frozen=True, eq=False):
    """Points on the edges and on what is seen of them, and their feet, all at the design place."""

    groups: tuple[tuple[Strip, ...], ...]
    points: Floats
    foot: Drop
    bed: Bed | None


@lru_cache(maxsize=16)
def _designed(edges: _Edges, tunnel: Tunnel) -> _Designed:
    """Return edges over the metal where they were designed: an opening cut leaves them be."""
    groups = (_strips(edges.carcass, tunnel), *visible_lines(edges.carcass))
    flat = [strip.points for group in groups for strip in group]
    points = np.concatenate(flat) if flat else np.zeros((0, 3))
    foot = feet(tunnel, points)
    return _Designed(groups, points, foot, *beds(groups[:1], tunnel, foot))


def footing_of(
    world: World, tunnel: Tunnel | Unmeasured, carcass: Carcass
) -> tuple[Footing | None, tuple[Unknown, ...]]:
    """Return what the console stands on, or what is missing for it.

    Parameters
    ----------
    world : World
        The nominal world.
    tunnel : Tunnel or Unmeasured
        The car's, or what it misses.
    carcass : Carcass
        The console as designed.
    """
    if isinstance(tunnel, Unmeasured):
        return None, (Unknown(POSE, (str(tunnel),), tunnel.missing),)
    try:
        carpet(world)
    except Unmeasured as gone:
        return None, (Unknown(POSE, (str(gone),), gone.missing),)
    as_made = _designed(_Edges(carcass), tunnel)
    under = as_made.bed
    if under is None:
        missing = ("the tunnel under the console's lower edges",)
        return None, (Unknown(POSE, missing, ("car.tunnel",)),)
    held, centre = screws(world.build), np.array(carcass.centre_mm)
    rest = Rest(under, tunnel, carcass.mass_kg, centre, held, under.points.mean(axis=0))
    foot, near = as_made.foot, None
    for _ in range(FOOT_ROUNDS):
        # the metal bends away under an edge that rises far: the feet are sought from where it rests
        pose = rest.pose(world, tight=True, start=near)
        near = resumed(pose)
        foot = feet(tunnel, _lowered(rest, pose, as_made.points), foot)
        (closer,) = beds(as_made.groups[:1], tunnel, foot)
        if closer is None:  # it comes to rest beside all that was read
            foot = as_made.foot
            break
        rest = replace(rest, bed=closer)
    under, *seen = beds(as_made.groups, tunnel, foot)
    return None if under is None else Footing(replace(rest, bed=under), tuple(seen), near), ()


def _lowered(rest: Rest, pose: Pose, points: Floats) -> Floats:
    """Return points of the console (n, 3) where they nearly come to rest."""
    motion = np.where(pose.tips[:, None], 0.0, pose.motion)
    return np.asarray(placed(points, motion, rest.about)[0])


def _strips(carcass: Carcass, tunnel: Tunnel) -> tuple[Strip, ...]:
    """Return the Gauss points on every lower edge: closer where a ridge lies under it."""
    found = []
    for edge in carcass.lower_edges:
        wall = "wall" in edge.panel.split()
        long = float(np.linalg.norm(np.ptp(edge.outer, axis=0)[:2]))
        count = max(LEAST_ALONG, round(long / WALL_STEP_MM)) if wall else ALONG_BULKHEAD
        steep = edge.form == "square" and float(np.max(edge.slope_deg)) > NEARLY_SQUARE_DEG
        across = ACROSS_SQUARE if steep else ACROSS_BEVELLED
        over = ridged_strip((edge.inner, edge.outer), tunnel, across=across, step_mm=long / count)
        strip = over or edge_strip(edge.inner, edge.outer, across=across, along=count)
        found.append(replace(strip, panel=edge.panel))
    return tuple(found)
