"""Every panel at 1:1 on one page of a roll, for a plotter or a copy shop."""

from msgspec.structs import replace

from trimwright.build import Version
from trimwright.cabin import Cabin
from trimwright.drawing import (
    LEAD_MM,
    NAME_MM,
    PART_MM,
    Box,
    Document,
    Element,
    Group,
    Setting,
    Text,
    check_squares,
    text_box,
)
from trimwright.papers.leaf import TRUE_SIZE, Leaf, pages, title_area
from trimwright.papers.one_to_one import worded
from trimwright.papers.panel_drawing import panel_piece
from trimwright.papers.piece import Piece

ROLL_MM = 900.0  # a common width of plotter paper, 36 in less its margins
MARGIN_MM, GAP_MM = 15.0, 12.0
SQUARE_MM = 101.6
SAYS = (
    "Inner square: 100 mm. Outer square: 4 in. Off by more than 0.5 mm (1/64 in)? Plot again at"
    " full size. Saw outside the saw lines: the line stays."
)


def plotter(cabin: Cabin, last: Version | None = None) -> Document:
    """Return one page, as wide as a roll or the longest panel, with every panel and check squares.

    Parameters
    ----------
    cabin : Cabin
        With a console.
    last : Version, optional
        What was changed last, where a history was kept.

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
    drawn, top = _head(wide)
    for row in _rows(pieces, wide - 2 * MARGIN_MM):
        x = MARGIN_MM
        for piece in row:
            drawn.append(Group(_worded(piece), move=(x, top)))
            x += piece.width_mm + GAP_MM
        top += max(piece.height_mm for piece in row) + GAP_MM
    leaf = Leaf((wide, top), tuple(drawn), "all panels", "plotter page", scale=TRUE_SIZE)
    title = title_area(leaf, cabin.build)
    whole = replace(leaf, size=(wide, 2 * top - title.y))  # the title stands below the last panel
    return Document(pages((whole,), cabin.build, last), f"{cabin.build.name}: all panels 1:1", "")


def _worded(piece: Piece) -> tuple[Element, ...]:
    """Return a piece with its words, which may stand in the gaps round it."""
    aside = GAP_MM / 2 - 0.5
    wide, high = piece.width_mm + 2 * aside, piece.height_mm + 2 * aside
    box = Box(-aside, -aside, wide, high)
    return (*piece.lines, *worded(piece.notes, (), piece.lines, box))


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


def _head(wide_mm: float) -> tuple[list[Element], float]:
    """Return the check squares with what they are for beside them, and where panels begin."""
    x = MARGIN_MM + SQUARE_MM + GAP_MM
    room = wide_mm - x - MARGIN_MM
    name, high = text_box((x, MARGIN_MM), "All panels 1:1", room, Setting(PART_MM, "say"))
    said, _ = text_box((x, MARGIN_MM + high + 3.0), SAYS, room, Setting(LEAD_MM))
    squares = check_squares((MARGIN_MM, MARGIN_MM))
    inside = Text((MARGIN_MM + 9.0, MARGIN_MM + 14.0), "Check before you cut", NAME_MM, "say")
    return [*squares, inside, *name, *said], MARGIN_MM + SQUARE_MM + GAP_MM
