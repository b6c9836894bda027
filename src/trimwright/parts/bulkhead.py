"""A bulkhead: an upright flat panel across the console, scribed over the tunnel."""

from functools import lru_cache
from itertools import pairwise

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from trimwright.parts.frame import Array, Frame
from trimwright.parts.panel import Panel, Run, outlines
from trimwright.parts.plan import BulkheadPlan
from trimwright.parts.scribe import LEVELS, Levels, Line, edge_line
from trimwright.parts.shape import Shape
from trimwright.parts.side import SideName
from trimwright.parts.skin import Skin, plane_cut
from trimwright.parts.slab import THIN, Slab, slab
from trimwright.parts.wall import between, split_depths

SIDES: tuple[SideName, SideName] = ("left", "right")
BESIDE = 1e-3  # mm; how steeply a bulkhead drops beside the tunnel's foot
FOOT_SHARES = np.linspace(0.0, 1.0, 5)  # of the way from a top corner to a foot apart by lean


class BulkheadPlace(Struct, frozen=True):
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


def bulkhead_line(place: BulkheadPlace, skin: Skin) -> Line:
    """Return the lower edge of a bulkhead as the covered tunnel asks for it, left to right.

    Parameters
    ----------
    place : BulkheadPlace
        Which bulkhead.
    skin : Skin
        The covered tunnel; it must reach past both faces. Beyond its feet the edge follows the
        floor, or the foot where the floor is not known.

    Returns
    -------
    Line
        What tucks in under the widest place is left out: a panel from above clears that place.
    """
    plan = place.shape.plan
    levels = _levels(skin, place.rear, place.thickness, plan.floor_z)
    bottom = np.asarray(levels.height.min())
    left, right = (float(place.half(name, 0.0, bottom)) for name in SIDES)
    y = levels.run[0]
    beside = (y < left) | (y > right)  # no panel there
    levels = replace(levels, slope_deg=np.where(beside, 0.0, levels.slope_deg))
    return edge_line(levels, plan.edge, plan.tilt_deg)


@lru_cache(maxsize=256)
def _levels(skin: Skin, rear: float, thickness: float, floor_z: float | None) -> Levels:
    """Return the covered tunnel as the planes of a sheet across it cut it."""
    depths = np.linspace(0.0, thickness, LEVELS)
    inside = np.clip(rear - depths, *skin.full_length(THIN))
    near = skin.part(skin.rows_along(float(inside[-1]), float(inside[0])))
    cut = plane_cut(near.turned(), np.array((1.0, 0.0, 0.0)), inside)
    middle = LEVELS // 2
    run, z = cut.points[..., 1], cut.points[..., 2]
    shared = [_rising(run[k], z[k]) for k in range(LEVELS)]
    y = shared[0][0]
    heights = np.stack([np.interp(y, *line) for line in shared])
    slope = np.degrees(np.arcsin(np.clip(np.abs(cut.normals[middle, :, 0]), 0.0, 1.0)))
    order = np.argsort(run[middle], kind="stable")
    slope = np.interp(y, run[middle][order], slope[order])
    low_z = heights[0, [0, -1]] if floor_z is None else np.full(2, floor_z)
    y = np.concatenate([y[0] - BESIDE * np.arange(2, 0, -1), y, y[-1] + BESIDE * np.arange(1, 3)])
    foot = np.ones((LEVELS, 2))
    heights = np.hstack([foot * low_z[0], np.maximum(heights, low_z.min()), foot * low_z[1]])
    missed = np.zeros(y.size, dtype=np.bool_)
    missed[[0, 1, -2, -1]] = True
    slope = np.where(missed, 0.0, np.concatenate([[0.0, 0.0], slope, [0.0, 0.0]]))
    return Levels(thickness, (0.0, 0.0), np.stack([y] * LEVELS), heights, slope, missed)


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


class _Face(Struct, frozen=True):
    """A bulkhead at one depth: its deck's height, y of its top corners and of its feet."""

    depth: float
    top: float
    top_left: float
    foot_left: float
    top_right: float
    foot_right: float

    @property
    def middle(self) -> tuple[float, float]:
        """Ends of what stands upright between the deck and the lower edge."""
        return max(self.top_left, self.foot_left), min(self.top_right, self.foot_right)


def _face(place: BulkheadPlace, line: Line, depth: float) -> _Face:
    """Return the corners of the bulkhead at a depth."""
    top = place.top(depth)
    low = line.height(line.run, depth)
    feet = [_foot(line.run, place.half(name, depth, low), name) for name in SIDES]
    left, right = (float(place.half(name, depth, np.asarray(top))) for name in SIDES)
    return _Face(depth, top, left, feet[0], right, feet[1])


def _foot(run: Array, half: Array, name: SideName) -> float:
    """Return y where an edge of the bulkhead comes down on the lower edge, `half` at `run`."""
    sign = 1.0 if name == "right" else -1.0
    outward = slice(None, None, int(sign))
    run, half = run[outward], half[outward]
    room = sign * (half - run)
    outside = np.flatnonzero(room <= 0)
    if outside.size == 0:
        return float(half[-1])
    j = int(outside[0])
    if j == 0:
        return float(half[0])
    share = room[j - 1] / (room[j - 1] - room[j])
    return float(run[j - 1] + share * (run[j] - run[j - 1]))


class Standing(Struct, frozen=True, eq=False):
    """A bulkhead on its lower edge: its faces at each depth where the deck or a wall kinks.

    `bottoms` is the lower edge on the outer and the inner face, left to right, each (n, 3) [mm].
    """

    place: BulkheadPlace
    line: Line
    faces: tuple[_Face, ...]
    inner: Array  # y of the lower edge's points that lie in the middle at both faces
    bottoms: tuple[Array, Array]


def standing(place: BulkheadPlace, line: Line) -> Standing:
    """Return a bulkhead on its lower edge.

    Parameters
    ----------
    place : BulkheadPlace
        Where it stands.
    line : Line
        Its lower edge.

    Returns
    -------
    Standing
    """
    faces = tuple(_face(place, line, w) for w in passing_depths(place))
    ends = [face.middle for face in (faces[0], faces[-1])]
    inner = between(line.run, max(end[0] for end in ends), min(end[1] for end in ends))
    outer, back = (_bottom(place, line, face, inner) for face in (faces[0], faces[-1]))
    return Standing(place, line, faces, inner, (outer, back))


def bulkhead(stands: Standing) -> Panel:
    """Return one bulkhead.

    Parameters
    ----------
    stands : Standing
        Where it stands, on which lower edge.

    Returns
    -------
    Panel
    """
    place = stands.place
    plan, frame = place.shape.plan, place.frame
    outer, inner, edges = outlines(_runs(stands), frame, place.thickness)
    return Panel(
        place.plan.name,
        plan.material,
        place.thickness,
        plan.density,
        frame,
        outer,
        inner,
        edges,
        (),
        (),
        "across",
        ("this face rearward", "up", "right"),
        tuple(_slabs(stands)),
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


def _slabs(stands: Standing) -> list[Slab]:
    """Return the middle of the bulkhead and the wedges over its feet, level by level."""
    made = []
    levels = [
        [_part(stands.line, face, stands.inner, k) for k in range(3)] for face in stands.faces
    ]
    for (face, parts), (next_face, next_parts) in pairwise(zip(stands.faces, levels, strict=True)):
        for one, other in zip(parts, next_parts, strict=True):
            if max(float(np.ptp(low[:, 0])) for low, _ in (one, other)) > THIN:
                depths = (face.depth, next_face.depth)
                made.append(slab(depths, (one[0], other[0]), (one[1], other[1])))
    return made


def _part(line: Line, face: _Face, inner: Array, part: int) -> tuple[Array, Array]:
    """Return both chains of the left wedge (0), the middle (1) or the right wedge (2)."""
    top = face.top
    if part == 1:
        y = np.array((face.middle[0], *inner, face.middle[1]))
        return _chain(y, line.height(y, face.depth)), _chain(y, top)
    corner, foot = (
        (face.top_left, face.foot_left) if part == 0 else (face.top_right, face.foot_right)
    )
    y = corner + FOOT_SHARES * (foot - corner)
    low = line.height(y, face.depth)
    low_z = float(line.height(np.array([foot]), face.depth)[0])
    edge = _chain(y, top + FOOT_SHARES * (low_z - top))
    spreads = (foot - corner) * (1 if part else -1) > 0
    across = _chain(y, low if spreads else top)
    return (across, edge) if spreads else (edge, across)


def _chain(y: Array, z: Array | float) -> Array:
    """Return points (n, 2)."""
    points = np.empty((y.size, 2))
    points[:, 0], points[:, 1] = y, z
    return points


def _bottom(place: BulkheadPlace, line: Line, face: _Face, inner: Array) -> Array:
    """Return the lower edge of a bulkhead at the depth of a face, left to right, (n, 3)."""
    chains = []
    for part, corner, foot in (
        (0, face.top_left, face.foot_left),
        (1, 0.0, 0.0),
        (2, face.foot_right, face.top_right),
    ):
        if part != 1 and foot >= corner:
            continue
        low = _part(line, face, inner, part)[0]
        chains.append(low[np.argsort(low[:, 0], kind="stable")])
    return place.frame.placed(np.concatenate(chains), face.depth)


def _runs(stands: Standing) -> tuple[Run, ...]:
    """Return the sides in order: bottom to the right, right edge up, top, left edge down."""
    place, line, bottom = stands.place, stands.line, stands.bottoms
    shape, frame = place.shape, place.frame
    tops = []
    for face in (stands.faces[0], stands.faces[-1]):
        flat = np.array(((face.top_right, face.top), (face.top_left, face.top)))
        tops.append(frame.placed(flat, face.depth))
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
