"""What helps a hand join pages: joint lines with crosses, and the map of all pages."""

import math

from trimwright.drawing.element import Box, Element, Fill, Group, Line, Path, Point, Text
from trimwright.drawing.face import text_corners, text_width
from trimwright.drawing.flat import flat
from trimwright.drawing.mark import registration_mark
from trimwright.drawing.pen import PenName
from trimwright.drawing.sheet import Drawing
from trimwright.drawing.tiling import OVERLAP_MM, Tile
from trimwright.drawing.type_size import LABEL_MM

CROSS_EVERY_MM = 90.0
CROSS_INSET_MM = 15.0
NAME_INSET_MM = 1.2
OUTLINES: tuple[PenName, ...] = ("saw", "cut", "centre")  # folds are chain lines


def _places(length_mm: float) -> list[float]:
    """Return where crosses stand along a joint [mm]: near both ends and evenly between."""
    room = length_mm - 2 * CROSS_INSET_MM
    if room <= 0:
        return [length_mm / 2]
    count = max(1, math.ceil(room / CROSS_EVERY_MM))
    return [CROSS_INSET_MM + room * index / count for index in range(count + 1)]


def _joint(ends: tuple[Point, Point], words: str, side: float) -> list[Element]:
    """Return a joint: level or upright; its words above or left of it if `side` is -1."""
    (x, y), (x2, y2) = ends
    upright = x == x2
    places = _places((y2 - y) if upright else (x2 - x))
    drawn: list[Element] = [Line(ends, "other-body", layer="joint")]
    for place in places:
        drawn.extend(registration_mark((x, y + place) if upright else (x + place, y)))
    middle = sum(places[:2]) / len(places[:2])
    shift = -1.2 if side < 0 else 1.2 + 0.7 * LABEL_MM
    at = (x + shift, y + middle) if upright else (x + middle, y + shift)
    turn = -90.0 if upright else 0.0
    drawn.append(Text(at, words, LABEL_MM, anchor="middle", turn_deg=turn))
    return drawn


def joints(
    tile: Tile, others: tuple[Tile, ...], overlap_mm: float = OVERLAP_MM
) -> tuple[Element, ...]:
    """Return the joint lines of a page, each with crosses and the page it joins.

    A joint runs down the middle of the overlap, so both pages have it and its crosses at the same
    place of the drawing. Coordinates are those of the tile's window.

    Parameters
    ----------
    tile : Tile
        The page.
    others : tuple of Tile
        All pages of the drawing.
    """
    width, height = tile.window.width, tile.window.height
    names = {(other.row, other.column): other.name for other in others}
    inset = overlap_mm / 2
    drawn: list[Element] = []
    for shift, inward, side in ((-1, inset, -1.0), (1, width - inset, 1.0)):
        if name := names.get((tile.row, tile.column + shift)):
            words = _words(name, lays_over=side < 0)
            drawn.extend(_joint(((inward, 0.0), (inward, height)), words, -side))
    for shift, inward, side in ((-1, inset, -1.0), (1, height - inset, 1.0)):
        if name := names.get((tile.row + shift, tile.column)):
            words = _words(name, lays_over=side < 0)
            drawn.extend(_joint(((0.0, inward), (width, inward)), words, -side))
    return tuple(drawn)


def _words(name: str, *, lays_over: bool) -> str:
    if lays_over:
        return f"cut here, lay over page {name}"
    return f"page {name} comes over this, to the line"


def _cell(window: Box, end: Point, inset_mm: float) -> Box:
    """Return a page's own part of the drawing, from joint to joint [mm]."""
    left = window.x + (inset_mm if window.x > 0 else 0.0)
    top = window.y + (inset_mm if window.y > 0 else 0.0)
    right = window.right - (inset_mm if window.right < end[0] else 0.0)
    bottom = window.bottom - (inset_mm if window.bottom < end[1] else 0.0)
    return Box(left, top, right - left, bottom - top)


def page_map(
    tile: Tile | None,
    others: tuple[Tile, ...],
    whole: Drawing,
    frame: Box,
    overlap_mm: float = OVERLAP_MM,
) -> tuple[Element, ...]:
    """Return a small map of the pages, one of them marked; pages left out stay out of it.

    A page has its name where that fits in it.

    Parameters
    ----------
    tile : Tile or None
        The page to mark.
    others : tuple of Tile
        All pages.
    whole : Drawing
        The drawing they were cut from; its outlines are shown.
    frame : Box
        Where the map goes [mm]; it is drawn as large as fits, from the top left.
    """
    right = max(other.window.right for other in others)
    bottom = max(other.window.bottom for other in others)
    scale = min(frame.width / right, frame.height / bottom)
    # areas have no outline, and their hatches would only be left out again
    outlined = tuple(one for one in whole.elements if not isinstance(one, Fill))
    lines = tuple(
        Line(shape.points, "saw", shape.closed)
        if isinstance(shape, Line)
        else Path(shape.start, shape.steps, "saw", shape.closed)
        for shape in flat(outlined)
        if isinstance(shape, Line | Path) and shape.pen in OUTLINES
    )
    drawn: list[Element] = [Group(lines, move=(frame.x, frame.y), scale=scale)]
    for other in others:
        cell = _cell(other.window, (right, bottom), overlap_mm / 2)
        x, y = frame.x + cell.x * scale, frame.y + cell.y * scale
        cell = Box(x, y, cell.width * scale, cell.height * scale)
        if tile is not None and other.name == tile.name:
            drawn.append(Fill(cell.corners, hatch="waste"))
            drawn.append(Line(cell.corners, "visible", closed=True))
        drawn.append(Line(cell.corners, "thin", closed=True))
        words = Text((x + NAME_INSET_MM, y + 3.4), other.name, LABEL_MM)
        # a page too small on the map goes without its name, which would run into the next
        if (
            text_width(other.name, LABEL_MM) + NAME_INSET_MM <= cell.width
            and cell.height >= LABEL_MM
        ):
            drawn += [Fill(text_corners(words), tone="paper"), words]
    return tuple(drawn)
