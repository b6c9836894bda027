"""Every panel at 1:1 on one page of a roll, for a plotter or a copy shop."""

from trimwright.cabin import Cabin
from trimwright.drawing import (
    Document,
    Drawing,
    Element,
    Group,
    Page,
    Setting,
    Text,
    check_squares,
    text_box,
)
from trimwright.papers.panel_drawing import panel_piece
from trimwright.papers.piece import Piece

ROLL_MM = 900.0  # a common width of plotter paper, 36 in less its margins
MARGIN_MM, GAP_MM = 15.0, 12.0
SQUARE_MM = 101.6
NAME = Setting(8.0, "say")


def plotter(cabin: Cabin) -> Document:
    """Return one page, as wide as a roll or the longest panel, with every panel and check squares.

    Raises
    ------
    ValueError
        If there is no console, or it cannot be made: there is nothing to plot.
    """
    carcass = cabin.carcass
    if carcass is None or not carcass.panels:
        raise ValueError("cabin must have a console that can be made")
    pieces = [panel_piece(cabin, panel) for panel in carcass.panels]
    wide = max(ROLL_MM, *(piece.width_mm + 2 * MARGIN_MM for piece in pieces))
    drawn, top = _head(cabin, wide)
    drawn = [*drawn]
    for row in _rows(pieces, wide - 2 * MARGIN_MM):
        x = MARGIN_MM
        for piece in row:
            drawn.append(Group(piece.whole.elements, move=(x, top)))
            x += piece.width_mm + GAP_MM
        top += max(piece.height_mm for piece in row) + GAP_MM
    drawing = Drawing(wide, top + MARGIN_MM, tuple(drawn))
    page = Page((drawing.width_mm, drawing.height_mm), drawing, "all panels")
    return Document((page,), f"{cabin.build.name}: all panels 1:1", "")


def _rows(pieces: list[Piece], room_mm: float) -> list[list[Piece]]:
    """Return the pieces in rows, the tallest first so that little paper is lost."""
    rows: list[list[Piece]] = [[]]
    left = room_mm
    for piece in sorted(pieces, key=lambda one: (-one.height_mm, one.part)):
        if rows[-1] and piece.width_mm > left:
            rows.append([])
            left = room_mm
        rows[-1].append(piece)
        left -= piece.width_mm + GAP_MM
    return rows


def _head(cabin: Cabin, wide_mm: float) -> tuple[list[Element], float]:
    """Return the check squares with the name of the build beside them, and where panels begin."""
    x = MARGIN_MM + SQUARE_MM + GAP_MM
    revision = cabin.build.console.revision if cabin.build.console else ""
    room = wide_mm - x - MARGIN_MM
    name, high = text_box((x, MARGIN_MM), f"{cabin.build.name}: all panels 1:1", room, NAME)
    words = (
        f"Revision {revision}. Inner square: 100 mm. Outer square: 4 in. Off by more than 0.5 mm"
        " (1/64 in)? Plot again at full size. Saw outside the saw lines: the line stays."
    )
    said, _ = text_box((x, MARGIN_MM + high + 3.0), words, room, Setting(3.4))
    squares = check_squares((MARGIN_MM, MARGIN_MM))
    inside = Text((MARGIN_MM + 9.0, MARGIN_MM + 14.0), "Check before you cut", 5.0, "say")
    return [*squares, inside, *name, *said], MARGIN_MM + SQUARE_MM + GAP_MM
