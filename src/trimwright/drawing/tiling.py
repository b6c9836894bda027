"""Cutting a drawing that is larger than the paper into pages that lie over each other."""

import math

from msgspec import Struct

from trimwright.drawing.element import Box, Element, Group
from trimwright.drawing.flat import flat, outline, seen
from trimwright.drawing.placement import Placed
from trimwright.drawing.sheet import Drawing

OVERLAP_MM = 10.0
ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


class Tile(Struct, frozen=True):
    """One window on a drawing: its name, place, rectangle in the drawing [mm], and neighbours.

    `elements` have their origin at the window's top left corner. `above` and `before` name the
    tiles this one is laid over, empty where there is none.
    """

    name: str
    row: int
    column: int
    window: Box
    elements: tuple[Element, ...]
    above: str = ""
    before: str = ""


def tile_name(row: int, column: int) -> str:
    """Return the name of a tile: rows are letters, columns figures from 1.

    Examples
    --------
    >>> tile_name(2, 4), tile_name(26, 0)
    ('C5', 'AA1')
    """
    letters = ""
    row += 1
    while row:
        row, index = divmod(row - 1, len(ALPHABET))
        letters = ALPHABET[index] + letters
    return f"{letters}{column + 1}"


def windows(
    drawing: Drawing, size_mm: tuple[float, float], overlap_mm: float = OVERLAP_MM
) -> tuple[tuple[Box, ...], ...]:
    """Return by row the rectangles [mm] that cover a drawing, each over the last by the overlap.

    Raises
    ------
    ValueError
        If the overlap is below 0 or leaves nothing of a window.

    Examples
    --------
    >>> [box.x for box in windows(Drawing(400.0, 90.0), (186.0, 150.0))[0]]
    [0.0, 176.0, 352.0]
    """
    if not 0 <= overlap_mm < min(size_mm) / 2:
        limit = min(size_mm) / 2
        raise ValueError(f"overlap_mm must be from 0 to below {limit:g}, got {overlap_mm:g}")
    step = (size_mm[0] - overlap_mm, size_mm[1] - overlap_mm)
    columns = max(1, math.ceil((drawing.width_mm - overlap_mm) / step[0] - 1e-9))
    rows = max(1, math.ceil((drawing.height_mm - overlap_mm) / step[1] - 1e-9))
    return tuple(
        tuple(Box(column * step[0], row * step[1], *size_mm) for column in range(columns))
        for row in range(rows)
    )


def _core(window: Box, overlap_mm: float) -> Box:
    """Return the part of a window that no window left of it or above it shows."""
    left = overlap_mm if window.x > 0 else 0.0
    top = overlap_mm if window.y > 0 else 0.0
    return Box(window.x + left, window.y + top, window.width - left, window.height - top)


def _bounds(element: Placed) -> tuple[float, float, float, float]:
    xs, ys = zip(*outline(element), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def tiles(
    drawing: Drawing, size_mm: tuple[float, float], overlap_mm: float = OVERLAP_MM
) -> tuple[Tile, ...]:
    """Return a drawing cut into windows, row by row; windows that would show nothing new are left out.

    Parameters
    ----------
    drawing : Drawing
        The whole, 1:1.
    size_mm : tuple of float
        Width and height of the window on each page [mm].
    overlap_mm : float, default 10.0
        How much a page shows again of the one before and the one above [mm].

    Raises
    ------
    ValueError
        If the overlap is below 0 or leaves nothing of a window.
    """
    shapes = [(shape, _bounds(shape)) for shape in flat(drawing.elements)]
    found: dict[tuple[int, int], tuple[Box, tuple[Element, ...]]] = {}
    for row, boxes in enumerate(windows(drawing, size_mm, overlap_mm)):
        for column, box in enumerate(boxes):
            # a quick look at bounds first: most lines are on few pages
            near = tuple(
                shape
                for shape, (x0, y0, x1, y1) in shapes
                if x0 <= box.right and x1 >= box.x and y0 <= box.bottom and y1 >= box.y
            )
            if seen((Group(near, clip=_core(box, overlap_mm)),)):
                cut = flat((Group(near, clip=box),))
                found[row, column] = (box, flat((Group(cut, move=(-box.x, -box.y)),)))
    return tuple(
        Tile(
            tile_name(row, column),
            row,
            column,
            box,
            elements,
            above=tile_name(row - 1, column) if (row - 1, column) in found else "",
            before=tile_name(row, column - 1) if (row, column - 1) in found else "",
        )
        for (row, column), (box, elements) in found.items()
    )


def reassembled(pages: tuple[Tile, ...]) -> tuple[Placed, ...]:
    """Return what the pages show, laid back where they were cut from; overlaps show twice."""
    groups = (Group(page.elements, move=(page.window.x, page.window.y)) for page in pages)
    return flat(tuple(groups))
