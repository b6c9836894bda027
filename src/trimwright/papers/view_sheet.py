"""A view to scale as it grows: true millimetres in, page millimetres out."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from trimwright.drawing import Circle, Fill, HatchName, Line, PenName, Point, Setting, dimension
from trimwright.papers.note import Note, note
from trimwright.papers.piece import Shape, layered

Floats = NDArray[np.float64]
LABEL = Setting(2.6)
CROSS_MM = 2.0  # half of a cross on the page
SCALES = (1.0, 2.0, 2.5, 5.0, 10.0, 20.0)  # 1 to this [ISO 5455, table 1]


def scale_for(extent_mm: tuple[float, float], room_mm: tuple[float, float]) -> float:
    """Return the largest scale, as 1 to what is returned, at which an extent fits into a room.

    Raises
    ------
    ValueError
        If none does.

    Examples
    --------
    >>> scale_for((900.0, 500.0), (184.0, 110.0))
    5.0
    """
    for scale in SCALES:
        if all(a / scale <= b for a, b in zip(extent_mm, room_mm, strict=True)):
            return scale
    raise ValueError(f"extent_mm must fit at 1:20 into {room_mm}, got {extent_mm}")


@dataclass(slots=True)
class ViewSheet:
    """One view: `zero` is where its own zero lies on the page [mm], first axis right, second up."""

    zero: Point
    scale: float
    lines: list[Shape] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)

    def at(self, across: float, up: float) -> Point:
        """Return where a place lies on the page [mm]."""
        return self.zero[0] + across / self.scale, self.zero[1] - up / self.scale

    def points(self, places: Floats) -> tuple[Point, ...]:
        """Return where places (n, 2) lie on the page."""
        return tuple(self.at(float(a), float(b)) for a, b in places)

    def line(self, places: Floats, pen: PenName, *, closed: bool = False) -> None:
        """Draw a line through places (n, 2)."""
        self.lines.append(Line(self.points(places), pen, closed=closed))

    def fill(self, places: Floats, hatch: HatchName) -> None:
        """Hatch an area inside places (n, 2)."""
        self.lines.append(Fill(self.points(places), hatch=hatch))

    def label(self, across: float, up: float, words: str, width_mm: float = 34.0) -> None:
        """Name what is at a place."""
        x, y = self.at(across, up)
        self.notes.append(note((x + 1.5, y + 1.0), words, width_mm, LABEL, (x, y)))

    def hole(self, place: Point, wide_mm: float, words: str) -> None:
        """Draw a round hole in true size with its cross, and name it."""
        self.lines.append(Circle(self.at(*place), wide_mm / 2 / self.scale, "thin"))
        for arm in (np.array((CROSS_MM, 0.0)), np.array((0.0, CROSS_MM))):
            middle = np.array(self.at(*place))
            ends = (middle - arm, middle + arm)
            self.lines.append(Line(tuple((float(a), float(b)) for a, b in ends), "thin"))
        self.label(*place, words, 24.0)

    def measure(self, a: Floats, b: Floats, offset_mm: float, words: str) -> None:
        """Draw a dimension between two places, `offset_mm` away on the page."""
        drawn = dimension(self.at(*a), self.at(*b), offset_mm, words, 2.6)
        lines, texts = layered(drawn, "dimension")
        self.lines += lines
        self.notes[:0] = [Note((text,), firm=True) for text in texts]


def hull(points: Floats) -> Floats:
    """Return the convex hull of points (n, 2), counter-clockwise [monotone chain, Andrew 1979].

    Examples
    --------
    >>> hull(np.array([[0.0, 0], [2, 0], [1, 1], [2, 2], [0, 2]])).tolist()
    [[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]]
    """
    ordered = sorted({(float(a), float(b)) for a, b in points})
    halves = []
    for chain in (ordered, ordered[::-1]):
        kept: list[tuple[float, float]] = []
        for p in chain:
            while len(kept) > 1 and _turn(kept[-2], kept[-1], p) <= 0:
                kept.pop()
            kept.append(p)
        halves += kept[:-1]
    return np.array(halves or ordered)


def _turn(a: Point, b: Point, c: Point) -> float:
    """Return twice the signed area of a triangle."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def capsule(a: Floats, b: Floats, radius: float) -> Floats:
    """Return the outline of a round bar between two places (2,), (n, 2)."""
    way = (b - a) / (float(np.linalg.norm(b - a)) or 1.0)
    start = np.arctan2(way[1], way[0])
    turn = np.linspace(-np.pi / 2, np.pi / 2, 13)
    ends = [
        place + radius * np.stack([np.cos(start + add + turn), np.sin(start + add + turn)], -1)
        for place, add in ((b, 0.0), (a, np.pi))
    ]
    return np.concatenate(ends)
