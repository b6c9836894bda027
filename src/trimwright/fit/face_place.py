"""Rooms at one place along a face: a wall beside a seat, the deck under the dash, anything else."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.car import SeatSide
from trimwright.fit.convex import Piece
from trimwright.fit.gap import Gap
from trimwright.fit.nose import ceiling
from trimwright.fit.pair import Own
from trimwright.fit.pieces import crossings
from trimwright.fit.seat import Beside
from trimwright.fit.shell import Patch, covered
from trimwright.fit.source import Found, Scene, point
from trimwright.parts import Panel

Floats = NDArray[np.float64]
POINTS = 3  # over a wall's height; wall and seat are straight, so an end is nearest
SLICE_MM = 1.0  # of a panel that stands for one place along it
STRIP_ENDS = ((0, 1), (3, 2), (4, 5), (7, 6))  # corners of a piece, front and rear, edge by edge


class UnderDash(Struct, frozen=True, eq=False):
    """The deck under the dash at one place along it."""

    gap: Gap
    patch: Patch

    @property
    def gaps(self) -> tuple[Gap, ...]:
        """The one gap."""
        return (self.gap,)

    def found(self, scene: Scene) -> Found:
        """Return the least height from cover to dash over the points."""
        if scene.under is None:
            raise ValueError("scene must hold the dash")
        placed = covered((self.patch,), scene)
        over = ceiling(scene.under, self.patch.points, placed)
        room = over - placed[..., 2]
        least = int(np.argmin(room[0]))
        low = placed[0, least]
        above = (float(low[0]), float(low[1]), float(over[0, least]))
        return Found(room.min(axis=1)[:, None], ((point(low), above),))


def panel_at(panels: tuple[Panel, ...], x: float) -> Panel | None:
    """Return the panel that reaches a place along the car, the front one where two meet."""
    for panel in panels:
        along = panel.outer_points()[:, 0]
        if along.min() <= x <= along.max():
            return panel
    return None


def face_line(panel: Panel, x: float, axis: int) -> tuple[float, float]:
    """Return from where to where a panel's outer face reaches at a place along the car [mm].

    Parameters
    ----------
    panel : Panel
        A wall or a piece of the deck.
    x : float
        Place along [mm], on the panel.
    axis : int
        1 across, 2 up.
    """
    (low, high), *_ = crossings(panel.outer_points()[:, (0, axis)], np.array([x]))
    return float(low), float(high)


def on_face(panel: Panel, x: float, across: Floats, axis: int) -> Floats:
    """Return points of a panel's outer face at a place along the car, shape (n, 3) [mm].

    Parameters
    ----------
    panel : Panel
        A wall or a piece of the deck.
    x : float
        Place along [mm].
    across : ndarray, shape (n,)
        Where on the face: across (`axis` 1) or up (`axis` 2) [mm].
    axis : int
        1 or 2.
    """
    n, origin = np.array(panel.frame.n), np.array(panel.frame.origin)
    points = np.zeros((len(across), 3))
    points[:, 0], points[:, axis] = x, across
    other = 3 - axis
    points[:, other] = (n @ origin - points @ n) / n[other]
    return points


def beside_seat(
    gap: Gap, seat: SeatSide, panel: Panel, x: float, up_mm: float | None
) -> Beside | None:
    """Return the room from a wall to its seat at one place, at one height or over all known.

    None where the seat's edge is not known at that height.
    """
    low, high = face_line(panel, x, 2)
    lowest, highest = seat.heights
    start, end = (max(low, lowest), min(high, highest)) if up_mm is None else (up_mm, up_mm)
    if not lowest <= start <= end <= highest:
        return None
    points = on_face(panel, x, np.linspace(start, end, POINTS), 2)
    one_place = np.arange(POINTS).repeat(2).reshape(-1, 2)
    return Beside(gap, seat.side, (Patch(panel, points),), one_place)


def sliced(owns: tuple[Own, ...], panel: Panel, x: float) -> tuple[Own, ...]:
    """Return a thin slice of a panel at a place along the car, in as many pieces as it has there.

    Openings in the panel stay open.
    """
    found = []
    for own in owns:
        corners = own.piece.corners
        ends = corners[[pair for both in STRIP_ENDS for pair in both]].reshape(4, 2, 3)
        along = ends[:, :, 0]
        first, last = np.sort(along, axis=1).T
        if own.panel.name != panel.name or not (first.min() <= x <= last.max()):
            continue
        cut = corners.copy()
        for (a, b), (start, end) in zip(STRIP_ENDS, ends, strict=True):
            run = end[0] - start[0]
            for corner, at in ((a, x - SLICE_MM / 2), (b, x + SLICE_MM / 2)):
                share = np.clip((at - start[0]) / run, 0.0, 1.0)
                cut[corner] = start + share * (end - start)
        found.append(Own(own.panel, Piece(cut, own.piece.triangles, own.piece.edges)))
    return tuple(found)
