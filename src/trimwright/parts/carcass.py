"""The console's carcass: its panels, their lower edges, mass and centre."""

from functools import lru_cache
from itertools import pairwise

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from trimwright.parts.board import BoardPlace, board
from trimwright.parts.bulkhead import (
    BulkheadPlace,
    bulkhead,
    bulkhead_line,
    standing,
)
from trimwright.parts.frame import Array, Vector, vector
from trimwright.parts.lower_edge import LowerEdge, lower_edge
from trimwright.parts.panel import MM3_PER_M3, Panel
from trimwright.parts.plan import OpeningPlan, Plan, same_panel
from trimwright.parts.scribe import Line
from trimwright.parts.shape import Shape, shape
from trimwright.parts.side import SideName
from trimwright.parts.skin import Skin
from trimwright.parts.slab import moments
from trimwright.parts.soundness import design_faults, scribe_faults
from trimwright.parts.unbuildable import Unbuildable
from trimwright.parts.wall import WallPlace, wall, wall_bottoms
from trimwright.parts.wall_edge import wall_line

SIDES: tuple[SideName, SideName] = ("left", "right")
KEPT = 64  # plans that a search for the least cut goes back and forth between


class Carcass(Struct, frozen=True):
    """The bare console at its design pose, in car axes.

    If `unbuildable` is not empty there are no panels: it says why. `notes` says what was taken
    for granted where the tunnel or the floor is not known.
    """

    panels: tuple[Panel, ...]
    lower_edges: tuple[LowerEdge, ...]
    mass_kg: float
    centre_mm: Vector
    unbuildable: tuple[Unbuildable, ...]
    notes: tuple[str, ...]
    shape: Shape

    def panel(self, name: str) -> Panel:
        """Return a panel by its name.

        Parameters
        ----------
        name : str
            As in `panels`.

        Returns
        -------
        Panel

        Raises
        ------
        ValueError
            If there is none of that name.
        """
        for panel in self.panels:
            if panel.name == name:
                return panel
        raise ValueError(f"name must be a panel of the carcass, got {name!r}")

    def deck_top(self, x_mm: Array) -> Array:
        """Return heights of the bare deck's top face at places along the car [mm]."""
        return self.shape.deck.height(x_mm)

    def outer_half_width(self, x_mm: Array, z_mm: Array, side: SideName) -> Array:
        """Return bare outside half-widths of a side at places and heights [mm]."""
        return self.shape.side(side).reach(x_mm, z_mm)

    def wall_outer(self, side: SideName) -> Array:
        """Return the corners of the outer faces of a side's walls, shape (n, 3) [mm]."""
        walls = [p.outer_points() for p in self.panels if p.name.startswith(f"{side} wall")]
        return np.concatenate(walls) if walls else np.zeros((0, 3))

    def convex_pieces(self) -> tuple[tuple[str, Array], ...]:
        """Return the convex pieces of every panel, by name, each of shape (n, 8, 3) [mm]."""
        return tuple((panel.name, panel.convex_pieces()) for panel in self.panels)


def carcass(plan: Plan, skin: Skin) -> Carcass:
    """Return the carcass of a plan, scribed to a covered tunnel.

    Parameters
    ----------
    plan : Plan
        The console in plain figures.
    skin : Skin
        What its lower edges follow: the tunnel with its layers and carpet.

    Returns
    -------
    Carcass
        Without panels, and with the reasons, if the plan cannot be made.
    """
    unsound = design_faults(plan)
    if unsound:
        return refused(plan, unsound)
    closed = replace(plan, openings=())  # an opening in the deck leaves what stands under it be
    planes, unsound = shape(plan), _scribed(closed, skin).unsound
    if unsound:
        return Carcass((), (), 0.0, (0.0, 0.0, 0.0), unsound, (), planes)
    boards = _boards(planes)
    panels, edges = _uprights(closed, skin)
    whole = (*boards, *panels)
    mass, centre = _weighed(whole)
    notes = _notes(plan, skin, edges)
    return Carcass(whole, edges, mass, centre, (), notes, planes)


def faults(plan: Plan, skin: Skin) -> tuple[Unbuildable, ...]:
    """Return why a plan cannot be made, as `carcass` would say, without making its panels."""
    return design_faults(plan) or _scribed(replace(plan, openings=()), skin).unsound


class _Scribed(Struct, frozen=True, eq=False):
    """Walls and bulkheads, the lower edge of each, walls first, and why they cannot be, if so."""

    walls: tuple[WallPlace, ...]
    crosses: tuple[BulkheadPlace, ...]
    lines: tuple[Line, ...]
    unsound: tuple[Unbuildable, ...]


@lru_cache(maxsize=KEPT)
def _scribed(plan: Plan, skin: Skin) -> _Scribed:
    """Return what stands under the deck of a plan, on its lower edges."""
    planes = shape(plan)
    walls = tuple(WallPlace(planes, n, i) for n in SIDES for i in range(len(planes.side(n).a)))
    crosses = tuple(BulkheadPlace(planes, bulkhead_plan) for bulkhead_plan in plan.bulkheads)
    lines = tuple(_wall_line(place, skin) for place in walls)
    lines += tuple(_bulkhead_line(place, skin) for place in crosses)
    return _Scribed(walls, crosses, lines, scribe_faults(walls, crosses, lines, skin))


@lru_cache(maxsize=KEPT)
def _uprights(plan: Plan, skin: Skin) -> tuple[tuple[Panel, ...], tuple[LowerEdge, ...]]:
    """Return the walls and bulkheads of a plan, and the lower edge of each."""
    found = _scribed(plan, skin)
    count = len(found.walls)
    panels, bottoms = list[Panel](), list[tuple[Array, Array]]()
    for place, line in zip(found.walls, found.lines[:count], strict=True):
        bottoms.append(wall_bottoms(place, line))
        panels.append(wall(place, line, _grooves(place), bottoms[-1]))
    for cross, line in zip(found.crosses, found.lines[count:], strict=True):
        stands = standing(cross, line)
        bottoms.append(stands.bottoms)
        panels.append(bulkhead(stands))
    edges = tuple(
        lower_edge(panel.name, line, *bottom)
        for panel, line, bottom in zip(panels, found.lines, bottoms, strict=True)
    )
    return tuple(panels), edges


def refused(plan: Plan, faults: tuple[Unbuildable, ...]) -> Carcass:
    """Return the carcass of a plan that cannot be made.

    Parameters
    ----------
    plan : Plan
        Plain figures, as wrong as they may be.
    faults : tuple of Unbuildable
        Why not.

    Returns
    -------
    Carcass
        No panels; a level deck at the height and width of the first places given.
    """
    start = min(plan.start, plan.end)
    end = max(plan.start, plan.end, start + plan.thickness)
    left, right = (line[0][1] if line else 0.0 for line in (plan.left, plan.right))
    z = plan.deck[0][1] if plan.deck else 0.0
    box = replace(
        plan,
        deck=((start, z), (end, z)),
        left=((start, left), (end, left)),
        right=((start, right), (end, right)),
        start=start,
        end=end,
    )
    return Carcass((), (), 0.0, (0.0, 0.0, 0.0), faults, (), shape(box))


def _boards(planes: Shape) -> tuple[Panel, ...]:
    """Return the deck panels, each with the openings that lie in it."""
    bare, x = planes.plan.planes(), planes.deck.line(0.0)[:, 0]
    inside = (
        tuple(opening for opening in planes.plan.openings if front <= opening.at < rear)
        for front, rear in pairwise(x.tolist())
    )
    return tuple(_board(bare, piece, openings) for piece, openings in enumerate(inside))


@lru_cache(maxsize=KEPT)
def _board(bare: Plan, piece: int, openings: tuple[OpeningPlan, ...]) -> Panel:
    """Return one deck panel: kept, for an opening leaves the other panels of a deck be."""
    return board(BoardPlace(shape(bare), piece), openings)


def _weighed(panels: tuple[Panel, ...]) -> tuple[float, Vector]:
    """Return the mass of panels together [kg] and their centre in car axes [mm]."""
    first = np.cumsum([0, *(len(panel.slabs) for panel in panels[:-1])])
    every = moments([piece for panel in panels for piece in panel.slabs])
    found = np.add.reduceat(every, first, axis=0)
    masses = found[:, 0] * np.array([panel.density for panel in panels]) / MM3_PER_M3
    own = found[:, 1:] / found[:, :1]
    centres = [p.frame.placed(at[:2], float(at[2])) for p, at in zip(panels, own, strict=True)]
    return float(masses.sum()), vector(masses @ np.stack(centres) / masses.sum())


def _grooves(place: WallPlace) -> tuple[tuple[float, float, str], ...]:
    """Return the housings for bulkheads that lie in a wall, front to rear."""
    planes = place.shape
    front, rear = place.ends(place.thickness)
    found = []
    for bulkhead_plan in planes.plan.bulkheads:
        cross = BulkheadPlace(planes, bulkhead_plan)
        if bulkhead_plan.joint == "housing" and front <= bulkhead_plan.at < rear:
            found.append((cross.front, cross.rear, bulkhead_plan.name))
    return tuple(sorted(found))


def _wall_line(place: WallPlace, skin: Skin) -> Line:
    """Return the lower edge of a wall, as built where it was measured."""
    plan = place.shape.plan
    line = wall_line(place, skin)
    name = place.shape.wall_names(place.name)[place.piece]
    up = place.side.frame(place.piece).v[2]
    deck = place.shape.deck
    top = deck.height(line.run, place.shape.wall_top)
    return _as_built(_deeper(line, plan.deeper), plan, name, (top, up))


def _bulkhead_line(place: BulkheadPlace, skin: Skin) -> Line:
    """Return the lower edge of a bulkhead, as built where it was measured."""
    plan = place.shape.plan
    line = bulkhead_line(place, skin)
    top = np.full(line.run.size, place.top(0.0))
    return _as_built(_deeper(line, plan.deeper), plan, place.plan.name, (top, 1.0))


def _deeper(line: Line, by_mm: float) -> Line:
    """Return an edge cut deeper, so that the console comes down."""
    return replace(line, outer=line.outer + by_mm, inner=line.inner + by_mm)


def _as_built(line: Line, plan: Plan, name: str, top: tuple[Array, float]) -> Line:
    """Return an edge moved to where its panel's height was measured, evenly between places."""
    heights, up = top
    read = sorted((b.at, b.reads) for b in plan.built_heights if same_panel(b.panel, name))
    if not read:
        return line
    at = np.array([r[0] for r in read])
    designed = (np.interp(at, line.run, heights) - np.interp(at, line.run, line.outer)) / up
    short = np.interp(line.run, at, designed - np.array([r[1] for r in read])) * up
    return replace(line, outer=line.outer + short, inner=line.inner + short)


def _notes(plan: Plan, skin: Skin, edges: tuple[LowerEdge, ...]) -> tuple[str, ...]:
    """Return what was taken for granted."""
    notes = []
    x = skin.points[:, :, 0]
    if plan.start < x.max(axis=1).min() or plan.end > x.min(axis=1).max():
        notes.append(
            "the console reaches past the measured tunnel: there its nearest section is taken"
        )
    if plan.floor_z is None:
        notes += [
            f"{edge.panel}: misses the measured tunnel in places and the floor's height is not "
            "known; there it ends at the lowest point measured"
            for edge in edges
            if edge.missed.any()
        ]
    return tuple(notes)
