"""Tables: one row a thing, with a small picture, a box to tick or a line to write on."""

from typing import Literal

from msgspec import Struct

from trimwright.drawing.element import Anchor, Box, Element, Group, Line, Point, Text
from trimwright.drawing.face import ASCENT
from trimwright.drawing.type_size import LABEL_MM, LEAD_MM, WORD_MM
from trimwright.drawing.words import LEADING, Setting, wrapped

PAD_MM = 1.2
TICK_BOX_MM = 4.0
HEAD = Setting(LABEL_MM)
BODY = Setting(WORD_MM)
OVER = Setting(LEAD_MM, "say")
OVER_MM = 3.0  # above a heading in a table


class Column(Struct, frozen=True):
    """A column: its heading, width [mm], and what stands in it."""

    title: str
    width_mm: float
    kind: Literal["words", "figure", "picture", "tick", "line"] = "words"


class Row(Struct, frozen=True):
    """A row: words for each column (empty for ticks, lines, pictures) and its picture's size [mm].

    The picture has its origin at its own top left corner and stands in the picture column.
    A row with `over` is a heading over the rows below it, and has no cells.
    """

    cells: tuple[str, ...]
    picture: tuple[Element, ...] = ()
    picture_mm: tuple[float, float] = (0.0, 0.0)
    face: Literal["count", "count-bold", "say"] = "count"
    over: str = ""


def _setting(row: Row) -> Setting:
    return Setting(BODY.size_mm, row.face)


def row_height(columns: tuple[Column, ...], row: Row) -> float:
    """Return how high a row is [mm]: its tallest cell, wrapped to its column.

    Raises
    ------
    ValueError
        If the row has not one cell for each column.
    """
    if row.over:
        return len(_over(columns, row)) * OVER.size_mm * LEADING + OVER_MM + PAD_MM
    if len(row.cells) != len(columns):
        raise ValueError(f"cells must be {len(columns)}, one a column, got {len(row.cells)}")
    step = BODY.size_mm * LEADING
    tall = [row.picture_mm[1]]
    for column, words in zip(columns, row.cells, strict=True):
        if column.kind in ("words", "figure"):
            lines = wrapped(words, column.width_mm - 2 * PAD_MM, _setting(row))
            tall.append(len(lines) * step)
        elif column.kind in ("tick", "line"):
            tall.append(TICK_BOX_MM)
    return max(tall) + 2 * PAD_MM


def _over(columns: tuple[Column, ...], row: Row) -> tuple[str, ...]:
    width = sum(column.width_mm for column in columns)
    return wrapped(row.over, width - 2 * PAD_MM, OVER)


def head_height(columns: tuple[Column, ...]) -> float:
    """Return how high the headings are [mm]."""
    most = max(len(wrapped(c.title, c.width_mm - 2 * PAD_MM, HEAD)) for c in columns)
    return most * HEAD.size_mm * LEADING + 2 * PAD_MM


def shared_out(
    columns: tuple[Column, ...], rows: tuple[Row, ...], first_mm: float, next_mm: float
) -> tuple[tuple[Row, ...], ...]:
    """Return rows shared out to pages: what fits below the headings in the heights given [mm].

    A heading over rows stands on the page of the first of them.

    Raises
    ------
    ValueError
        If one row alone is higher than a page gives.
    """
    pages: list[list[Row]] = [[]]
    left = first_mm - head_height(columns)
    for number, row in enumerate(rows):
        height = row_height(columns, row)
        below = rows[number + 1 : number + 2] if row.over else ()
        if height + sum(row_height(columns, one) for one in below) > left:
            pages.append([])
            left = next_mm - head_height(columns)
            if height > left:
                raise ValueError(f"row {row.cells!r} needs {height:.1f} mm, a page has {left:.1f}")
        pages[-1].append(row)
        left -= height
    return tuple(tuple(page) for page in pages)


def _words(words: str, column: Column, at: Point, setting: Setting) -> list[Element]:
    room = column.width_mm - 2 * PAD_MM
    right = column.kind == "figure"
    x = at[0] + (column.width_mm - PAD_MM if right else PAD_MM)
    anchor: Anchor = "end" if right else "start"
    drawn: list[Element] = []
    for index, line in enumerate(wrapped(words, room, setting)):
        y = at[1] + PAD_MM + ASCENT * setting.size_mm + index * setting.size_mm * LEADING
        if line:
            text = Text((x, y), line, setting.size_mm, setting.face, anchor, box_mm=room)
            drawn.append(text)
    return drawn


def _cell(column: Column, words: str, row: Row, box: Box) -> list[Element]:
    middle = box.y + box.height / 2
    if column.kind == "picture":
        width, height = row.picture_mm
        corner = (box.x + (box.width - width) / 2, middle - height / 2)
        return [Group(row.picture, move=corner)]
    if column.kind == "tick":
        half = TICK_BOX_MM / 2
        square = Box(box.x + box.width / 2 - half, middle - half, 2 * half, 2 * half).corners
        return [Line(square, "thin", closed=True)]
    if column.kind == "line":
        # the row's own rule, heavier where there is something to write
        ends = ((box.x + PAD_MM, box.bottom), (box.right - PAD_MM, box.bottom))
        return [Line(ends, "visible")]
    return _words(words, column, (box.x, box.y), _setting(row))


def table(
    at: Point, columns: tuple[Column, ...], rows: tuple[Row, ...]
) -> tuple[tuple[Element, ...], float]:
    """Return a table from its top left corner, and the height it takes [mm].

    Raises
    ------
    ValueError
        If a row has not one cell for each column.
    """
    width = sum(column.width_mm for column in columns)
    drawn: list[Element] = []
    x, y = at
    for column in columns:
        titles = Column(
            column.title, column.width_mm, "figure" if column.kind == "figure" else "words"
        )
        drawn += _words(column.title, titles, (x, y), HEAD)
        x += column.width_mm
    y += head_height(columns)
    drawn.append(Line(((at[0], y), (at[0] + width, y)), "visible"))
    for row in rows:
        height = row_height(columns, row)
        x = at[0]
        if row.over:
            whole = Column("", width)
            drawn += _words(row.over, whole, (x, y + OVER_MM - PAD_MM), OVER)
        for column, words in zip(columns if row.cells else (), row.cells, strict=True):
            drawn += _cell(column, words, row, Box(x, y, column.width_mm, height))
            x += column.width_mm
        y += height
        drawn.append(Line(((at[0], y), (at[0] + width, y)), "thin"))
    return tuple(drawn), y - at[1]
