"""The frame of a page and its zones."""

from trimwright.drawing.element import Box, Element, Line, Point, Text
from trimwright.drawing.sheet import Size, size_mm

INSET_MM = 8.0
ROWS, COLUMNS = "ABCD", "123456"
TICK_MM, LETTER_MM = 2.5, 2.6


def frame_box(size: Size) -> Box:
    """Return the rectangle of the frame [mm].

    Examples
    --------
    >>> frame_box("A4").right, frame_box("A4").bottom
    (202.0, 289.0)
    """
    width, height = size_mm(size)
    return Box(INSET_MM, INSET_MM, width - 2 * INSET_MM, height - 2 * INSET_MM)


def zone(size: Size, at: Point) -> str:
    """Return the zone of a page in which a place lies; outside the frame, the nearest.

    References
    ----------
    ISO 5457:1999, 4.5, grid reference system

    Examples
    --------
    >>> zone("A4", (10.0, 10.0)), zone("A4", (200.0, 280.0))
    ('A1', 'D6')
    """
    box = frame_box(size)
    row = int((at[1] - box.y) / box.height * len(ROWS))
    column = int((at[0] - box.x) / box.width * len(COLUMNS))
    return ROWS[min(max(row, 0), len(ROWS) - 1)] + COLUMNS[min(max(column, 0), len(COLUMNS) - 1)]


def frame(size: Size) -> tuple[Element, ...]:
    """Return a page's frame 8 mm in, with zones A to D down and 1 to 6 across outside it."""
    box = frame_box(size)
    drawn: list[Element] = [Line(box.corners, "frame", closed=True, layer="frame")]
    high, wide = box.height / len(ROWS), box.width / len(COLUMNS)
    for index in range(1, len(ROWS)):
        y = box.y + index * high
        drawn += [_tick((box.x, y), (-TICK_MM, 0.0)), _tick((box.right, y), (TICK_MM, 0.0))]
    for index in range(1, len(COLUMNS)):
        x = box.x + index * wide
        drawn += [_tick((x, box.y), (0.0, -TICK_MM)), _tick((x, box.bottom), (0.0, TICK_MM))]
    middle = 0.36 * LETTER_MM  # half the height of a capital
    for index, letter in enumerate(ROWS):
        y = box.y + (index + 0.5) * high + middle
        drawn += [_letter((box.x - 2.2, y), letter), _letter((box.right + 2.2, y), letter)]
    for index, letter in enumerate(COLUMNS):
        x = box.x + (index + 0.5) * wide
        drawn += [
            _letter((x, box.y - 2.2 + middle), letter),
            _letter((x, box.bottom + 2.2 + middle), letter),
        ]
    return tuple(drawn)


def _tick(at: Point, by: Point) -> Line:
    return Line((at, (at[0] + by[0], at[1] + by[1])), "thin", layer="frame")


def _letter(at: Point, letter: str) -> Text:
    return Text(at, letter, LETTER_MM, anchor="middle", layer="frame")
