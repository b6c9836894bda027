"""A flat panel: outlines on both faces, edges, recesses, holes, solid."""

from math import atan2, degrees, hypot
from typing import Literal

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.parts.frame import Array, Frame
from trimwright.parts.slab import Slab, moments

Outline = tuple[tuple[float, float], ...]
EdgeKind = Literal["scribe", "joint", "free", "mitre"]
MM3_PER_M3 = 1e9
SAME = 1e-7  # mm; corners this close are one


class PanelEdge(Struct, frozen=True):
    """A run of the outer outline, from corner `start` to corner `end` (counter-clockwise).

    `bevel_deg` is measured from square, the steepest on the edge; `longer` names the face on which
    the panel reaches further. `meets` names the panel on the other side, or is empty.
    """

    start: int
    end: int
    kind: EdgeKind
    bevel_deg: float
    longer: Literal["outer", "inner", "neither"]
    meets: str = ""


class Recess(Struct, frozen=True):
    """Wood taken out of one face to a depth: a rebate (open at an edge) or a housing (a groove)."""

    kind: Literal["rebate", "housing"]
    face: Literal["inner", "outer"]
    depth: float
    surface: Outline  # on the face
    bottom: Outline  # at the depth
    meets: str


class Hole(Struct, frozen=True):
    """A hole square through the panel: the same outline on both faces."""

    name: str
    outline: Outline
    centre: tuple[float, float]
    long: float
    wide: float
    corner: float


class Panel(Struct, frozen=True, eq=False):
    """A flat panel of sheet.

    `outer` and `inner` are the outlines of the sheet on its two faces, cut with its bevels but
    before any recess is taken out, in panel axes (u along, v up) and counter-clockwise. `slabs`
    are the solid that is left after recesses and holes.
    """

    name: str
    material: str
    thickness: float
    density: float
    frame: Frame
    outer: Outline
    inner: Outline
    edges: tuple[PanelEdge, ...]
    recesses: tuple[Recess, ...]
    holes: tuple[Hole, ...]
    grain: Literal["along", "across"]
    face_marks: tuple[str, ...]
    slabs: tuple[Slab, ...]

    def moments(self) -> Array:
        """Return volume [mm3] and first moments about u, v and depth [mm4], shape (4,)."""
        return np.asarray(moments(self.slabs).sum(axis=0))

    @property
    def mass_kg(self) -> float:
        """Mass of the bare panel, openings and recesses taken out [kg]."""
        return float(self.moments()[0] * self.density / MM3_PER_M3)

    @property
    def centre(self) -> Array:
        """Centre of gravity in car axes, shape (3,) [mm]."""
        volume, u, v, depth = self.moments()
        return self.frame.placed(np.array((u, v)) / volume, float(depth / volume))

    def solid(self) -> tuple[Array, NDArray[np.int64]]:
        """Return the panel as a mesh in car axes.

        Returns
        -------
        vertices : ndarray, shape (n, 3)
            Points [mm].
        faces : ndarray, shape (m, 3)
            Triangles of one or more closed shells that touch and never overlap, outwards.
        """
        vertices, faces, count = list[Array](), list[NDArray[np.int64]](), 0
        for piece in self.slabs:
            points, triangles = piece.mesh(self.frame)
            vertices.append(points)
            faces.append(triangles + count)
            count += len(points)
        return np.concatenate(vertices), np.concatenate(faces)

    def convex_pieces(self) -> Array:
        """Return convex pieces that make up the panel.

        Returns
        -------
        ndarray, shape (n, 8, 3)
            Corners of each piece in car axes [mm]; their hulls cover the panel, and exceed it by
            no more than the twist of its bevels between neighbouring points.
        """
        return np.concatenate([piece.strips(self.frame) for piece in self.slabs])

    def outer_points(self) -> Array:
        """Return the corners of the outer face in car axes, shape (n, 3) [mm]."""
        return self.frame.placed(np.array(self.outer))


class Run(Struct, frozen=True, eq=False):
    """One side of a panel while it is put together: its line on both faces, in car axes."""

    kind: EdgeKind
    meets: str
    outer: Array
    inner: Array
    slope_deg: float | None = None
    longer: Literal["outer", "inner", "neither"] = "neither"


def outlines(
    runs: tuple[Run, ...], frame: Frame, thickness: float
) -> tuple[Outline, Outline, tuple[PanelEdge, ...]]:
    """Return both outlines and the edges of a panel from its sides in order.

    Parameters
    ----------
    runs : tuple of Run
        Sides in order round the panel, either way, each beginning where the last one ended.
    frame : Frame
        Axes of the panel.
    thickness : float
        Of the sheet [mm].

    Returns
    -------
    outer, inner : tuple of (u, v)
        Counter-clockwise outlines [mm].
    edges : tuple of PanelEdge
        In the order of the outer outline.
    """
    flats = [(frame.flat(run.outer), frame.flat(run.inner), run) for run in runs]
    if _area(np.concatenate([flat[0] for flat in flats])) < 0:
        flats = [(outer[::-1], inner[::-1], run) for outer, inner, run in reversed(flats)]
    outer, inner = list[tuple[float, float]](), list[tuple[float, float]]()
    starts = list[int]()
    for flat_outer, flat_inner, _ in flats:
        starts.append(_append(outer, flat_outer[:-1]))
        _append(inner, flat_inner[:-1])
    for outline in (outer, inner):
        if hypot(outline[0][0] - outline[-1][0], outline[0][1] - outline[-1][1]) < SAME:
            outline.pop()
    edges = list[PanelEdge]()
    ends = [*starts[1:], len(outer)]
    for start, end, (flat_outer, flat_inner, run) in zip(starts, ends, flats, strict=True):
        if end == start:
            continue
        bevel, longer = run.slope_deg, run.longer
        if bevel is None:
            bevel, longer = _bevel(flat_outer, flat_inner, thickness)
        edges.append(PanelEdge(start, end % len(outer), run.kind, bevel, longer, run.meets))
    return tuple(outer), tuple(inner), tuple(edges)


def _append(outline: list[tuple[float, float]], points: Array) -> int:
    """Add corners to an outline, without one that repeats the last; return the first's number."""
    first = len(outline)
    for k, (u, v) in enumerate(points.tolist()):
        point = (u, v)
        if outline and hypot(point[0] - outline[-1][0], point[1] - outline[-1][1]) < SAME:
            first -= k == 0
            continue
        outline.append(point)
    return first


def _area(points: Array) -> float:
    """Twice the signed area."""
    u, v = (points - points[0]).T
    return float((u[:-1] * v[1:] - u[1:] * v[:-1]).sum())


def _bevel(
    outer: Array, inner: Array, thickness: float
) -> tuple[float, Literal["outer", "inner", "neither"]]:
    """Return the bevel from square of a straight side, and the face that reaches further."""
    u, v = (outer[-1] - outer[0]).tolist()
    length = hypot(u, v)
    if length < SAME:
        return 0.0, "neither"
    back_u, back_v = (outer[0] - inner[0]).tolist()
    reach = (back_u * v - back_v * u) / length
    if abs(reach) < SAME:
        return 0.0, "neither"
    return degrees(atan2(abs(reach), thickness)), "outer" if reach > 0 else "inner"
