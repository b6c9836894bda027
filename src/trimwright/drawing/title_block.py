"""The title block: which build, which sheet, how large, how to check that."""

from msgspec import Struct

from trimwright.drawing.element import Box, Circle, Element, FaceName, Line, Point, Text
from trimwright.drawing.face import ASCENT, text_width
from trimwright.drawing.type_size import LABEL_MM, NAME_MM, WORD_MM
from trimwright.drawing.words import Setting, wrapped

TITLE_WIDE_MM = 158.0  # on every page: what an upright sheet leaves beside a small map
PAD_MM = 1.6
DROP_MM, LABEL_UP_MM, FOOT_MM = 4.1, 1.5, 1.6  # top to words, words to label, below the words
STEP = 1.15  # from line to line, of the size


class Title(Struct, frozen=True):
    """The fields of ISO 7200 that a shop paper has, in words and in this order.

    `paper` is its kind, `page` its place in that paper, `sheet` its place among all; `check` is
    what the printer is checked by.
    """

    build: str
    part: str
    paper: str
    page: str
    sheet: str
    scale: str
    last_change: str
    unit: str
    check: str


class _Cell(Struct, frozen=True):
    label: str
    words: str
    share: float
    size_mm: float = WORD_MM
    face: FaceName = "count-bold"

    @property
    def lines(self) -> tuple[str, ...]:
        return wrapped(self.words, _room(self.share), Setting(self.size_mm, self.face))

    @property
    def height_mm(self) -> float:
        rest = (len(self.lines) - 1) * STEP * self.size_mm
        return DROP_MM + ASCENT * self.size_mm + rest + FOOT_MM


LAST_CHANGE_SHARE = 0.295


def _room(share: float) -> float:
    """Return how wide the words of a field can be [mm]."""
    return TITLE_WIDE_MM * share - 2 * PAD_MM


def _rows(title: Title) -> tuple[tuple[_Cell, ...], ...]:
    return (
        (
            _Cell("build", title.build, 0.5, NAME_MM, "say"),
            _Cell("part", title.part, 0.5, NAME_MM, "say"),
        ),
        (
            _Cell("paper", title.paper, 0.16),
            _Cell("page", title.page, 0.145),
            _Cell("sheet", title.sheet, 0.12),
            _Cell("scale", title.scale, 0.065),
            _Cell("last change", title.last_change, LAST_CHANGE_SHARE),
            _Cell("unit", title.unit, 0.055),
            _Cell("check", title.check, 0.16),
        ),
    )


def fits_last_change(words: str) -> bool:
    """Return whether words for the last change stand on one line of their field."""
    return text_width(words, WORD_MM, "count-bold") <= _room(LAST_CHANGE_SHARE)


def title_block(title: Title, corner: Point) -> tuple[tuple[Element, ...], Box]:
    """Return the title block that ends at a corner, bottom right, and the rectangle it takes.

    A long name takes a second line; the block then grows upwards.

    Parameters
    ----------
    title : Title
        The fields.
    corner : Point
        Bottom right corner, that of the frame [mm].

    References
    ----------
    ISO 7200:2004, data fields in title blocks
    """
    rows = _rows(title)
    heights = [max(cell.height_mm for cell in row) for row in rows]
    box = Box(corner[0] - TITLE_WIDE_MM, corner[1] - sum(heights), TITLE_WIDE_MM, sum(heights))
    drawn: list[Element] = []
    y = box.y
    for row, height in zip(rows, heights, strict=True):
        x = box.x
        for cell in row:
            drawn += _cell(cell, Box(x, y, TITLE_WIDE_MM * cell.share, height))
            x += TITLE_WIDE_MM * cell.share
        y += height
    drawn.append(Line(box.corners, "frame", closed=True, layer="frame"))
    return tuple(drawn), box


def _cell(cell: _Cell, box: Box) -> list[Element]:
    drawn: list[Element] = [
        Line(box.corners, "thin", closed=True, layer="frame"),
        Text((box.x + PAD_MM, box.y + DROP_MM - LABEL_UP_MM), cell.label, LABEL_MM),
    ]
    first = box.y + DROP_MM + ASCENT * cell.size_mm
    for index, line in enumerate(cell.lines):
        at = (box.x + PAD_MM, first + index * STEP * cell.size_mm)
        drawn.append(Text(at, line, cell.size_mm, cell.face, box_mm=_room(cell.share)))
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
