"""One piece drawn 1:1, with its lines by layer and its notes: what templates are tiled from."""

from dataclasses import dataclass, replace

from trimwright.drawing import Box, Circle, Drawing, Element, Fill, Line, Path, Point, Text, flat
from trimwright.papers.note import Area, Note, settled, strokes

Shape = Line | Path | Fill | Circle


@dataclass(frozen=True, slots=True)
class Piece:
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
    def whole(self) -> Drawing:
        """The drawing with its words, settled in it."""
        box = Box(0.0, 0.0, self.width_mm, self.height_mm)
        notes = settled(self.notes, (), strokes(self.lines), box)
        words = tuple(text for one in notes for text in one.texts)
        return Drawing(self.width_mm, self.height_mm, (*self.lines, *words))


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
