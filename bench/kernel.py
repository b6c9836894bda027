"""The same panels made by a boundary-representation kernel (OpenCASCADE).

The kernel is given what ours is given: the plan's figures and the covered tunnel. It lofts the
tunnel through splines, makes each sheet as a solid between planes, and takes from it by boolean
cuts the tunnel, the other panels that sink into it, and its holes.
"""

from collections.abc import Sequence
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from trimwright.parts import BulkheadPlan, OpeningPlan, Plan, Side, Skin
from trimwright.parts.shape import Shape, shape

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape, TopoDS_Vertex, TopoDS_Wire

Array = NDArray[np.float64]

LOW, HIGH, WIDE = -130.0, 400.0, 400.0  # mm: below and above all panels, beside all
SECTIONS, ACROSS = 9, 33  # rows of the skin the loft runs through, and points on each
SIDES = ("left", "right")


def _ring(points: Array) -> "TopoDS_Wire":
    """Return a closed wire through corners (n, 3)."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakePolygon  # noqa: PLC0415  lazy: heavy
    from OCP.gp import gp_Pnt  # noqa: PLC0415  lazy: heavy

    made = BRepBuilderAPI_MakePolygon()
    for x, y, z in points:
        made.Add(gp_Pnt(x, y, z))
    made.Close()
    return made.Wire()


def lofted(rings: Sequence["TopoDS_Wire"], *, ruled: bool = True) -> "TopoDS_Shape":
    """Return the solid through closed wires whose corners face each other."""
    from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections  # noqa: PLC0415  lazy: heavy

    loft = BRepOffsetAPI_ThruSections(True, ruled, 1e-7)  # noqa: FBT003  a solid
    loft.CheckCompatibility(False)  # noqa: FBT003  corners face each other already
    for ring in rings:
        loft.AddWire(ring)
    loft.Build()
    return loft.Shape()


def volume(solid: "TopoDS_Shape") -> float:
    """Return the volume of a solid [mm3]."""
    from OCP.BRepGProp import BRepGProp  # noqa: PLC0415  lazy: heavy
    from OCP.GProp import GProp_GProps  # noqa: PLC0415  lazy: heavy

    measured = GProp_GProps()
    BRepGProp.VolumeProperties_s(solid, measured)
    return abs(float(measured.Mass()))


def between(one: Array, other: Array) -> "TopoDS_Shape":
    """Return the solid between two polygons (n, 3), corner to corner."""
    return lofted([_ring(one), _ring(other)])


def _less(solid: "TopoDS_Shape", *others: "TopoDS_Shape") -> "TopoDS_Shape":
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut  # noqa: PLC0415  lazy: heavy

    for other in others:
        solid = BRepAlgoAPI_Cut(solid, other).Shape()
    return solid


def _common(solid: "TopoDS_Shape", other: "TopoDS_Shape") -> "TopoDS_Shape":
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common  # noqa: PLC0415  lazy: heavy

    return BRepAlgoAPI_Common(solid, other).Shape()


def _section(row: Array) -> "TopoDS_Wire":
    """Return a spline through points of a row, closed below everything."""
    from OCP.BRepBuilderAPI import (  # noqa: PLC0415  lazy: heavy
        BRepBuilderAPI_MakeEdge,
        BRepBuilderAPI_MakeWire,
    )
    from OCP.collections import HArray1_gp_Pnt  # noqa: PLC0415  lazy: heavy
    from OCP.GeomAPI import GeomAPI_Interpolate  # noqa: PLC0415  lazy: heavy
    from OCP.gp import gp_Pnt  # noqa: PLC0415  lazy: heavy

    points = HArray1_gp_Pnt(1, len(row))
    for k, (x, y, z) in enumerate(row):
        points.SetValue(k + 1, gp_Pnt(x, y, z))
    spline = GeomAPI_Interpolate(points, False, 1e-7)  # noqa: FBT003  not closed
    spline.Perform()
    made = BRepBuilderAPI_MakeWire(BRepBuilderAPI_MakeEdge(spline.Curve()).Edge())
    foot = np.array([row[-1], row[-1], row[0], row[0]])
    foot[1:3, 2] = 2 * LOW
    for (x0, y0, z0), (x1, y1, z1) in pairwise(foot):
        made.Add(BRepBuilderAPI_MakeEdge(gp_Pnt(x0, y0, z0), gp_Pnt(x1, y1, z1)).Edge())
    return made.Wire()


@cache
def tunnel(skin: Skin) -> "TopoDS_Shape":
    """Return the covered tunnel as a smooth loft; kept, as our own skin is."""
    rows = np.linspace(0, len(skin.points) - 1, SECTIONS).round().astype(int)
    over = np.flatnonzero(skin.points[0, :, 2] > LOW - 20.0)
    number = np.linspace(over[0], over[-1], ACROSS).round().astype(int)
    return lofted([_section(skin.points[row][number]) for row in rows], ruled=False)


def _plan_view(planes: Shape, depths: tuple[float, float], z: float) -> Array:
    """Return the outline at a height of what lies between two depths in the sides, (n, 3)."""
    chains = []
    for name, depth in zip(SIDES, depths, strict=True):
        side = planes.left if name == "left" else planes.right
        x = side.bounds(depth)
        y = side.sign * _half(side, x, z, depth)
        chains.append(np.column_stack([x, y, np.full_like(x, z)]))
    return np.concatenate([chains[0], chains[1][::-1]])


def _half(side: Side, x: Array, z: float, depth: float) -> Array:
    return side.reach(x, np.full_like(x, z), depth)


def _within(planes: Shape, left: float, right: float) -> "TopoDS_Shape":
    """Return all that lies between the two sides, some way below their outer faces."""
    return between(*(_plan_view(planes, (left, right), z) for z in (LOW, HIGH)))


def _under(planes: Shape, depth: float) -> "TopoDS_Shape":
    """Return all that lies under the deck, some way below its top."""
    line = planes.deck.line(depth)
    x = np.concatenate([line[:, 0], line[::-1, 0]])
    z = np.concatenate([line[:, 1], np.full(len(line), LOW)])
    return between(*(np.column_stack([x, np.full_like(x, y), z]) for y in (-WIDE, WIDE)))


def _boards(planes: Shape) -> list["TopoDS_Shape"]:
    """Return the deck panels with their holes."""
    t = planes.deck_thickness
    outer, inner = planes.deck.line(0.0), planes.deck.line(t)
    inside = _within(planes, planes.deck_side("left"), planes.deck_side("right"))
    made = []
    for k in range(len(outer) - 1):
        ring = np.concatenate([outer[k : k + 2], inner[k : k + 2][::-1]])
        x, z = ring.T
        strip = between(*(np.column_stack([x, np.full(4, y), z]) for y in (-WIDE, WIDE)))
        here = (o for o in planes.plan.openings if outer[k, 0] <= o.at < outer[k + 1, 0])
        made.append(_less(_common(strip, inside), *(_hole(planes, one) for one in here)))
    return made


def _hole(planes: Shape, opening: OpeningPlan) -> "TopoDS_Shape":
    """Return a prism with round corners, square to the deck."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace  # noqa: PLC0415  lazy: heavy
    from OCP.BRepFilletAPI import BRepFilletAPI_MakeFillet2d  # noqa: PLC0415  lazy: heavy
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism  # noqa: PLC0415  lazy: heavy
    from OCP.gp import gp_Vec  # noqa: PLC0415  lazy: heavy
    from OCP.TopAbs import TopAbs_VERTEX  # noqa: PLC0415  lazy: heavy
    from OCP.TopExp import TopExp_Explorer  # noqa: PLC0415  lazy: heavy
    from OCP.TopoDS import TopoDS  # noqa: PLC0415  lazy: heavy

    x = planes.deck.line(0.0)[:, 0]
    slope = planes.deck.slopes[int(np.searchsorted(x, opening.at, side="right")) - 1]
    along = np.array((1.0, 0.0, slope)) / np.hypot(1.0, slope)
    up = np.array((-along[2], 0.0, along[0]))
    z = float(planes.deck.height(np.asarray(opening.at)))
    middle = np.array((opening.at, opening.off_middle, z)) + 50.0 * up
    corners = np.array(((1, 1), (-1, 1), (-1, -1), (1, -1))) / 2
    across = np.array((0.0, 1.0, 0.0))
    ring = middle + corners[:, :1] * opening.long * along + corners[:, 1:] * opening.wide * across
    face = BRepBuilderAPI_MakeFace(_ring(ring)).Face()
    rounded = BRepFilletAPI_MakeFillet2d(face)
    found = TopExp_Explorer(face, TopAbs_VERTEX)
    seen = list["TopoDS_Vertex"]()
    while found.More():
        vertex = TopoDS.Vertex(found.Current())
        if not any(vertex.IsSame(one) for one in seen):
            seen.append(vertex)
            rounded.AddFillet(vertex, opening.corner)
        found.Next()
    return BRepPrimAPI_MakePrism(rounded.Shape(), gp_Vec(*(-100.0 * up))).Shape()


def _bulkhead(planes: Shape, plan: BulkheadPlan, metal: "TopoDS_Shape") -> "TopoDS_Shape":
    """Return a bulkhead, sunk into the walls and scribed over the tunnel."""
    t = planes.plan.thickness_of(plan.name)
    sunk = planes.plan.joint_depth if plan.joint == "housing" else 0.0
    yz = np.array(((-WIDE, LOW), (WIDE, LOW), (WIDE, HIGH), (-WIDE, HIGH)))
    sheet = between(*(np.insert(yz, 0, plan.at + k * t, axis=1) for k in (-0.5, 0.5)))
    inside = _within(planes, *(planes.wall_thickness(name) - sunk for name in SIDES))  # type: ignore[arg-type]  # both names
    return _less(_common(_common(sheet, _under(planes, planes.deck_thickness)), inside), metal)


def _walls(planes: Shape, top: "TopoDS_Shape") -> list["TopoDS_Shape"]:
    """Return the walls as sheets, mitred where they meet, up to the deck's top."""
    made = []
    for side in (planes.left, planes.right):
        depths = (0.0, planes.wall_thickness(side.name))
        for k in range(len(side.a)):
            rings = []
            for z in (LOW, HIGH):
                outer, inner = (
                    np.column_stack([x, side.sign * _half(side, x, z, w), np.full(2, z)])
                    for w, x in ((w, side.bounds(w)[k : k + 2]) for w in depths)
                )
                rings.append(np.concatenate([outer, inner[::-1]]))
            made.append(_common(between(*rings), top))
    return made


def panels(plan: Plan, skin: Skin) -> list["TopoDS_Shape"]:
    """Return every panel of a plan whose walls run through: boards, walls, bulkheads."""
    if plan.through != "walls" or plan.deck_joint == "housing":
        raise ValueError("plan must have walls that run through, and no housed deck")
    planes, metal = shape(plan), tunnel(skin)
    boards = _boards(planes)
    crosses = [_bulkhead(planes, one, metal) for one in plan.bulkheads]
    walls = [
        _less(wall, *boards, *crosses, metal)  # the tunnel last: quicker while faces are flat
        for wall in _walls(planes, _under(planes, planes.wall_top))
    ]
    return [*boards, *walls, *crosses]
