"""Hatches as real lines, so that every writer draws the same ones."""

import math
from dataclasses import dataclass

from trimwright.drawing.element import Fill, Line, Point
from trimwright.drawing.pen import HatchName


@dataclass(frozen=True, slots=True)
class Ruling:
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


def _crossings(rings: list[list[Point]], level: float) -> list[float]:
    """Return where a level line crosses the rings, in order; each corner counts once."""
    found = []
    for ring in rings:
        for p, q in zip(ring, ring[1:] + ring[:1], strict=True):
            if (p[1] <= level) != (q[1] <= level):
                found.append(p[0] + (level - p[1]) / (q[1] - p[1]) * (q[0] - p[0]))
    return sorted(found)


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
    rings = [
        [(x * cos + y * sin, y * cos - x * sin) for x, y in ring]
        for ring in (fill.points, *fill.holes)
    ]
    levels = [y for _, y in rings[0]]
    first = math.ceil((min(levels) - ruling.shift_mm) / ruling.spacing_mm)
    last = math.floor((max(levels) - ruling.shift_mm) / ruling.spacing_mm)
    lines = []
    for row in range(first, last + 1):
        level = ruling.shift_mm + row * ruling.spacing_mm
        found = _crossings(rings, level)
        for low, high in zip(found[::2], found[1::2], strict=True):
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
