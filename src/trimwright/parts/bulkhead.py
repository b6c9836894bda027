"""A bulkhead: an upright flat panel across the console, scribed over the tunnel."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from trimwright.parts.frame import Array, Frame
from trimwright.parts.panel import Panel, Run, outlines
from trimwright.parts.plan import BulkheadPlan
from trimwright.parts.scribe import LEVELS, Levels, Line
from trimwright.parts.shape import Shape
from trimwright.parts.side import SideName
from trimwright.parts.skin import Skin, plane_cut
from trimwright.parts.slab import THIN, Slab, slab
from trimwright.parts.wall import between, split_depths

SIDES: tuple[SideName, SideName] = ("left", "right")
BESIDE = 1e-3  # mm; how steeply a bulkhead drops beside the tunnel's foot
FOOT_STEPS = 4  # points between a bulkhead's top corner and its foot, which lean sets apart


@dataclass(frozen=True, slots=True)
class BulkheadPlace:
    """One bulkhead in the carcass. Its outer face looks rearward."""

    shape: Shape
    plan: BulkheadPlan

    @property
    def thickness(self) -> float:
        """Of its sheet [mm]."""
        return self.shape.plan.thickness_of(self.plan.name)

    @property
    def rear(self) -> float:
        """Place of its outer face along the car [mm]."""
        return self.plan.at + self.thickness / 2

    @property
    def front(self) -> float:
        """Place of its inner face along the car [mm]."""
        return self.plan.at - self.thickness / 2

    @property
    def frame(self) -> Frame:
        """Axes: u to the right, v up, n rearward."""
        return Frame((self.rear, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))

    def inside(self, name: SideName) -> float:
        """How deep below the wall's outer face its edge lies [mm]."""
        t = self.shape.wall_thickness(name)
        return t - self.shape.plan.joint_depth if self.plan.joint == "housing" else t

    def half(self, name: SideName, depth_mm: float, z: Array) -> Array:
        """Return signed y of an edge at a depth below the outer face [mm]."""
        side = self.shape.side(name)
        return side.sign * side.reach(np.asarray(self.rear - depth_mm), z, self.inside(name))

    def top(self, depth_mm: float) -> float:
        """Height of the deck's underside at a depth [mm]."""
        x = np.asarray(self.rear - depth_mm)
        return float(self.shape.deck.height(x, self.shape.deck_thickness))


def bulkhead_levels(place: BulkheadPlace, skin: Skin, floor_z: float | None) -> Levels:
    """Return the covered tunnel as the planes of a bulkhead cut it, left to right.

    Parameters
    ----------
    place : BulkheadPlace
        Which bulkhead.
    skin : Skin
        The covered tunnel; it must reach past both faces.
    floor_z : float or None
        Height of the covered floor beyond the tunnel's feet [mm], if known.

    Returns
    -------
    Levels
        What tucks in under the widest place is left out: a panel from above clears that place.
    """
    depths = np.linspace(0.0, place.thickness, LEVELS)
    along = skin.turned()
    normal = np.array((1.0, 0.0, 0.0))
    low, high = along.points[:, :, 0].min(axis=1).max(), along.points[:, :, 0].max(axis=1).min()
    inside = np.clip(place.rear - depths, low + THIN, high - THIN)
    cut = plane_cut(along, normal, inside)
    middle = LEVELS // 2
    run, z = cut.points[..., 1], cut.points[..., 2]
    shared = [_rising(run[k], z[k]) for k in range(LEVELS)]
    grid = shared[0]
    heights = np.stack([np.interp(grid[0], *line) for line in shared])
    slope = np.degrees(np.arcsin(np.clip(np.abs(cut.normals[middle, :, 0]), 0.0, 1.0)))
    order = np.argsort(run[middle], kind="stable")
    y = grid[0]
    slope = np.interp(y, run[middle][order], slope[order])
    low_z = heights[0, [0, -1]] if floor_z is None else np.full(2, floor_z)
    y = np.concatenate([y[0] - BESIDE * np.arange(2, 0, -1), y, y[-1] + BESIDE * np.arange(1, 3)])
    foot = np.ones((LEVELS, 2))
    heights = np.hstack([foot * low_z[0], np.maximum(heights, low_z.min()), foot * low_z[1]])
    missed = np.zeros(y.size, dtype=np.bool_)
    missed[[0, 1, -2, -1]] = True
    slope = np.where(missed, 0.0, np.concatenate([[0.0, 0.0], slope, [0.0, 0.0]]))
    bottom = np.asarray(heights.min())
    halves = [float(place.half(name, 0.0, bottom)) for name in SIDES]
    slope[(y < halves[0]) | (y > halves[1])] = 0.0  # no panel there
    return Levels(place.thickness, (0.0, 0.0), np.stack([y] * LEVELS), heights, slope, missed)


def _rising(y: Array, z: Array) -> tuple[Array, Array]:
    """Return the outline of a section seen from above: y rising, what tucks in left out."""
    crown = int(np.argmax(z))
    right = np.maximum.accumulate(y[crown:])
    left = np.minimum.accumulate(y[: crown + 1][::-1])
    keep_right = np.concatenate([[True], np.diff(right) > THIN])
    keep_left = np.concatenate([[True], np.diff(left) < -THIN])
    index = np.concatenate(
        [crown - np.flatnonzero(keep_left)[::-1], crown + np.flatnonzero(keep_right)[1:]]
    )
    return y[index], z[index]


@dataclass(frozen=True, slots=True)
class _Face:
    """A bulkhead at one depth: y of its top corners, its feet, and the chain below and above."""

    top_left: float
    foot_left: float
    top_right: float
    foot_right: float


def _face(place: BulkheadPlace, line: Line, depth: float) -> _Face:
    """Return the corners of the bulkhead at a depth."""
    top = np.asarray(place.top(depth))
    feet = {name: _foot(place, line, depth, name) for name in SIDES}
    left, right = (float(place.half(name, depth, top)) for name in SIDES)
    return _Face(left, feet["left"], right, feet["right"])


def _foot(place: BulkheadPlace, line: Line, depth: float, name: SideName) -> float:
    """Return y where an edge of the bulkhead comes down on the lower edge."""
    sign = 1.0 if name == "right" else -1.0
    run = line.run if sign > 0 else line.run[::-1]
    z = line.height(run, depth)
    room = sign * (place.half(name, depth, z) - run)
    outside = np.flatnonzero(room <= 0)
    if outside.size == 0:
        return float(place.half(name, depth, z[-1:])[0])
    j = int(outside[0])
    if j == 0:
        return float(place.half(name, depth, z[:1])[0])
    share = room[j - 1] / (room[j - 1] - room[j])
    return float(run[j - 1] + share * (run[j] - run[j - 1]))


def bulkhead(place: BulkheadPlace, line: Line) -> Panel:
    """Return one bulkhead.

    Parameters
    ----------
    place : BulkheadPlace
        Where it stands.
    line : Line
        Its lower edge.

    Returns
    -------
    Panel
    """
    shape = place.shape
    frame = place.frame
    outer, inner, edges = outlines(_runs(place, line), frame, place.thickness)
    return Panel(
        place.plan.name,
        shape.plan.material,
        place.thickness,
        shape.plan.density,
        frame,
        outer,
        inner,
        edges,
        (),
        (),
        "across",
        ("this face rearward", "up", "right"),
        tuple(_slabs(place, line)),
    )


def passing_depths(place: BulkheadPlace) -> list[float]:
    """Return depths at which the deck or a wall kinks, the two faces included [mm].

    Parameters
    ----------
    place : BulkheadPlace
        Where it stands.

    Returns
    -------
    list of float
        Rising.
    """
    shape = place.shape
    x = [shape.deck.kinks(shape.deck_thickness)]
    x += [shape.side(name).bounds(place.inside(name))[1:-1] for name in SIDES]
    kinks = np.concatenate(x)
    return split_depths(
        (0.0, place.thickness), lambda w: np.array([place.rear - w]), lambda _: kinks
    )


def _slabs(place: BulkheadPlace, line: Line) -> list[Slab]:
    """Return the middle of the bulkhead and the wedges over its feet, level by level."""
    made = []
    cuts = passing_depths(place)
    for depths in pairwise(cuts):
        faces = [_face(place, line, w) for w in depths]
        for part in range(3):
            levels = [
                _part(place, line, w, face, part) for w, face in zip(depths, faces, strict=True)
            ]
            if max(float(np.ptp(low[:, 0])) for low, _ in levels) > THIN:
                lower, upper = [low for low, _ in levels], [high for _, high in levels]
                made.append(slab(depths, lower, upper))
    return made


def _part(
    place: BulkheadPlace, line: Line, depth: float, face: _Face, part: int
) -> tuple[Array, Array]:
    """Return both chains of the left wedge (0), the middle (1) or the right wedge (2)."""
    top = place.top(depth)
    middle = max(face.top_left, face.foot_left), min(face.top_right, face.foot_right)
    if part == 1:
        y = np.array((middle[0], *_inner(place, line), middle[1]))
        return (
            np.column_stack([y, line.height(y, depth)]),
            np.column_stack([y, np.full(y.size, top)]),
        )
    name = SIDES[part // 2]
    corner, foot = (
        (face.top_left, face.foot_left) if part == 0 else (face.top_right, face.foot_right)
    )
    share = np.linspace(0.0, 1.0, FOOT_STEPS + 1)
    y = corner + share * (foot - corner)
    low_z = float(line.height(np.array([foot]), depth)[0])
    edge = np.column_stack([y, top + share * (low_z - top)])
    spreads = (foot - corner) * (1 if name == "right" else -1) > 0
    other = line.height(y, depth) if spreads else np.full(y.size, top)
    across = np.column_stack([y, other])
    return (across, edge) if spreads else (edge, across)


def _inner(place: BulkheadPlace, line: Line) -> Array:
    """Return the places of the lower edge's points that lie in the middle at both faces."""
    faces = [_face(place, line, w) for w in (0.0, place.thickness)]
    low = max(max(face.top_left, face.foot_left) for face in faces)
    high = min(min(face.top_right, face.foot_right) for face in faces)
    return between(line.run, low, high)


def bulkhead_bottom(place: BulkheadPlace, line: Line, depth: float) -> Array:
    """Return the lower edge of a bulkhead at a depth below its outer face.

    Parameters
    ----------
    place : BulkheadPlace
        Where it stands.
    line : Line
        Its lower edge.
    depth : float
        Depth [mm].

    Returns
    -------
    ndarray, shape (n, 3)
        Points in car axes, left to right [mm].
    """
    face = _face(place, line, depth)
    chains = []
    for part, corner, foot in (
        (0, face.top_left, face.foot_left),
        (1, 0.0, 0.0),
        (2, face.foot_right, face.top_right),
    ):
        if part != 1 and foot >= corner:
            continue
        low = _part(place, line, depth, face, part)[0]
        chains.append(low[np.argsort(low[:, 0], kind="stable")])
    flat = np.concatenate(chains)
    return place.frame.placed(flat, depth)


def _runs(place: BulkheadPlace, line: Line) -> tuple[Run, ...]:
    """Return the sides in order: bottom to the right, right edge up, top, left edge down."""
    shape, t = place.shape, place.thickness
    bottom = [bulkhead_bottom(place, line, w) for w in (0.0, t)]
    tops = []
    for w in (0.0, t):
        face = _face(place, line, w)
        flat = np.array(((face.top_right, place.top(w)), (face.top_left, place.top(w))))
        tops.append(place.frame.placed(flat, w))
    steepest = float(line.slope_deg.max()) if line.form == "bevelled" else 0.0
    middle = place.plan.at
    walls = [
        shape.wall_names(n)[_piece(shape.side(n).bounds(place.inside(n)), middle)] for n in SIDES
    ]
    deck = shape.deck_names()[_piece(shape.deck.line(shape.deck_thickness)[:, 0], middle)]
    right = [np.array((bottom[k][-1], tops[k][0])) for k in (0, 1)]
    left = [np.array((tops[k][1], bottom[k][0])) for k in (0, 1)]
    return (
        Run("scribe", "tunnel", bottom[0], bottom[1], steepest, line.longer),
        Run("joint", walls[1], right[0], right[1]),
        Run("joint", deck, tops[0], tops[1]),
        Run("joint", walls[0], left[0], left[1]),
    )


def _piece(bounds: Array, x: float) -> int:
    """Return the number of the piece that holds a place."""
    return int(np.clip(np.searchsorted(bounds, x, side="right") - 1, 0, len(bounds) - 2))
