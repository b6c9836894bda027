"""Pieces 1:1 on paper: tiled where they are larger than a page, several to a page where they fit."""

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from trimwright.drawing import (
    LABEL_MM,
    OVERLAP_MM,
    TITLE_WIDE_MM,
    Box,
    Drawing,
    Element,
    Group,
    Line,
    PenName,
    Setting,
    Text,
    Tile,
    check_rule,
    flat,
    frame_box,
    joints,
    outline,
    page_map,
    text_box,
    tiles,
    windows,
)
from trimwright.papers.check_page import check_page
from trimwright.papers.leaf import Leaf, title_area
from trimwright.papers.note import Note, around, ground, settled, strokes
from trimwright.papers.piece import Piece
from trimwright.papers.shared_page import RULE_MM, Paper, SharedPage, blanks, window_box

LEADER_MM = 7.0  # a note farther than this from what it speaks of gets a line to it
CUT_ALONG: tuple[PenName, ...] = ("saw", "cut")  # lines that no word breaks
BROKEN: tuple[PenName, ...] = ("thin", "hidden", "centre", "other-body")
MAP_MM = 1.5  # from the frame to a page's map


class Tiled(Struct, frozen=True):
    """A piece that is larger than a page: what its pages look like before they are drawn on."""

    piece: Piece
    page: Leaf
    window: Box
    cut: tuple[Tile, ...]


def leaves(pieces: tuple[Piece, ...], paper: Paper) -> tuple[Leaf, ...]:
    """Return the pages of pieces drawn 1:1, after one with check squares, key and maps.

    A piece larger than a page is cut into tiles that lie over each other, pages and piece laid
    the way that takes fewest; smaller ones go on the first page that has room for them.
    """
    laid: list[Tiled | SharedPage] = []
    for piece in pieces:
        shared = (page for page in laid if isinstance(page, SharedPage))
        if any(page.takes(one) for page in shared for one in (piece, piece.turned)):
            continue
        laid.append(SharedPage.starting_with(piece, paper) or tiled(piece, paper))
    made = [leaf for one in laid for leaf in _drawn(one)]
    joined = (one for one in laid if isinstance(one, Tiled) and len(one.cut) > 1)
    maps = tuple((one.piece, one.cut) for one in joined)
    layers = {line.layer for piece in pieces for line in piece.lines}
    layers |= {"joint"} if maps else set()
    return (check_page(paper, maps, frozenset(layers), len(made)), *made) if made else ()


def tiled(piece: Piece, paper: Paper) -> Tiled:
    """Return a piece cut into tiles, pages and piece laid the way that takes fewest."""
    ways = (
        (one, page, window_box(page, paper.build))
        for one in (piece, piece.turned)
        for page in blanks(piece.part, paper)
    )
    one, page, window = min(ways, key=lambda way: _count(way[0], way[2]))
    cut = tiles(one.bare, (window.width, window.height))
    return Tiled(one, page, window, cut)


def _count(piece: Piece, window: Box) -> int:
    """Return how many windows it takes to the last line of a piece; some may show nothing."""
    bounds = [around(outline(line)) for line in piece.lines]
    drawn = Drawing(max(area[2] for area in bounds), max(area[3] for area in bounds))
    return sum(len(row) for row in windows(drawn, (window.width, window.height)))


def _drawn(one: Tiled | SharedPage) -> list[Leaf]:
    """Return the pages of a piece, or of several on one."""
    if isinstance(one, SharedPage):
        return [_shared(one)]
    return [_tile(one, number) for number in range(len(one.cut))]


def _shared(page: SharedPage) -> Leaf:
    """Return one page with whole pieces on it."""
    drawn: list[Element] = []
    for piece, box in page.placed:
        notes = tuple(one.shifted(box.x, box.y) for one in piece.notes)
        lines = flat((Group(piece.lines, move=(box.x, box.y)),))
        drawn += [*lines, *worded(notes, (), lines, box)]
    below = _map_room(page.page, title_area(page.page, page.paper.build).y)
    return replace(page.page, elements=(*drawn, *_rules(page.page), *_unjoined(below)))


def _unjoined(room: Box) -> tuple[Element, ...]:
    """Return what stands where other pages have their map."""
    return text_box((room.x, room.y), "Nothing to join.", room.width, Setting(LABEL_MM))[0]


def _map_room(page: Leaf, top: float) -> Box:
    """Return the rectangle beside a page's title block, which begins at a height."""
    box = frame_box(page.size)
    wide = box.width - TITLE_WIDE_MM - 2 * MAP_MM
    return Box(box.x + MAP_MM, top + MAP_MM, wide, box.bottom - top - 2 * MAP_MM)


def _tile(one: Tiled, number: int) -> Leaf:
    """Return one page of a piece."""
    tile, window = one.cut[number], one.window
    lines = flat((Group(tile.elements, move=(window.x, window.y)),))
    joined = flat((Group(joints(tile, one.cut), move=(window.x, window.y)),))
    shift = (window.x - tile.window.x, window.y - tile.window.y)
    notes = tuple(note.shifted(*shift) for note in _by_tile(one.piece.notes, one.cut)[tile.name])
    said = tuple(Note((text,)) for text in joined if isinstance(text, Text))
    joined = tuple(line for line in joined if not isinstance(line, Text))
    words = worded((*said, *notes), joined, lines, _inner(tile, one.cut, window))
    room = _map_room(one.page, window.bottom)
    drawn = (*lines, *joined, *words, *_rules(one.page))
    if len(one.cut) == 1:
        return replace(one.page, elements=(*drawn, *_unjoined(room)))
    pages = page_map(tile, one.cut, one.piece.bare, room)
    place = f"{tile.name}, {number + 1} of {len(one.cut)}"
    return replace(one.page, elements=(*drawn, *pages), page=place)


def _rules(page: Leaf) -> tuple[Element, ...]:
    """Return the rules by which every page is checked, both ways, along its frame."""
    box = frame_box(page.size)
    middle = RULE_MM / 2
    return (
        *check_rule((box.x + RULE_MM, box.y + middle), "across"),
        *check_rule((box.x + middle, box.y + RULE_MM), "down"),
    )


def _inner(tile: Tile, cut: tuple[Tile, ...], window: Box) -> Box:
    """Return the part of a tile's window that stays when its joints are cut, and a little less."""
    names = {(one.row, one.column) for one in cut}
    pad = OVERLAP_MM / 2 + 1.0
    left, right, above, below = (
        pad if (tile.row + row, tile.column + column) in names else 1.0
        for row, column in ((0, -1), (0, 1), (-1, 0), (1, 0))
    )
    return Box(
        window.x + left,
        window.y + above,
        window.width - left - right,
        window.height - above - below,
    )


def _by_tile(notes: tuple[Note, ...], cut: tuple[Tile, ...]) -> dict[str, tuple[Note, ...]]:
    """Return the notes of each tile: each stands once, on the page that its middle is nearest to."""
    found: dict[str, list[Note]] = {tile.name: [] for tile in cut}
    for one in notes:
        left, top, right, bottom = one.area
        x, y = (left + right) / 2, (top + bottom) / 2

        def far(tile: Tile, x: float = x, y: float = y) -> float:
            box, inset = tile.window, OVERLAP_MM / 2
            dx = max(box.x + inset - x, x - box.right + inset, 0.0)
            dy = max(box.y + inset - y, y - box.bottom + inset, 0.0)
            return dx * dx + dy * dy

        found[min(cut, key=far).name].append(one)
    return {name: tuple(some) for name, some in found.items()}


def worded(
    notes: tuple[Note, ...], joined: tuple[Element, ...], lines: tuple[Element, ...], box: Box
) -> tuple[Element, ...]:
    """Return notes settled on a page, with a line to what a note speaks of if it had to move.

    Parameters
    ----------
    notes : tuple of Note
        The most needful first.
    joined : tuple of Element
        Joint lines with their crosses.
    lines : tuple of Element
        What is drawn, hatches as lines.
    box : Box
        Where the words have to be [mm].
    """
    kept, broken, rest = (strokes(some) for some in _sorted((*lines, *joined)))
    done = settled(notes, (), np.concatenate([kept, broken, rest]), box)
    drawn: list[Element] = [*ground(done, broken, kept)]
    for one in done:
        drawn += one.texts
        drawn += leader(one, box)
    return tuple(drawn)


def _sorted(lines: tuple[Element, ...]) -> tuple[list[Element], list[Element], list[Element]]:
    """Return lines that no word breaks, lines that a word may break, and the rest."""
    kept, broken, rest = list[Element](), list[Element](), list[Element]()
    for one in lines:
        pen = one.pen if isinstance(one, Line) and one.layer != "joint" else None
        (kept if pen in CUT_ALONG else broken if pen in BROKEN else rest).append(one)
    return kept, broken, rest


def leader(one: Note, box: Box) -> tuple[Element, ...]:
    """Return the line from a note to what it speaks of, none where they stand close together."""
    if one.near is None:
        return ()
    left, top, right, bottom = one.area
    x, y = one.near
    foot = (min(max(x, left), right), min(max(y, top), bottom))
    away = ((x - foot[0]) ** 2 + (y - foot[1]) ** 2) ** 0.5
    inside = box.x <= x <= box.right and box.y <= y <= box.bottom
    if away < LEADER_MM or not inside:
        return ()
    edge = (left - 0.8 if x < left else right + 0.8 if x > right else foot[0], foot[1])
    return (Line((one.near, edge), "thin", layer="leader"),)
