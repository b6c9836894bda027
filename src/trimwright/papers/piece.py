"""One piece drawn 1:1, with its lines by layer and its notes: what templates are tiled from."""

from typing import TypeVar

from msgspec import Struct
from msgspec.structs import replace

from trimwright.drawing import (
    Box,
    Circle,
    Drawing,
    Element,
    Fill,
    Group,
    Line,
    Path,
    Point,
    Text,
    flat,
)
from trimwright.papers.note import Area, Note, settled, strokes

Shape = Line | Path | Fill | Circle


class Piece(Struct, frozen=True):
    """A drawing 1:1 whose words are still free to move.

    `lines` hold no words; `layer` says of each what it is. `notes` are the most
    needful first. `part` is the piece's name, `says` what stands under it.
    """

    part: str
    says: str
    width_mm: float
    height_mm: float
    lines: tuple[Shape, ...]
    notes: tuple[Note, ...]

    @property
    def bare(self) -> Drawing:
        """The drawing without words."""
        return Drawing(self.width_mm, self.height_mm, self.lines)

    @property
    def turned(self) -> "Piece":
        """The piece a quarter turn clockwise, its words with it."""
        lines = tuple(_turned(line, self.height_mm) for line in self.lines)
        notes = tuple(
            Note(
                tuple(_turned(text, self.height_mm) for text in one.texts),
                None if one.near is None else (self.height_mm - one.near[1], one.near[0]),
                one.firm,
            )
            for one in self.notes
        )
        return replace(
            self, width_mm=self.height_mm, height_mm=self.width_mm, lines=lines, notes=notes
        )

    @property
    def whole(self) -> Drawing:
        """The drawing with its words, settled in it."""
        box = Box(0.0, 0.0, self.width_mm, self.height_mm)
        notes = settled(self.notes, (), strokes(self.lines), box)
        words = tuple(text for one in notes for text in one.texts)
        return Drawing(self.width_mm, self.height_mm, (*self.lines, *words))


Turned = TypeVar("Turned", bound=Line | Path | Fill | Circle | Text)


def _turned(one: Turned, high_mm: float) -> Turned:
    """Return an element a quarter turn clockwise about the corner of a drawing of a height."""
    if isinstance(one, Fill):  # stays an area, so that its hatch runs as on every page
        points, *holes = (
            tuple((high_mm - y, x) for x, y in ring) for ring in (one.points, *one.holes)
        )
        return replace(one, points=points, holes=tuple(holes))
    (made,) = flat((Group((one,), move=(high_mm, 0.0), turn_deg=90.0),))
    if not isinstance(made, type(one)):
        raise TypeError(f"a turned {type(one).__name__} must stay one, got {type(made).__name__}")
    return made


def layered(
    elements: tuple[Element, ...], layer: str
) -> tuple[tuple[Shape, ...], tuple[Text, ...]]:
    """Return elements without groups on one layer, and their words apart.

    Hatched areas stay areas, so that a hatch runs on from page to page.
    """
    lines: list[Shape] = []
    words: list[Text] = []
    for one in elements:
        if isinstance(one, Fill):
            lines.append(replace(one, layer=layer))
            continue
        for part in flat((one,)):
            if isinstance(part, Text):
                words.append(part)
            else:
                lines.append(replace(part, layer=layer))
    return tuple(lines), tuple(words)


def reach(points: tuple[Point, ...], margin_mm: float) -> Area:
    """Return the rectangle around points with a margin [mm]."""
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return (
        min(xs) - margin_mm,
        min(ys) - margin_mm,
        max(xs) + margin_mm,
        max(ys) + margin_mm,
    )
