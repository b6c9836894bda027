"""Hatches as real lines, so that every writer draws the same ones."""

import math

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.drawing.element import Fill, Line
from trimwright.drawing.pen import HatchName

Floats = NDArray[np.float64]


class Ruling(Struct, frozen=True):
    """One family of parallel lines: angle clockwise, spacing and strokes [mm].

    `shift_mm` moves the family across its lines; `stroke_mm` 0 draws unbroken lines, else strokes
    of that length every `every_mm`, staggered by half from line to line.
    """

    turn_deg: float
    spacing_mm: float
    shift_mm: float = 0.0
    stroke_mm: float = 0.0
    every_mm: float = 0.0


# y is down: -45 rises to the right. Spacings are ours, fit for a 0.18 mm line
RULINGS: dict[HatchName, tuple[Ruling, ...]] = {
    "ply": (Ruling(45.0, 1.6),),
    "waste": (Ruling(-45.0, 1.6),),
    "foam": (Ruling(0.0, 0.9, 0.0, 0.2, 1.8),),
    "carpet": (Ruling(-60.0, 0.8, 0.0, 1.1, 2.2),),
    "metal": (Ruling(-45.0, 2.4), Ruling(-45.0, 2.4, 0.6)),
}


def _spans(rings: list[Floats], levels: Floats) -> tuple[Floats, NDArray[np.int64]]:
    """Return where level lines are inside rings, even-odd, and the line of each.

    Parameters
    ----------
    rings : list of ndarray, shape (n, 2)
        Outlines; each corner counts once.
    levels : ndarray, shape (m,)
        Where the lines lie [mm].

    Returns
    -------
    ends : ndarray, shape (k, 2)
        From and to along the line [mm], line by line.
    rows : ndarray, shape (k,)
        The index of each one's level.
    """
    p = np.concatenate(rings)
    q = np.concatenate([np.roll(ring, -1, axis=0) for ring in rings])
    rows, edges = np.nonzero((p[:, 1] <= levels[:, None]) != (q[:, 1] <= levels[:, None]))
    a, b = p[edges], q[edges]
    share = (levels[rows] - a[:, 1]) / (b[:, 1] - a[:, 1])
    along = a[:, 0] + share * (b[:, 0] - a[:, 0])
    order = np.lexsort((along, rows))
    # a closed outline crosses a line an even number of times: neighbours are a pair
    return along[order].reshape(-1, 2), rows[order][::2]


def _strokes(low: float, high: float, ruling: Ruling, row: int) -> list[tuple[float, float]]:
    if ruling.stroke_mm == 0.0:
        return [(low, high)]
    offset = ruling.every_mm / 2 * (row % 2)
    first = math.floor((low - offset - ruling.stroke_mm) / ruling.every_mm)
    last = math.ceil((high - offset) / ruling.every_mm)
    pieces = []
    for index in range(first, last + 1):
        start = offset + index * ruling.every_mm
        a, b = max(low, start), min(high, start + ruling.stroke_mm)
        if b > a:
            pieces.append((a, b))
    return pieces


def _ruled(fill: Fill, ruling: Ruling) -> list[Line]:
    angle = math.radians(ruling.turn_deg)
    cos, sin = math.cos(angle), math.sin(angle)
    turn = np.array(((cos, -sin), (sin, cos)))
    rings = [np.array(ring) @ turn for ring in (fill.points, *fill.holes) if ring]
    levels = rings[0][:, 1]
    first = math.ceil((float(levels.min()) - ruling.shift_mm) / ruling.spacing_mm)
    last = math.floor((float(levels.max()) - ruling.shift_mm) / ruling.spacing_mm)
    rows = np.arange(first, last + 1)
    lie = np.asarray(ruling.shift_mm + rows * ruling.spacing_mm, dtype=np.float64)
    spans, at = _spans(rings, lie)
    lines = []
    for (low, high), row in zip(spans.tolist(), rows[at].tolist(), strict=True):
        level = ruling.shift_mm + row * ruling.spacing_mm
        for a, b in _strokes(low, high, ruling, row):
            ends = tuple((u * cos - level * sin, u * sin + level * cos) for u in (a, b))
            lines.append(Line(ends, "hatch", layer=fill.layer))
    return lines


def hatch_lines(fill: Fill) -> tuple[Line, ...]:
    """Return the lines of a hatched area; none if it has no hatch.

    The lines hang on the page's origin, so neighbouring areas of one kind line up.

    Examples
    --------
    >>> square = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
    >>> len(hatch_lines(Fill(square, hatch="ply")))
    9
    """
    if fill.hatch is None or not fill.points:
        return ()
    return tuple(line for ruling in RULINGS[fill.hatch] for line in _ruled(fill, ruling))
