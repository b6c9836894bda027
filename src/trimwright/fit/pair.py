"""Convex pieces of the console against convex pieces of the car, in every world."""

from collections.abc import Callable, Sequence
from functools import lru_cache

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.car import World
from trimwright.fit.apart import Reach, least_rooms
from trimwright.fit.convex import Piece, apart, candidate_directions, room_along, separation
from trimwright.fit.gap import Gap, Point
from trimwright.fit.pieces import panel_pieces
from trimwright.fit.shell import outside, turned_in_mm
from trimwright.fit.source import Found, Scene, point
from trimwright.parts import Carcass, Panel

Floats = NDArray[np.float64]
SPARE_MM = 25.0  # pairs this much further apart than the nearest are kept too
MOST_PAIRS = 6
AT_ONCE = 8  # pairs whose distance is found together
TOUCH_MM = 1e-9  # rounding of a bound
MORE_DIRECTIONS = 3  # beside the nominal one, per pair
ALIKE = 1e-9  # directions that differ by less in every coordinate are one


class Solid(Struct, frozen=True, eq=False):
    """A convex piece of the car: corners (rows, k, 3) and coat (rows,) [mm]."""

    corners: Floats
    coat: Floats


Solids = Callable[[World], tuple[Solid, ...]]


class Own(Struct, frozen=True):
    """A convex piece of a panel; the second half of its corners lies on the outer face."""

    panel: Panel
    piece: Piece


class Pair(Struct, frozen=True, eq=False):
    """A piece of the console and one of the car, and the direction they are measured along.

    `pieces` are both in the nominal row, where they are nearest along `way`; in other rows more
    `directions` count, which are found when they are first asked for.
    """

    own: Own
    other: int
    pieces: tuple[Piece, Piece]
    way: Floats

    def directions(self, scene: Scene) -> Floats:
        """Return the directions that count in a scene, shape (n, 3), the nominal one first."""
        return self.way[None] if scene.world.as_read else _directions(self)


class Clearance(Struct, frozen=True, eq=False):
    """The least room between the console and one thing of the car.

    The room of a row is the largest along a few directions, so it is never more than the true
    signed distance. It equals it to the first order in what differs from the nominal row where faces
    meet; where a rod passes an edge it may read too small, as its nearest way turns with the row.
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
        others = self.solids(scene.world)
        placed = at_rest([pair.own for pair in self.pairs], scene)
        rooms, ends = [], []
        for pair, own in zip(self.pairs, placed, strict=True):
            other = others[pair.other]
            ways = pair.directions(scene)
            along = rooms_along(own, other.corners, ways)
            rooms.append(along.max(axis=0) - other.coat)
            ends.append((own[0], other, ways[int(np.argmax(along[:, 0]))]))
        room = np.stack(rooms, axis=-1)
        own_0, other, way = ends[int(np.argmin(room[0]))]
        return Found(room.min(axis=1)[:, None], (between(own_0, other, way),))


def rooms_along(own: Floats, other: Floats, directions: Floats) -> Floats:
    """Return `room_along` with the rows last, (directions, rows), which is several times quicker."""
    mine, theirs = (np.ascontiguousarray(c.transpose(1, 2, 0)) for c in (own, other))
    return np.asarray((directions @ theirs).min(axis=0) - (directions @ mine).max(axis=0))


def between(own: Floats, other: Solid, way: Floats) -> tuple[Point, Point]:
    """Return a point on either body, the room apart along `way`, where they come together."""
    low = np.maximum(own.min(axis=0), other.corners[0].min(axis=0))
    high = np.minimum(own.max(axis=0), other.corners[0].max(axis=0))
    middle = 0.5 * (low + high)
    ends = (float((own @ way).max()), float((other.corners[0] @ way).min() - other.coat[0]))
    here = float(middle @ way)
    near, far = (point(middle + (end - here) * way) for end in ends)
    return near, far


def own_pieces(carcass: Carcass, world: World) -> tuple[Own, ...]:
    """Return every panel in convex pieces, openings narrowed by the leather turned in."""
    turned = float(turned_in_mm(world)[0])
    return tuple(own for panel in carcass.panels for own in _owns(panel, turned))


@lru_cache(maxsize=256)
def _owns(panel: Panel, turned_mm: float) -> tuple[Own, ...]:
    """Return one panel in convex pieces; a cut elsewhere leaves them as they are."""
    frame, depth = panel.frame, panel.thickness
    origin, n = np.array(frame.origin), np.array(frame.n)
    axes = [np.array([at, frame.u, frame.v]) for at in (origin - depth * n, origin)]
    holes = tuple(_narrowed(np.array(hole.outline), turned_mm) for hole in panel.holes)
    inner, outer = np.array(panel.inner), np.array(panel.outer)
    pieces = panel_pieces(inner, outer, holes, (axes[0], axes[1]))
    return tuple(Own(panel, piece) for piece in pieces)


def _narrowed(hole: Floats, by_mm: float) -> Floats:
    """Return a hole's outline with every side moved in."""
    middle = 0.5 * (hole.min(axis=0) + hole.max(axis=0))
    half = hole.max(axis=0) - middle
    return np.asarray(middle + (hole - middle) * np.maximum(half - by_mm, 0.0) / half)


class Resting(Struct, frozen=True):
    """Pieces of the console, covered, where it rests in the nominal row, and how far they reach."""

    owns: tuple[Own, ...]
    pieces: tuple[Piece, ...]
    reach: Reach


def resting(owns: tuple[Own, ...], scene: Scene) -> Resting:
    """Return pieces of the console where it rests in a scene's first row."""
    placed = at_rest(owns, scene)
    pieces = tuple(
        Piece(corners[0], own.piece.triangles, own.piece.edges)
        for own, corners in zip(owns, placed, strict=True)
    )
    return Resting(owns, pieces, Reach.of(pieces))


def nearest_pairs(own: Resting, others: tuple[Piece, ...]) -> tuple[Pair, ...]:
    """Return the pairs that may be nearest in some world, and where to measure them.

    Parameters
    ----------
    own : Resting
        Pieces of the console.
    others : tuple of Piece
        Pieces of the car, nominal.
    """
    bounds = least_rooms(own.reach, Reach.of(others))
    order = np.argsort(bounds, axis=None, kind="stable")
    i, k = np.unravel_index(order, bounds.shape)
    queue = list(zip(i.tolist(), k.tolist(), strict=True))
    found: list[tuple[float, int, int, Floats]] = []
    while queue and bounds[queue[0]] <= _furthest(found) + TOUCH_MM:
        some, queue = queue[:AT_ONCE], queue[AT_ONCE:]
        found += _separations(own.pieces, others, bounds, some)
        found.sort(key=lambda one: one[:3])
        del found[MOST_PAIRS:]
    kept = [one for one in found if one[0] <= found[0][0] + SPARE_MM]
    return tuple(Pair(own.owns[i], k, (own.pieces[i], others[k]), way) for _, i, k, way in kept)


def _furthest(found: list[tuple[float, int, int, Floats]]) -> float:
    """Return the distance beyond which a pair is not among those kept."""
    if not found:
        return np.inf
    spared = found[0][0] + SPARE_MM
    return min(spared, found[-1][0]) if len(found) == MOST_PAIRS else spared


def _separations(
    some: Sequence[Piece], others: Sequence[Piece], bounds: Floats, pairs: list[tuple[int, int]]
) -> list[tuple[float, int, int, Floats]]:
    """Return the distance and direction of each pair, those of one skin that are apart at once."""
    alike: dict[tuple[bytes, ...], list[tuple[int, int]]] = {}
    found: list[tuple[float, int, int, Floats]] = []
    for i, k in pairs:
        if bounds[i, k] + some[i].coat + others[k].coat > TOUCH_MM:
            key = tuple(part.tobytes() for part in (*some[i].skin, *others[k].skin))
            alike.setdefault(key, []).append((i, k))
        else:
            near = separation(some[i], others[k])
            found.append((near.distance, i, k, near.direction))
    for group in alike.values():
        away = apart([some[i] for i, _ in group], [others[k] for _, k in group])
        for (i, k), one in zip(group, away, strict=True):
            near = one or separation(some[i], others[k])
            found.append((near.distance, i, k, near.direction))
    return found


def at_rest(owns: Sequence[Own], scene: Scene) -> list[Floats]:
    """Return the corners of pieces where the console rests, covered, (rows, k, 3) each."""
    panels = {own.panel.name: own.panel for own in owns}
    number = {name: k for k, name in enumerate(panels)}
    lifted = np.stack([outside(scene.world, panel) for panel in panels.values()], axis=-1)
    counts = np.array([len(own.piece.corners) for own in owns])
    ends = np.cumsum(counts)
    own_panel = np.repeat([number[own.panel.name] for own in owns], counts)
    outer = np.arange(ends[-1]) >= np.repeat(ends - counts + counts // 2, counts)
    ways = np.array([panel.frame.n for panel in panels.values()])[own_panel]
    corners = np.concatenate([own.piece.corners for own in owns])
    placed = scene.placed_off(corners, ways, lifted[:, own_panel] * outer)
    starts = (ends - counts).tolist()
    return [placed[:, a:b] for a, b in zip(starts, ends.tolist(), strict=True)]


@lru_cache(maxsize=256)
def _directions(pair: Pair) -> Floats:
    """Return the nominal direction and the next best of those across faces and edges."""
    a, b = pair.pieces
    some = candidate_directions(a, b)
    kept = [pair.way]
    if len(some):
        order = np.argsort(-room_along(a.corners, b.corners, some), kind="stable")
        for one in some[order]:
            # both triangles of a face have its normal: the next best must not be the best again
            if all(np.abs(one - other).max() > ALIKE for other in kept[1:]):
                kept.append(one)
            if len(kept) > MORE_DIRECTIONS:
                break
    return np.stack(kept)
