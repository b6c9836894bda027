"""Where the words of a page stand, and which of them stand in each other's way."""

import math
from itertools import combinations

from msgspec import Struct

from trimwright.drawing.clip import cut_area, inside
from trimwright.drawing.element import Box, Point, Text
from trimwright.drawing.face import text_corners, text_width
from trimwright.drawing.flat import flat
from trimwright.drawing.sheet import Document, Page

TOUCH_MM = 0.1  # boxes that only touch do not overlap


class Extent(Struct, frozen=True):
    """Words and the corners of the box they are seen in [mm], from the top left of the words."""

    page: int
    text: Text
    corners: tuple[Point, ...]


class Overlap(Struct, frozen=True):
    """Words that run into other words, off the page, or out of the width they were given."""

    words: str
    into: str


def _extents(page: Page, number: int) -> tuple[Extent, ...]:
    return tuple(
        Extent(number, element, corners)
        for element in flat(page.drawing.elements)
        if isinstance(element, Text) and element.words.strip() and (corners := _seen(element))
    )


def _seen(text: Text) -> tuple[Point, ...]:
    corners = text_corners(text)
    return cut_area(corners, text.clip) if text.clip else corners


def text_extents(document: Document) -> tuple[Extent, ...]:
    """Return where every line of words of a document stands, page by page from 0."""
    return tuple(
        extent for number, page in enumerate(document.pages) for extent in _extents(page, number)
    )


def _apart(a: tuple[Point, ...], b: tuple[Point, ...]) -> bool:
    """Return whether a line along a side of either box parts the two [separating axis theorem]."""
    for box in (a, b):
        for p, q in zip(box, (*box[1:], box[0]), strict=True):
            length = math.hypot(q[0] - p[0], q[1] - p[1])
            if length == 0.0:
                continue
            way = ((p[1] - q[1]) / length, (q[0] - p[0]) / length)
            first = [x * way[0] + y * way[1] for x, y in a]
            second = [x * way[0] + y * way[1] for x, y in b]
            if min(max(first), max(second)) - max(min(first), min(second)) <= TOUCH_MM:
                return True
    return False


def overlaps(page: Page) -> tuple[Overlap, ...]:
    """Return every line of words that is in another's way, leaves the page or leaves its box.

    Examples
    --------
    >>> from trimwright.drawing.sheet import Drawing
    >>> words = (Text((5.0, 5.0), "one"), Text((6.0, 5.0), "two"))
    >>> overlaps(Page("A4", Drawing(210.0, 297.0, words)))
    (Overlap(words='one', into='two'),)
    """
    extents = _extents(page, 0)
    paper = Box(0.0, 0.0, page.width_mm, page.height_mm).corners
    found = []
    for extent in extents:
        text = extent.text
        if not inside(extent.corners, paper):
            found.append(Overlap(text.words, "the edge of the page"))
        if text.box_mm is not None:
            width = text_width(text.words, text.size_mm, text.face)
            if width > text.box_mm + TOUCH_MM:
                found.append(Overlap(text.words, "the edge of its box"))
    bounds = [_bounds(extent.corners) for extent in extents]
    found += [
        Overlap(one.text.words, other.text.words)
        for (one, a), (other, b) in combinations(zip(extents, bounds, strict=True), 2)
        # a quick look at level bounds first: most words are far apart
        if a[0] < b[2]
        and b[0] < a[2]
        and a[1] < b[3]
        and b[1] < a[3]
        and not _apart(one.corners, other.corners)
    ]
    return tuple(found)


def _bounds(corners: tuple[Point, ...]) -> tuple[float, float, float, float]:
    xs, ys = zip(*corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
