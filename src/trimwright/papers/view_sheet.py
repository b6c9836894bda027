"""A view to scale as it grows: true millimetres in, page millimetres out."""

from itertools import pairwise

import numpy as np
from msgspec import Struct, field
from numpy.typing import NDArray

from trimwright.drawing import (
    LABEL_MM,
    Circle,
    Fill,
    HatchName,
    Line,
    PenName,
    Point,
    Setting,
    Text,
    datum_tick,
    dimension,
)
from trimwright.papers.note import Note, note
from trimwright.papers.piece import Shape, layered

Floats = NDArray[np.float64]
FieldPath = tuple[str | int, ...]
LABEL = Setting(LABEL_MM)
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


class ViewSheet(Struct):
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

    def cover(self, outer: Floats, inner: Floats) -> None:  # noqa: ARG002  the wood has its own line
        """Draw a cover by its outside (n, 2); `inner` is the wood's face under it (m, 2)."""
        self.line(outer, "thin")

    def datum(self, across: float, up: float) -> None:
        """Mark where all places are taken from."""
        lines, words = layered(datum_tick(self.at(across, up)), "datum")
        self.lines += lines
        self.notes += [Note((word,)) for word in words]

    def zones(self, along: Floats, down: Floats, high_mm: float) -> None:
        """Draw the zones that findings name: 1, 2 .. along under `high_mm`, A, B .. at the rear."""
        for k, x in enumerate(along):
            self.line(np.array([[x, high_mm - 2.0], [x, high_mm - 12.0]]), "thin")
            if k:
                at = self.at((along[k - 1] + x) / 2, high_mm - 12.0)
                self.notes.insert(
                    0, Note((Text(at, str(k), LABEL_MM, anchor="middle"),), firm=True)
                )
        left = float(along[-1]) + self.scale * 7.0  # clear of the height at the rear end
        for k, (z, next_z) in enumerate(pairwise(down)):
            self.line(np.array([[left, z], [left + self.scale, z]]), "thin")
            at = self.at(left + self.scale / 2, (z + next_z) / 2)
            words = Text(at, chr(ord("A") + k), LABEL_MM, anchor="middle")
            self.notes.insert(0, Note((words,), firm=True))

    def measure(
        self,
        a: Floats,
        b: Floats,
        offset_mm: float,
        words: str,
        path: FieldPath = (),  # noqa: ARG002  paper cannot be typed over
    ) -> None:
        """Draw a dimension between two places, `offset_mm` away on the page.

        `path` names the field of the build that the figure is, if it is one.
        """
        drawn = dimension(self.at(*a), self.at(*b), offset_mm, words)
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
