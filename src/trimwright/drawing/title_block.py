"""The title block: who, what, which sheet, how large."""

from dataclasses import dataclass, replace

from trimwright.drawing.element import Box, Circle, Element, FaceName, Line, Point, Text
from trimwright.drawing.face import ASCENT
from trimwright.drawing.words import Setting, wrapped

WIDTH_MM = 76.0
PAD_MM, LABEL_MM = 1.6, 2.4
LABEL_DROP_MM, FOOT_MM = 4.5, 1.6  # from a cell's top to its words, and below them
LOW_DROP_MM = 3.9  # the same in a strip


@dataclass(frozen=True, slots=True)
class Title:
    """The fields of ISO 7200 that a shop paper has, in words.

    `paper` is its kind, `page` its place in that paper, `sheet` its place in the packet.
    """

    part: str
    build: str
    paper: str
    page: str
    scale: str
    unit: str
    last_change: str
    sheet: str
    drawn_by: str = "Trimwright"
    drawn_for: str = "the bench"


@dataclass(frozen=True, slots=True)
class _Cell:
    label: str
    words: str
    share: float = 1.0
    size_mm: float = 3.4
    face: FaceName = "count-bold"
    drop_mm: float = LABEL_DROP_MM

    def lines(self, width_mm: float) -> tuple[str, ...]:
        setting = Setting(self.size_mm, self.face)
        return wrapped(self.words, width_mm * self.share - 2 * PAD_MM, setting)

    def height_mm(self, width_mm: float) -> float:
        count = len(self.lines(width_mm))
        step = 1.15 * self.size_mm
        return self.drop_mm + ASCENT * self.size_mm + (count - 1) * step + FOOT_MM


def _rows(title: Title) -> tuple[tuple[_Cell, ...], ...]:
    return (
        (_Cell("part", title.part, size_mm=5.0, face="say"),),
        (_Cell("build", title.build, size_mm=3.9, face="say"),),
        (
            _Cell("paper", title.paper, 0.5),
            _Cell("page", title.page, 0.5),
        ),
        (
            _Cell("scale", title.scale, 0.25),
            _Cell("unit", title.unit, 0.25),
            _Cell("sheet", title.sheet, 0.5),
        ),
        (
            _Cell("last change", title.last_change, 0.44),
            _Cell("drawn by", title.drawn_by, 0.3),
            _Cell("for", title.drawn_for, 0.26),
        ),
    )


def title_block(
    title: Title, corner: Point, width_mm: float = WIDTH_MM
) -> tuple[tuple[Element, ...], Box]:
    """Return the title block that ends at a corner, bottom right, and the rectangle it takes.

    A long name takes a second line; the block then grows upwards.

    Parameters
    ----------
    title : Title
        The fields.
    corner : Point
        Bottom right corner, that of the frame [mm].
    width_mm : float, default 76.0
        Width [mm].

    References
    ----------
    ISO 7200:2004, data fields in title blocks; ISO 128-3 (first angle symbol)
    """
    return _drawn(_rows(title), corner, width_mm)


def title_strip(title: Title, corner: Point, width_mm: float) -> tuple[tuple[Element, ...], Box]:
    """Return the same fields two rows high, for pages that need their height: see `title_block`."""
    part, build, *rest = (cell for row in _rows(title) for cell in row)
    shares = (0.155, 0.15, 0.075, 0.065, 0.155, 0.135, 0.14, 0.125)
    cells = tuple(
        replace(cell, share=share, drop_mm=LOW_DROP_MM)
        for cell, share in zip(rest, shares, strict=True)
    )
    first = tuple(
        replace(cell, share=0.5, size_mm=3.9, drop_mm=LOW_DROP_MM) for cell in (part, build)
    )
    return _drawn((first, cells), corner, width_mm)


def _drawn(
    rows: tuple[tuple[_Cell, ...], ...], corner: Point, width_mm: float
) -> tuple[tuple[Element, ...], Box]:
    heights = [max(cell.height_mm(width_mm) for cell in row) for row in rows]
    box = Box(corner[0] - width_mm, corner[1] - sum(heights), width_mm, sum(heights))
    drawn: list[Element] = []
    y = box.y
    for row, height in zip(rows, heights, strict=True):
        x = box.x
        for cell in row:
            drawn += _cell(cell, Box(x, y, width_mm * cell.share, height), width_mm)
            x += width_mm * cell.share
        y += height
    drawn.append(Line(box.corners, "frame", closed=True, layer="frame"))
    return tuple(drawn), box


def _cell(cell: _Cell, box: Box, width_mm: float) -> list[Element]:
    drawn: list[Element] = [
        Line(box.corners, "thin", closed=True, layer="frame"),
        Text((box.x + PAD_MM, box.y + cell.drop_mm - 1.5), cell.label, LABEL_MM),
    ]
    first = box.y + cell.drop_mm + ASCENT * cell.size_mm
    room = box.width - 2 * PAD_MM
    for index, line in enumerate(cell.lines(width_mm)):
        at = (box.x + PAD_MM, first + index * 1.15 * cell.size_mm)
        drawn.append(Text(at, line, cell.size_mm, cell.face, box_mm=room))
    return drawn


def first_angle_symbol(at: Point, size_mm: float = 5.0) -> tuple[Element, ...]:
    """Return the first angle symbol, its middle at `at`: a cone from the side, then its end.

    References
    ----------
    ISO 5456-2:1996, figure 3
    """
    (x, y), r = at, size_mm / 2
    side = (
        (x - 2.2 * r, y - r / 2),
        (x - 0.4 * r, y - r),
        (x - 0.4 * r, y + r),
        (x - 2.2 * r, y + r / 2),
    )
    return (
        Line(side, "thin", closed=True),
        Circle((x + 1.2 * r, y), r, "thin"),
        Circle((x + 1.2 * r, y), r / 2, "thin"),
        Line(((x - 2.6 * r, y), (x + 2.6 * r, y)), "centre"),
        Line(((x + 1.2 * r, y - 1.4 * r), (x + 1.2 * r, y + 1.4 * r)), "centre"),
    )
