"""A deck panel: a flat sheet between two kinks of the profile, with its openings."""

from itertools import pairwise
from typing import Literal

import numpy as np
from msgspec import Struct

from trimwright.parts.frame import Array, Frame, square_to, vector
from trimwright.parts.opening import hole_outline, hole_sides
from trimwright.parts.panel import Hole, Outline, Panel, Recess, Run, outlines
from trimwright.parts.plan import OpeningPlan
from trimwright.parts.shape import Shape
from trimwright.parts.side import SideName
from trimwright.parts.slab import Slab, slab
from trimwright.parts.wall import INSIDE, between, corners_between, split_depths

SIDES: tuple[SideName, SideName] = ("left", "right")


class BoardPlace(Struct, frozen=True):
    """One deck panel: which piece of the profile."""

    shape: Shape
    piece: int

    @property
    def frame(self) -> Frame:
        """Axes: u rearward along the face, v to the right, origin at its front on the middle."""
        deck = self.shape.deck
        x, z = deck.points[self.piece]
        slope = float(deck.slopes[self.piece])
        u = np.array((1.0, 0.0, slope)) / np.hypot(1.0, slope)
        along, right = vector(u), (0.0, 1.0, 0.0)
        return Frame((x, 0.0, z), along, right, square_to(along, right))

    def ends(self, depth_mm: float) -> Array:
        """Return front and rear x at a depth below the top, shape (2,) [mm]."""
        return self.shape.deck.line(depth_mm)[self.piece : self.piece + 2, 0]

    def points(self, x: Array, depth_mm: Array | float, name: SideName, inside_mm: float) -> Array:
        """Return points along a side, as deep in the deck and in the wall as asked, (..., 3)."""
        (xa, za), slope = self.shape.deck.points[self.piece], self.shape.deck.slopes[self.piece]
        z = za + slope * (x - xa) - depth_mm * np.hypot(1.0, slope)
        side = self.shape.side(name)
        found = np.empty((*z.shape, 3))
        found[..., 0], found[..., 2] = x, z
        found[..., 1] = side.sign * side.reach(x, z, inside_mm)
        return found


class _Layer(Struct, frozen=True):
    """Part of a deck: depths, and the two sides as (side, depth below the wall's outer face)."""

    depths: tuple[float, float]
    low: tuple[SideName, float]
    high: tuple[SideName, float]


def board(place: BoardPlace, openings: tuple[OpeningPlan, ...]) -> Panel:
    """Return one deck panel.

    Parameters
    ----------
    place : BoardPlace
        Which panel.
    openings : tuple of OpeningPlan
        Those that lie wholly in it.

    Returns
    -------
    Panel
    """
    shape, frame = place.shape, place.frame
    slope = shape.deck.slopes[place.piece]
    holes = []
    for opening in openings:
        centre = ((opening.at - frame.origin[0]) * np.hypot(1.0, slope), opening.off_middle)
        long, wide, corner = opening.long, opening.wide, opening.corner
        outline = hole_outline(centre, long, wide, corner)
        middle = (float(centre[0]), float(centre[1]))
        holes.append(Hole(opening.name, outline, middle, long, wide, corner))
    slabs = [s for layer in _layers(shape) for s in _slabs(place, layer, tuple(holes))]
    outer, inner, edges = outlines(_runs(place), frame, shape.deck_thickness)
    return Panel(
        shape.deck_names()[place.piece],
        shape.plan.material,
        shape.deck_thickness,
        shape.plan.density,
        frame,
        outer,
        inner,
        edges,
        _recesses(place),
        tuple(holes),
        "along",
        ("this face up", "front", "right"),
        tuple(slabs),
    )


def _layers(shape: Shape) -> list[_Layer]:
    """Return what the deck is made of once its recesses are out."""
    t, depth = shape.deck_thickness, shape.depth
    at = {name: (name, shape.deck_side(name)) for name in SIDES}
    if shape.plan.through == "walls" or depth == 0:
        return [_Layer((0.0, t), at["left"], at["right"])]
    inner = {name: (name, shape.wall_thickness(name)) for name in SIDES}
    layers = [
        _Layer((0.0, t - depth), at["left"], at["right"]),
        _Layer((t - depth, t), inner["left"], inner["right"]),
    ]
    if shape.lip > 0:
        layers.append(_Layer((t - depth, t), at["left"], ("left", 0.0)))
        layers.append(_Layer((t - depth, t), ("right", 0.0), at["right"]))
    return layers


def _slabs(place: BoardPlace, layer: _Layer, holes: tuple[Hole, ...]) -> list[Slab]:
    """Return the slabs of a layer, split where a corner of the walls passes a kink or hole."""
    meets = np.concatenate(
        [place.shape.side(n).bounds(w)[1:-1] for n, w in {layer.low, layer.high}] or [np.zeros(0)]
    )
    meets = np.unique(meets)
    frame = place.frame
    rims = np.array([hole.centre[0] + k * hole.long / 2 for hole in holes for k in (-1, 1)])

    def stops(depth: float) -> Array:
        across = frame.placed(np.column_stack([rims, 0 * rims]), depth)[:, 0]
        return np.concatenate([place.ends(depth), across])

    cuts = split_depths(layer.depths, stops, lambda _: meets)
    made = list[Slab]()
    for depths in pairwise(cuts):
        ends = np.stack([place.ends(h) for h in depths])
        inner = np.clip(corners_between(meets, ends), ends[:, :1], ends[:, 1:])
        x = np.column_stack([ends[:, :1], inner, ends[:, 1:]])
        both = np.array(depths)[:, None]
        sides = [frame.flat(place.points(x, both, *edge)) for edge in (layer.low, layer.high)]
        inside = tuple(hole for hole in holes if layer.low[0] != layer.high[0])
        made += around_holes(depths, sides[0], sides[1], inside)
    return made


def around_holes(
    depths: tuple[float, float], low: Array, high: Array, holes: tuple[Hole, ...]
) -> list[Slab]:
    """Return slabs that fill a strip but for holes square through it.

    Parameters
    ----------
    depths : two floats
        Of the two levels [mm].
    low, high : ndarray, shape (2, n, 2)
        Sides of the strip at both levels, points of equal number at equal u [mm].
    holes : tuple of Hole
        Wholly inside, none touching another.

    Returns
    -------
    list of Slab
    """
    if not holes:
        return [slab(depths, low, high)]
    reach = [(h.centre[0] - h.long / 2, h.centre[0] + h.long / 2) for h in holes]
    stops = sorted({value for pair in reach for value in pair})
    starts = [None, *stops]
    made = []
    for start, stop in zip(starts, [*stops, None], strict=True):
        begin = low[:, 0, 0] if start is None else np.full(2, start)
        finish = low[:, -1, 0] if stop is None else np.full(2, stop)
        crossing = [
            hole
            for hole, (a, b) in zip(holes, reach, strict=True)
            if a < float(finish.mean()) - INSIDE and b > float(begin.mean()) + INSIDE
        ]
        crossing.sort(key=lambda hole: hole.centre[1])
        bounds = [low, high]
        if crossing:
            rails = _rails(np.stack([begin, finish]), low, high, crossing)
            rims = [s for hole in crossing for s in hole_sides(hole)]
            bounds = [low, rails[0], rails[0], *rims, rails[1], rails[1], high]
        for under, over in zip(bounds[::2], bounds[1::2], strict=True):
            chains = _chains(np.stack([begin, finish]), under, over)
            made.append(slab(depths, *chains))
    return made


def _rails(ends: Array, low: Array, high: Array, holes: list[Hole]) -> tuple[Array, Array]:
    """Return two straight lines, between the holes of a strip and either side of it.

    Corners of the sides move with depth and points of a hole do not: the lines keep them apart.
    """
    nearest = (
        min(h.centre[1] - h.wide / 2 for h in holes),
        max(h.centre[1] + h.wide / 2 for h in holes),
    )
    made = []
    for sign, side, rim in zip((1.0, -1.0), (low, high), nearest, strict=True):
        reach = []
        for k in (0, 1):
            u = np.concatenate([ends[:, k], side[k, :, 0]])
            u = u[(u >= ends[0, k]) & (u <= ends[1, k])]
            reach.append(float((sign * np.interp(u, side[k, :, 0], side[k, :, 1])).max()))
        rail = (sign * max(reach) + rim) / 2
        made.append(np.stack([np.column_stack([ends[:, k], (rail, rail)]) for k in (0, 1)]))
    return made[0], made[1]


def _chains(ends: Array, under: Array, over: Array) -> Array:
    """Return both sides of a strip at both levels, on places that keep their order, (2, 2, n, 2)."""
    inner = np.concatenate([under[:, :, 0], over[:, :, 0]], axis=1)
    low, high = ends[0][:, None], ends[1][:, None]  # at both levels
    within = np.all((inner > low - INSIDE) & (inner < high + INSIDE), axis=0)
    within &= np.any((inner > low + INSIDE) & (inner < high - INSIDE), axis=0)
    inner = inner[:, within]
    if inner.shape[1] > 1:
        middle = (inner[0] + inner[1]) / 2
        order = np.argsort(middle, kind="stable")
        apart = np.diff(middle[order]) > INSIDE
        inner = inner[:, order[np.concatenate([[True], apart])]]
    u = np.concatenate([low, np.minimum(np.maximum(inner, low), high), high], axis=1)
    made = np.empty((2, *u.shape, 2))
    made[..., 0] = u
    for chains, side in zip(made, (under, over), strict=True):
        for k in (0, 1):
            chains[k, :, 1] = np.interp(u[k], side[k, :, 0], side[k, :, 1])
    return made


def _side_line(place: BoardPlace, name: SideName, depth: float, inside: float) -> Array:
    """Return a side of the panel at a depth, with the corners where walls meet."""
    front, rear = place.ends(depth)
    meets = between(place.shape.side(name).bounds(inside)[1:-1], front, rear)
    return place.points(np.array((front, *meets, rear)), depth, name, inside)


def _runs(place: BoardPlace) -> tuple[Run, ...]:
    """Return the sides in order: left rearward, rear, right forward, front."""
    names = place.shape.deck_names()
    left = _side_runs(place, "left")
    right = [
        Run(r.kind, r.meets, r.outer[::-1], r.inner[::-1])
        for r in reversed(_side_runs(place, "right"))
    ]
    after = names[place.piece + 1] if place.piece + 1 < len(names) else ""
    before = names[place.piece - 1] if place.piece else ""
    rear = (
        np.array((left[-1].outer[-1], right[0].outer[0])),
        np.array((left[-1].inner[-1], right[0].inner[0])),
    )
    front = (
        np.array((right[-1].outer[-1], left[0].outer[0])),
        np.array((right[-1].inner[-1], left[0].inner[0])),
    )
    return (
        *left,
        Run("mitre" if after else "free", after, rear[0], rear[1]),
        *right,
        Run("mitre" if before else "free", before, front[0], front[1]),
    )


def _side_runs(place: BoardPlace, name: SideName) -> list[Run]:
    """Return one side, wall by wall, front to rear; a wall may meet one face only."""
    shape = place.shape
    inside = shape.deck_side(name)
    kind: Literal["joint", "free"] = "joint" if shape.plan.through == "walls" else "free"
    bounds = shape.side(name).bounds(inside)
    depths = np.array(((0.0,), (shape.deck_thickness,)))
    ends = np.stack([place.ends(0.0), place.ends(shape.deck_thickness)])
    runs = []
    for i, wall_name in enumerate(shape.wall_names(name)):
        x = np.clip(bounds[i : i + 2], ends[:, :1], ends[:, 1:])
        if np.ptp(x, axis=1).max() > INSIDE:
            faces = place.points(x, depths, name, inside)
            meets = wall_name if kind == "joint" else ""
            runs.append(Run(kind, meets, faces[0], faces[1]))
    return runs


def _recesses(place: BoardPlace) -> tuple[Recess, ...]:
    """Return what is taken out of the underside for the walls."""
    shape, t, depth = place.shape, place.shape.deck_thickness, place.shape.depth
    if shape.plan.through == "walls" or depth == 0:
        return ()
    made = []
    for name in SIDES:
        shapes = list[Outline]()
        for h in (t, t - depth):
            outside = _side_line(place, name, h, 0.0)
            inside = _side_line(place, name, h, shape.wall_thickness(name))
            flat = place.frame.flat(np.concatenate([outside, inside[::-1]]))
            shapes.append(tuple((float(u), float(v)) for u, v in flat))
        kind: Literal["rebate", "housing"] = "housing" if shape.lip > 0 else "rebate"
        made.append(Recess(kind, "inner", depth, shapes[0], shapes[1], f"{name} wall"))
    return tuple(made)
