"""A wall of the carcass: a leaning flat panel, scribed below."""

from collections.abc import Callable
from itertools import pairwise
from typing import Literal

import numpy as np
from msgspec import Struct

from trimwright.parts.frame import Array, Frame
from trimwright.parts.panel import Outline, Panel, Recess, Run, outlines
from trimwright.parts.scribe import Line
from trimwright.parts.shape import Shape
from trimwright.parts.side import Side, SideName
from trimwright.parts.slab import THIN, Slab, slab

INSIDE = 1e-6  # mm; a point this close to an end is the end


class WallPlace(Struct, frozen=True):
    """One wall of a side: which piece of it."""

    shape: Shape
    name: SideName
    piece: int

    @property
    def side(self) -> Side:
        """The planes of its side."""
        return self.shape.side(self.name)

    @property
    def thickness(self) -> float:
        """Of its sheet [mm]."""
        return self.shape.wall_thickness(self.name)

    def ends(self, depth_mm: float) -> tuple[float, float]:
        """Return its front and rear x at a depth below the outer face [mm]."""
        bounds = self.side.bounds(depth_mm)
        return float(bounds[self.piece]), float(bounds[self.piece + 1])

    def points(self, x: Array, z: Array, depth_mm: Array | float) -> Array:
        """Return points of its plane at depths, shape (..., 3) [mm]; all three broadcast."""
        side, i = self.side, self.piece
        y = side.sign * (side.a[i] - depth_mm * side.stretch[i] + side.b[i] * x - side.c * z)
        found = np.empty((*y.shape, 3))
        found[..., 0], found[..., 1], found[..., 2] = x, y, z
        return found


class _Zone(Struct, frozen=True):
    """A piece of a wall: depths, ends, what bounds it below and above (depths below the deck)."""

    depths: tuple[float, float]
    ends: tuple[float, float] | None  # x of a groove or between grooves; None where the wall ends
    low: float | None  # None: the scribed edge
    top: float


def wall(
    place: WallPlace,
    line: Line,
    grooves: tuple[tuple[float, float, str], ...],
    bottoms: tuple[Array, Array],
) -> Panel:
    """Return one wall.

    Parameters
    ----------
    place : WallPlace
        Which wall.
    line : Line
        Its lower edge.
    grooves : tuple of (front x, rear x, bulkhead)
        Housings for bulkheads that lie wholly in this wall, front to rear [mm].
    bottoms : tuple of two ndarrays
        As `wall_bottoms` gives them.

    Returns
    -------
    Panel
    """
    shape = place.shape
    frame = place.side.frame(place.piece)
    slabs = [s for zone in _zones(place, grooves) for s in _slabs(place, line, zone, frame)]
    outer, inner, edges = outlines(_runs(place, line, bottoms), frame, place.thickness)
    return Panel(
        shape.wall_names(place.name)[place.piece],
        shape.plan.material,
        place.thickness,
        shape.plan.density,
        frame,
        outer,
        inner,
        edges,
        _recesses(place, line, grooves, frame),
        (),
        "along",
        ("this face out", "front", "up"),
        tuple(slabs),
    )


def _zones(place: WallPlace, grooves: tuple[tuple[float, float, str], ...]) -> list[_Zone]:
    """Return what the wall is made of once its recesses are out."""
    shape, t = place.shape, place.thickness
    top, under = shape.wall_top, shape.deck_thickness
    stepped = shape.plan.through == "walls" and shape.depth > 0
    if not stepped and not grooves:
        return [_Zone((0.0, t), None, None, top)]
    inside = (t - shape.plan.joint_depth, t)
    zones = [_Zone((0.0, inside[0]), None, None, top)]
    front, rear = place.ends(inside[0])
    starts = [None, *(groove[1] for groove in grooves)]
    stops = [*(groove[0] for groove in grooves), None]
    for start, stop in zip(starts, stops, strict=True):
        ends = (start if start is not None else -np.inf, stop if stop is not None else np.inf)
        if max(ends[0], front) < min(ends[1], rear) - INSIDE:
            zones.append(_Zone(inside, ends, None, under))
    if not stepped and top < under:
        zones.append(_Zone(inside, None, under, top))
    if stepped and shape.lip > 0:
        zones.append(_Zone(inside, None, 0.0, top))
    return zones


def _slabs(place: WallPlace, line: Line, zone: _Zone, frame: Frame) -> list[Slab]:
    """Return the slabs of a zone, split where an end passes a kink of the deck."""
    deck = place.shape.deck
    kinks = np.concatenate([deck.kinks(h) for h in (zone.low, zone.top) if h is not None])
    cuts = split_depths(zone.depths, lambda w: np.array(_ends(place, zone, w)), lambda _: kinks)
    free = line.run if zone.low is None else np.zeros(0)
    made = []
    for w0, w1 in pairwise(cuts):
        spans = np.array((_ends(place, zone, w0), _ends(place, zone, w1)))
        corners = corners_between(kinks, spans)
        inner = between(np.concatenate([corners, free]), spans[:, 0].max(), spans[:, 1].min())
        inner = np.union1d(inner, corners)
        x = np.empty((2, len(inner) + 2))
        x[:, 0], x[:, -1] = spans.T
        x[:, 1:-1] = np.minimum(np.maximum(inner, spans[:, :1]), spans[:, 1:])
        w = np.array(((w0,), (w1,)))
        low = line.height(x, w) if zone.low is None else deck.height(x, zone.low)
        flat = frame.flat(place.points(x, np.stack([low, deck.height(x, zone.top)]), w))
        made.append(slab((w0, w1), flat[0], flat[1]))
    return made


def _ends(place: WallPlace, zone: _Zone, depth: float) -> tuple[float, float]:
    """Front and rear of a zone at a depth."""
    front, rear = place.ends(depth)
    if zone.ends is None:
        return front, rear
    return max(front, zone.ends[0]), min(rear, zone.ends[1])


def split_depths(
    depths: tuple[float, float],
    moving: Callable[[float], Array],
    others: Callable[[float], Array],
) -> list[float]:
    """Return depths at which a slab must be split because two of its corners pass each other.

    Parameters
    ----------
    depths : two floats
        Where the slab begins and ends [mm].
    moving, others : callable
        Places at a depth, each of which moves evenly with depth [mm].

    Returns
    -------
    list of float
        Rising, both ends included.

    Examples
    --------
    >>> split_depths((0.0, 12.0), lambda w: np.array([w]), lambda _: np.array([3.0, 50.0]))
    [0.0, 3.0, 12.0]
    """
    w0, w1 = depths
    gap0 = moving(w0)[:, None] - others(w0)[None]
    gap1 = moving(w1)[:, None] - others(w1)[None]
    passing = gap0 * gap1 < 0
    share = gap0[passing] / (gap0[passing] - gap1[passing])
    found = sorted({float(w0 + s * (w1 - w0)) for s in share})
    cuts = [w0]
    for w in found:
        if w - cuts[-1] > THIN and w1 - w > THIN:
            cuts.append(w)
    return [*cuts, w1]


def between(values: Array, low: float, high: float) -> Array:
    """Return the values strictly between two ends, rising, close ones once.

    Parameters
    ----------
    values : ndarray, shape (n,)
        Places [mm].
    low, high : float
        Ends [mm].

    Returns
    -------
    ndarray

    Examples
    --------
    >>> between(np.array([3.0, 1.0, 2.0, 2.0, 9.0]), 1.0, 5.0)
    array([2., 3.])
    """
    rising = np.sort(values[(values > low + INSIDE) & (values < high - INSIDE)])
    if rising.size < 2:  # noqa: PLR2004  nothing to compare
        return rising
    return np.asarray(rising[np.concatenate([[True], np.diff(rising) > INSIDE])])


def corners_between(corners: Array, spans: Array) -> Array:
    """Return the corners that a slab needs between its ends.

    Parameters
    ----------
    corners : ndarray, shape (n,)
        Places [mm].
    spans : ndarray, shape (2, 2)
        Ends of the slab at both of its levels [mm].

    Returns
    -------
    ndarray
        Rising. A corner that lies on an end at one level and inside at the other counts.

    Examples
    --------
    >>> corners_between(np.array([2.0, 5.0]), np.array([[0.0, 5.0], [0.0, 6.0]]))
    array([2., 5.])
    """
    low, high = spans[:, 0], spans[:, 1]
    within = (corners >= low.max() - INSIDE) & (corners <= high.min() + INSIDE)
    within &= (corners > low.min() + INSIDE) & (corners < high.max() - INSIDE)
    return between(corners[within], -np.inf, np.inf)


def _runs(place: WallPlace, line: Line, bottom: tuple[Array, Array]) -> tuple[Run, ...]:
    """Return the sides of the wall in order: bottom rearward, up, top forward, down."""
    shape, t = place.shape, place.thickness
    names = shape.wall_names(place.name)
    tops = [_top(place, w, shape.wall_top) for w in (0.0, t)]
    steepest = float(line.slope_deg.max()) if line.form == "bevelled" else 0.0
    runs = [Run("scribe", "tunnel", bottom[0], bottom[1], steepest, line.longer)]
    after = names[place.piece + 1] if place.piece + 1 < len(names) else ""
    before = names[place.piece - 1] if place.piece else ""
    rear = [np.array((bottom[k][-1], tops[k][-1])) for k in (0, 1)]
    front = [np.array((tops[k][0], bottom[k][0])) for k in (0, 1)]
    runs.append(Run("mitre" if after else "free", after, rear[0], rear[1]))
    runs += reversed(_top_runs(place))
    runs.append(Run("mitre" if before else "free", before, front[0], front[1]))
    return tuple(runs)


def wall_bottoms(place: WallPlace, line: Line) -> tuple[Array, Array]:
    """Return the lower edge of a wall on its outer and on its inner face.

    Parameters
    ----------
    place : WallPlace
        Which wall.
    line : Line
        Its lower edge.

    Returns
    -------
    tuple of two ndarrays, shape (n, 3)
        Points in car axes, front to rear, of equal number [mm].
    """
    depths = (0.0, place.thickness)
    ends = [place.ends(w) for w in depths]
    inner = between(line.run, max(e[0] for e in ends), min(e[1] for e in ends))
    made = []
    for w, (front, rear) in zip(depths, ends, strict=True):
        x = np.concatenate([[front], inner, [rear]])
        made.append(place.points(x, line.height(x, w), w))
    return made[0], made[1]


def _top(place: WallPlace, depth: float, below_deck: float) -> Array:
    """Return a line parallel to the deck on the wall at a depth, in car axes."""
    front, rear = place.ends(depth)
    x = np.array((front, *between(place.shape.deck.kinks(below_deck), front, rear), rear))
    return place.points(x, place.shape.deck.height(x, below_deck), depth)


def _top_runs(place: WallPlace) -> list[Run]:
    """Return the top edge, deck by deck, front to rear, each turned forward."""
    shape = place.shape
    rests = shape.plan.through == "deck"
    kinks = shape.deck.line(shape.wall_top)[:, 0]
    depths = np.array(((0.0,), (place.thickness,)))
    ends = np.array([place.ends(0.0), place.ends(place.thickness)])
    runs = []
    for k, deck in enumerate(shape.deck_names()):
        x = np.clip(kinks[k : k + 2], ends[:, :1], ends[:, 1:])[:, ::-1]
        if np.ptp(x, axis=1).max() > INSIDE:
            faces = place.points(x, shape.deck.height(x, shape.wall_top), depths)
            kind: Literal["joint", "free"] = "joint" if rests else "free"
            runs.append(Run(kind, deck if rests else "", faces[0], faces[1]))
    return runs


def _recesses(
    place: WallPlace, line: Line, grooves: tuple[tuple[float, float, str], ...], frame: Frame
) -> tuple[Recess, ...]:
    """Return what is taken out of the inner face."""
    shape, t = place.shape, place.thickness
    depth = shape.plan.joint_depth
    made = list[Recess]()
    if shape.plan.through == "walls" and shape.depth > 0:
        faces = [
            np.concatenate(
                [_top(place, w, shape.deck_thickness), _top(place, w, 0.0)[::-1]], axis=0
            )
            for w in (t, t - depth)
        ]
        kind: Literal["rebate", "housing"] = "rebate" if shape.lip == 0 else "housing"
        shapes = [_outline(frame, face) for face in faces]
        made.append(Recess(kind, "inner", depth, shapes[0], shapes[1], "deck"))
    for start, stop, name in grooves:
        shapes = []
        for w in (t, t - depth):
            x = np.array((start, *between(line.run, start, stop), stop))
            low = place.points(x, line.height(x, w), w)
            high = place.points(x, shape.deck.height(x, shape.deck_thickness), w)
            shapes.append(_outline(frame, np.concatenate([low, high[::-1]])))
        made.append(Recess("housing", "inner", depth, shapes[0], shapes[1], name))
    return tuple(made)


def _outline(frame: Frame, points: Array) -> Outline:
    """Return a polygon in panel axes, hashable."""
    return tuple((float(u), float(v)) for u, v in frame.flat(points))
