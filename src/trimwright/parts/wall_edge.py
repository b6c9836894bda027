"""The lower edge of a wall: where its plane cuts the covered tunnel."""

from functools import lru_cache

import numpy as np
from msgspec import Struct

from trimwright.parts.scribe import LEVELS, Levels, Line, edge_line
from trimwright.parts.skin import Skin, plane_cut
from trimwright.parts.wall import WallPlace


class _Plane(Struct, frozen=True):
    """All of a wall that its cut with the tunnel hangs on: sign y = a + b x - c z, its sheet."""

    sign: float
    a: float
    b: float
    c: float
    thickness: float


def wall_line(place: WallPlace, skin: Skin) -> Line:
    """Return the lower edge of a wall as the covered tunnel asks for it.

    Parameters
    ----------
    place : WallPlace
        Which wall.
    skin : Skin
        The covered tunnel.

    Returns
    -------
    Line
        Where a row of the skin misses the wall it follows the floor, or the row's last point.
    """
    side, i, t, plan = place.side, place.piece, place.thickness, place.shape.plan
    plane = _Plane(side.sign, side.a[i], side.b[i], side.c, t)
    front, rear = place.ends(0.0)
    # a mitred inner face may reach further than the outer, by no more than the sheet
    rows = skin.rows_along(front - t, rear + t)
    return _line(plane, skin, rows, plan.floor_z, (plan.edge, plan.tilt_deg))


@lru_cache(maxsize=256)
def _line(
    plane: _Plane,
    skin: Skin,
    rows: tuple[int, int],
    floor_z: float | None,
    cut: tuple[str, float],
) -> Line:
    """Return a wall's lower edge: kept, for most cuts of a console leave most edges be."""
    return edge_line(_levels(plane, skin.part(rows), floor_z), *cut)


def _levels(plane: _Plane, skin: Skin, floor_z: float | None) -> Levels:
    """Return the covered tunnel as the planes of a wall cut it."""
    depths = np.linspace(0.0, plane.thickness, LEVELS)
    normal = np.array((-plane.b, plane.sign, plane.c))
    stretch = float(np.sqrt(1 + plane.b**2 + plane.c**2))
    cut = plane_cut(skin, normal, plane.a - depths * stretch)
    last = skin.points[:, -1 if plane.sign > 0 else 0]
    ends = np.where(floor_z is None, last[:, 2], floor_z or 0.0)
    run = np.where(cut.found, cut.points[..., 0], last[:, 0])
    z = np.where(cut.found, cut.points[..., 2], ends)
    if floor_z is not None:
        z = np.maximum(z, floor_z)
    order = np.argsort(run, axis=-1, kind="stable")
    run, z = np.take_along_axis(run, order, -1), np.take_along_axis(z, order, -1)
    middle = LEVELS // 2
    unit = normal / stretch
    slope = np.degrees(np.arcsin(np.clip(np.abs(cut.normals[middle] @ unit), 0.0, 1.0)))
    slope, missed = slope[order[middle]], ~cut.found[middle][order[middle]]
    skew = (-float(unit[0]), -float(unit[2]))
    return Levels(plane.thickness, skew, run, z, np.where(missed, 0.0, slope), missed)
