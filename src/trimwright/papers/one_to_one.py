"""Pieces 1:1 on paper: tiled where they are larger than a page, several to a page where they fit."""

from dataclasses import dataclass, replace

from trimwright.build import Build
from trimwright.drawing import (
    OVERLAP_MM,
    Box,
    Drawing,
    Element,
    Group,
    Line,
    Setting,
    Size,
    Text,
    Tile,
    check_squares,
    flat,
    frame_box,
    joints,
    page_map,
    text_box,
    tiles,
)
from trimwright.papers.key import key
from trimwright.papers.leaf import Leaf, title_area
from trimwright.papers.note import Note, areas_of, settled, strokes
from trimwright.papers.piece import Piece

INSET_MM, GAP_MM = 4.0, 6.0  # from the frame; between what stands on a page
SQUARE_MM = 101.6  # the larger check square
MAP_MM = 8.0  # least height of a page map, under a title of many lines
LEADER_MM = 7.0  # a note farther than this from what it speaks of gets a line to it


@dataclass(frozen=True, slots=True)
class Paper:
    """What pages 1:1 are filed as: kind of paper, its size, the build, what to do with a page."""

    kind: str
    size: Size
    build: Build
    says: str


def leaves(pieces: tuple[Piece, ...], paper: Paper) -> tuple[Leaf, ...]:
    """Return the pages of pieces drawn 1:1.

    A piece larger than the window of a page is cut into tiles that lie over each other; smaller
    ones share a page, in their order, as long as the next one fits.
    """
    window = window_box(paper.size)
    made: list[Leaf] = []
    shared: list[tuple[Piece, Box]] = []
    for piece in pieces:
        if piece.width_mm > window.width or piece.height_mm > window.height:
            made += _shared(shared, paper)
            shared = []
            made += _tiled(piece, paper)
            continue
        place = _next_place(shared, piece, window)
        if place is None:
            made += _shared(shared, paper)
            shared = []
            place = Box(window.x, window.y, piece.width_mm, piece.height_mm)
        shared.append((piece, place))
    return (*made, *_shared(shared, paper))


def window_box(size: Size) -> Box:
    """Return the rectangle of a page through which a piece is seen [mm].

    Examples
    --------
    >>> window_box("A4").width
    186.0
    """
    box = frame_box(size)
    square_top = box.bottom - INSET_MM - SQUARE_MM
    x, y = box.x + INSET_MM, box.y + INSET_MM
    return Box(x, y, box.width - 2 * INSET_MM, square_top - GAP_MM - y)


def _next_place(shared: list[tuple[Piece, Box]], piece: Piece, window: Box) -> Box | None:
    """Return where a piece goes beside or below those on a page already, None if it does not fit."""
    if not shared:
        return Box(window.x, window.y, piece.width_mm, piece.height_mm)
    row = [box for _, box in shared if box.y == shared[-1][1].y]
    right, bottom = row[-1].right + GAP_MM, max(box.bottom for box in row) + GAP_MM
    low = max(row[0].y + piece.height_mm, *(box.bottom for box in row))
    if right + piece.width_mm <= window.right and low <= window.bottom:
        return Box(right, row[0].y, piece.width_mm, piece.height_mm)
    if bottom + piece.height_mm <= window.bottom:
        return Box(window.x, bottom, piece.width_mm, piece.height_mm)
    return None


def _shared(shared: list[tuple[Piece, Box]], paper: Paper) -> list[Leaf]:
    """Return one page with whole pieces on it, none for no pieces."""
    if not shared:
        return []
    drawn: list[Element] = []
    layers: set[str] = set()
    for piece, box in shared:
        notes = tuple(one.shifted(box.x, box.y) for one in piece.notes)
        lines = flat((Group(piece.lines, move=(box.x, box.y)),))
        drawn += [*lines, *_worded(notes, (), lines, box)]
        layers |= {line.layer for line in piece.lines}
    names = ", ".join(piece.part for piece, _ in shared)
    leaf = Leaf(paper.size, (), names, paper.kind, "1 of 1", "1:1")
    return [_below(leaf, tuple(drawn), frozenset(layers), paper, None)]


def _tiled(piece: Piece, paper: Paper) -> list[Leaf]:
    """Return the pages of one piece."""
    window = window_box(paper.size)
    cut = tiles(piece.bare, (window.width, window.height))
    noted = _by_tile(piece.notes, cut)
    made = []
    for number, tile in enumerate(cut, start=1):
        lines = flat((Group(tile.elements, move=(window.x, window.y)),))
        joined = flat((Group(joints(tile, cut), move=(window.x, window.y)),))
        shift = (window.x - tile.window.x, window.y - tile.window.y)
        notes = tuple(one.shifted(*shift) for one in noted[tile.name])
        words = _worded(notes, tuple(joined), tuple(lines), _inner(tile, cut, window))
        layers = frozenset(line.layer for line in (*lines, *joined))
        place = f"{tile.name}, {number} of {len(cut)}"
        leaf = Leaf(paper.size, (), piece.part, paper.kind, place, "1:1")
        made.append(_below(leaf, (*lines, *joined, *words), layers, paper, (tile, cut, piece.bare)))
    return made


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


def _worded(
    notes: tuple[Note, ...], joined: tuple[Element, ...], lines: tuple[Element, ...], box: Box
) -> tuple[Element, ...]:
    """Return notes settled on a page, with a line to what a note speaks of if it had to move."""
    done = settled(notes, areas_of(joined), strokes((*lines, *joined)), box)
    drawn: list[Element] = []
    for one in done:
        drawn += one.texts
        drawn += leader(one, box)
    return tuple(drawn)


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


def _below(
    leaf: Leaf,
    drawn: tuple[Element, ...],
    layers: frozenset[str],
    paper: Paper,
    tiled: tuple[Tile, tuple[Tile, ...], Drawing] | None,
) -> Leaf:
    """Return a page with what stands below its window: check squares, key, map or names."""
    box = frame_box(paper.size)
    at = (box.x + INSET_MM, box.bottom - INSET_MM - SQUARE_MM)
    right = Box(
        at[0] + SQUARE_MM + 3.0, at[1], box.right - at[0] - SQUARE_MM - INSET_MM - 3.0, SQUARE_MM
    )
    title = title_area(leaf, paper.build)
    more: list[Element] = [*check_squares(at), *_check_words(at, layers)]
    y = right.y
    if tiled is not None:
        tile, cut, whole = tiled
        more.append(Text((right.x, y + 2.4), "where this page sits", 2.9, "count-bold"))
        room = Box(right.x, y + 4.5, right.width, max(title.y - y - 24.5, MAP_MM))
        pages = page_map(tile, cut, whole, room)
        more += pages
        y = max(_foot(pages), y) + 1.5
    words, _ = text_box((right.x, y), paper.says, right.width, Setting(2.6))
    return replace(leaf, elements=(*drawn, *more, *words))


def _foot(elements: tuple[Element, ...]) -> float:
    """Return how far down level boxes reach [mm]."""
    return max(p[1] for one in elements if isinstance(one, Line) for p in one.points)


def _check_words(at: tuple[float, float], layers: frozenset[str]) -> list[Element]:
    """Return what stands in the check squares: how to check, and the key."""
    x, y = at[0] + 9.0, at[1]
    drawn: list[Element] = [Text((x, y + 14.0), "Check before you cut", 5.0, "say")]
    words = (
        "Inner square: 100 mm. Outer square: 4 in.\n"
        "Off by more than 0.5 mm (1/64 in)?\n"
        "Print again at full size, not fitted to the page."
    )
    said, high = text_box((x, y + 18.0), words, 86.0, Setting(3.2))
    marks, _ = key((x, y + 18.0 + high + 4.0), layers, 88.0)
    return [*drawn, *said, *marks]
