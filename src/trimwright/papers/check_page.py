"""The first page of pieces 1:1: check squares, key, and which page sits where."""

import math

from msgspec.structs import replace

from trimwright.drawing import (
    LEAD_MM,
    NAME_MM,
    WORD_MM,
    Box,
    Element,
    Setting,
    Text,
    Tile,
    check_squares,
    frame_box,
    page_map,
    text_box,
)
from trimwright.papers.key import key
from trimwright.papers.leaf import TRUE_SIZE, Leaf, title_area
from trimwright.papers.piece import Piece
from trimwright.papers.shared_page import GAP_MM, Paper

INSET_MM = 4.0  # from the frame
SQUARE_MM = 101.6  # the larger check square
HEAD_MM = 12.0  # the heading over the maps
COLUMNS = 3
HOW = (
    "Inner square: 100 mm. Outer square: 4 in.\n"
    "Off by more than 0.5 mm (1/64 in)?\n"
    "Print again at full size, not fitted to the page."
)


def check_page(
    paper: Paper,
    maps: tuple[tuple[Piece, tuple[Tile, ...]], ...],
    layers: frozenset[str],
    count: int,
) -> Leaf:
    """Return the page that a paper's other pages are checked and joined by.

    Parameters
    ----------
    paper : Paper
        What the pages are filed as.
    maps : tuple of (Piece, tuple of Tile)
        The pieces that are larger than a page, with their pages.
    layers : frozenset of str
        What the key has to explain.
    count : int
        How many pages follow.
    """
    box = frame_box(paper.size)
    part = f"check, key, maps of {count} page{'s' if count > 1 else ''} 1:1"
    page = Leaf(paper.size, (), part, paper.kind, "first", TRUE_SIZE)
    at = (box.x + INSET_MM, title_area(page, paper.build).y - INSET_MM - SQUARE_MM)
    right = Box(
        at[0] + SQUARE_MM + 3.0, at[1], box.right - at[0] - SQUARE_MM - INSET_MM - 3.0, SQUARE_MM
    )
    said = f"{paper.says} Each page has rules of 100 mm and 4 in along its frame."
    words, _ = text_box((right.x, right.y), said, right.width, Setting(LEAD_MM))
    room = Box(box.x + INSET_MM, box.y + INSET_MM, box.width - 2 * INSET_MM, at[1] - box.y)
    drawn = (*check_squares(at), *_check_words(at, layers), *words, *_maps(maps, room))
    return replace(page, elements=drawn)


def _check_words(at: tuple[float, float], layers: frozenset[str]) -> list[Element]:
    """Return what stands in the check squares: how to check, and the key."""
    x, y = at[0] + 9.0, at[1]
    drawn: list[Element] = [Text((x, y + 14.0), "Check before you cut", NAME_MM, "say")]
    said, high = text_box((x, y + 18.0), HOW, 86.0, Setting(LEAD_MM))
    marks, _ = key((x, y + 18.0 + high + 4.0), layers, 88.0)
    return [*drawn, *said, *marks]


def _maps(maps: tuple[tuple[Piece, tuple[Tile, ...]], ...], room: Box) -> list[Element]:
    """Return a map of each piece that is joined from pages, all in a room above the squares."""
    if not maps:
        return []
    head = Text((room.x, room.y + 5.0), "Which page sits where", NAME_MM, "say")
    high = room.height - HEAD_MM - GAP_MM - INSET_MM
    columns = next(
        n
        for n in range(min(COLUMNS, len(maps)), len(maps) + COLUMNS)
        if math.ceil(len(maps) / n) * room.width / n * 0.8 <= high or n >= len(maps)
    )
    wide = room.width / columns
    tall = min(high / math.ceil(len(maps) / columns), wide)
    drawn: list[Element] = [head]
    for k, (piece, cut) in enumerate(maps):
        x = room.x + wide * (k % columns)
        y = room.y + HEAD_MM + tall * (k // columns)
        name, name_high = text_box(
            (x, y), piece.part, wide - GAP_MM, Setting(WORD_MM, "count-bold")
        )
        frame = Box(x, y + name_high + 1.0, wide - GAP_MM, tall - name_high - GAP_MM)
        drawn += [*name, *page_map(None, cut, piece.bare, frame)]
    return drawn
