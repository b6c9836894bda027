"""What stands in the car beside the console, nominal, as the views draw it."""

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright.cabin import Cabin
from trimwright.car import (
    BrakeSwing,
    DashUnderside,
    LeverPositions,
    SeatSide,
    SolidBody,
    Tunnel,
    Unmeasured,
    World,
    bodies,
    dash,
    handbrake,
    lever,
    seats,
)
from trimwright.papers.view_sheet import hull
from trimwright.parts import Carcass

Floats = NDArray[np.float64]
ALONG, ACROSS = 0, 1  # axes of the car


class CarShape(Struct, frozen=True, eq=False):
    """The car as read, and what was not read, in words."""

    skin: Tunnel | None
    dash: DashUnderside | None
    seats: tuple[SeatSide, ...]
    lever: LeverPositions | None
    brake: BrakeSwing | None
    bodies: tuple[SolidBody, ...]
    missing: tuple[str, ...]
    moved: tuple[LeverPositions, ...] = ()


def car_shape(cabin: Cabin, *, engine_moved: bool = False) -> CarShape:
    """Return the car with every figure as written, the lever also as the engine moves it."""
    world = World.nominal(cabin.build, cabin.ledger)
    skin = None if isinstance(cabin.tunnel, Unmeasured) else cabin.tunnel
    under = None if skin is None and not cabin.build.car.dash else dash(world)
    sides, stick, bar = seats(world), lever(world), handbrake(world)
    told = {
        "the tunnel": skin,
        "the dash": under,
        "the seats": sides or None,
        "the gear lever": stick,
        "the handbrake": bar,
    }
    missing = tuple(name for name, found in told.items() if found is None)
    moved = _moved(stick) if stick is not None and engine_moved else ()
    return CarShape(skin, under, sides, stick, bar, bodies(world), missing, moved)


def _moved(stick: LeverPositions) -> tuple[LeverPositions, ...]:
    """Return the lever at the ends of the engine's play, along the car and across it."""
    along, across = float(stick.along[0]), float(stick.across[0])
    ways = [(sign * along, 0.0, 0.0) for sign in (-1, 1)]
    ways += [(0.0, sign * across, 0.0) for sign in (-1, 1)]
    return tuple(
        replace(stick, knobs=stick.knobs + way, tops=stick.tops + way, pivot=stick.pivot + way)
        for way in ways
    )


class Rest(Struct, frozen=True):
    """How much higher than designed the console stands, once bolted down: at its nose, per mm."""

    nose_x: float
    nose_up: float
    pitch: float

    def up(self, x: Floats) -> Floats:
        """Return how much higher it stands at places along the car [mm]."""
        return np.asarray(self.nose_up - self.pitch * (x - self.nose_x))

    def placed(self, points: Floats) -> Floats:
        """Return points of the design (n, 3) where they rest; roll is too small to be drawn."""
        moved = np.array(points, dtype=np.float64)
        moved[..., 2] += self.up(moved[..., 0])
        return moved


def rest_of(cabin: Cabin) -> Rest:
    """Return the nominal rest; the design's own place where it could not be evaluated."""
    pose = cabin.pose
    if pose is None or cabin.carcass is None or not np.isfinite(pose.nose_tight_mm):
        return Rest(0.0, 0.0, 0.0)
    edges = np.concatenate([edge.outer for edge in cabin.carcass.lower_edges])
    return Rest(float(edges[:, 0].min()), pose.nose_tight_mm, pose.tight[1])


def sliced(carcass: Carcass, place_mm: float, rest: Rest, axis: int = ALONG) -> tuple[Floats, ...]:
    """Return the wood that a plane cuts, as areas in the plane (n, 2) [mm].

    The plane is square to the car's `axis`: 0, along the car, gives areas across and up; 1,
    across it, areas along and up.

    Exact for the convex pieces that a carcass is made of; pieces that touch are one area.
    """
    from shapely import Polygon, get_parts, unary_union  # noqa: PLC0415  lazy: costs 0.14 s

    found = []
    for _, pieces in carcass.convex_pieces():
        reach = pieces[..., axis]
        near = (reach.min(axis=1) <= place_mm) & (reach.max(axis=1) >= place_mm)
        for piece in pieces[near]:
            ring = cut_through(rest.placed(piece), place_mm, axis)
            if len(ring) > 2:  # noqa: PLR2004  an area
                found.append(Polygon(ring).buffer(0.01, join_style="mitre"))
    whole = [one for one in get_parts(unary_union(found)) if isinstance(one, Polygon)]
    return tuple(np.array(one.exterior.coords[:-1]) for one in whole)


def cut_through(piece: Floats, place_mm: float, axis: int = ALONG) -> Floats:
    """Return the hull of where lines between a convex piece's corners pass a plane, (n, 2)."""
    first, second = np.triu_indices(len(piece), 1)
    a, b = piece[first], piece[second]
    side_a, side_b = a[:, axis] - place_mm, b[:, axis] - place_mm
    crosses = side_a * side_b < 0
    share = side_a[crosses] / (side_a[crosses] - side_b[crosses])
    met = a[crosses] + share[:, None] * (b[crosses] - a[crosses])
    on = piece[np.abs(piece[:, axis] - place_mm) < 1e-6]  # noqa: PLR2004  corners in the plane
    points = np.delete(np.concatenate([met, on]), axis, axis=1)
    return hull(points) if len(points) else points
