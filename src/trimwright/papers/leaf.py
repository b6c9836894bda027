"""One page before it knows its number: what is drawn on it, and its title block."""

from dataclasses import dataclass
from typing import Literal

from trimwright.build import Build
from trimwright.drawing import (
    Box,
    Drawing,
    Element,
    Line,
    Page,
    Size,
    Title,
    frame,
    frame_box,
    size_mm,
    title_block,
    title_strip,
)

MARGIN_MM = 5.0  # from the frame to what is drawn
STRIP_LEFT_MM = 36.0  # of the frame's width left of a title strip, for the map of pages


@dataclass(frozen=True, slots=True)
class Leaf:
    """What is drawn on a page, and the words of its title block but for its number in the packet.

    `paper` is the paper's kind ('cut list'), `page` its place in that paper ('A2', '1 of 3').
    `zoned` is false where the drawing carries the zones that findings name: two grids would
    each call another place B4. A title in a `strip` leaves the page its height.
    """

    size: Size
    elements: tuple[Element, ...]
    part: str
    paper: str
    page: str = ""
    scale: str = "none"
    zoned: bool = True
    title: Literal["block", "strip"] = "block"


def room(size: Size, *, title_mm: float = 62.0) -> Box:
    """Return the rectangle inside the frame that a page's drawing has, above the title block.

    Examples
    --------
    >>> room("A4").width
    184.0
    """
    box = frame_box(size)
    return Box(
        box.x + MARGIN_MM,
        box.y + MARGIN_MM,
        box.width - 2 * MARGIN_MM,
        box.height - 2 * MARGIN_MM - title_mm,
    )


def beside_title(size: Size, *, title_mm: float = 62.0, title_wide_mm: float = 80.0) -> Box:
    """Return the rectangle to the left of the title block, for keys and notes."""
    box = frame_box(size)
    return Box(
        box.x + MARGIN_MM,
        box.bottom - title_mm,
        box.width - title_wide_mm - 2 * MARGIN_MM,
        title_mm - MARGIN_MM,
    )


def pages(leaves: tuple[Leaf, ...], build: Build) -> tuple[Page, ...]:
    """Return the leaves as numbered pages of the packet, each with frame and title block."""
    revision = build.console.revision if build.console else "A"
    return tuple(
        _page(leaf, build, f"{number} of {len(leaves)}", revision)
        for number, leaf in enumerate(leaves, start=1)
    )


def title_area(leaf: Leaf, build: Build) -> Box:
    """Return the rectangle that a page's title block will take [mm]."""
    title = _title(leaf, build, "888 of 888", build.console.revision if build.console else "A")
    return _titled(leaf, title)[1]


def _titled(leaf: Leaf, title: Title) -> tuple[tuple[Element, ...], Box]:
    """Return the title of a page in the form the page asks for, and the rectangle it takes."""
    box = frame_box(leaf.size)
    corner = (box.right, box.bottom)
    if leaf.title == "strip":
        return title_strip(title, corner, box.width - STRIP_LEFT_MM)
    return title_block(title, corner)


def _title(leaf: Leaf, build: Build, sheet: str, revision: str) -> Title:
    """Return the words of a page's title block."""
    return Title(
        part=leaf.part,
        build=build.name,
        paper=leaf.paper,
        page=leaf.page or "1 of 1",
        scale=leaf.scale,
        unit=build.unit,
        last_change=f"revision {revision}",
        sheet=sheet,
    )


def _page(leaf: Leaf, build: Build, sheet: str, revision: str) -> Page:
    """Return one page."""
    title = _title(leaf, build, sheet, revision)
    block, _ = _titled(leaf, title)
    width, height = size_mm(leaf.size)
    edge = (
        frame(leaf.size)
        if leaf.zoned
        else (Line(frame_box(leaf.size).corners, "frame", closed=True, layer="frame"),)
    )
    drawn = (*leaf.elements, *edge, *block)
    return Page(leaf.size, Drawing(width, height, drawn), f"{leaf.paper} {leaf.page}".strip())
