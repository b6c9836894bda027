"""A page before it has its place in the packet: drawing, title, frame."""

from msgspec import Struct
from msgspec.structs import replace

from trimwright.build import Build, Version
from trimwright.drawing import (
    Box,
    Drawing,
    Element,
    Page,
    Point,
    Size,
    Text,
    Title,
    frame,
    frame_box,
    size_mm,
    title_block,
)
from trimwright.papers.beside import last_change

MARGIN_MM = 5.0  # from the frame to what is drawn
TRUE_SIZE = "1:1"
MOST_SHEETS = "888 of 888"
CHECKS = {TRUE_SIZE: "100 mm and 4 in", "none": "none"}


class Leaf(Struct, frozen=True):
    """What is drawn on a page, and the words of its title block but for its number in the packet.

    `paper` is the paper's kind ('cut list'), `page` its place in that paper ('A2', '1 of 3').
    """

    size: Size
    elements: tuple[Element, ...]
    part: str
    paper: str
    page: str = "1 of 1"
    scale: str = "none"


def room(size: Size, build: Build) -> Box:
    """Return the rectangle inside the frame that a page's drawing has, above the title block.

    The names of the parts on it are taken to be short: those of a page 1:1 are not.
    """
    box = frame_box(size)
    title = title_area(Leaf(size, (), "", ""), build)
    return Box(
        box.x + MARGIN_MM,
        box.y + MARGIN_MM,
        box.width - 2 * MARGIN_MM,
        title.y - box.y - 2 * MARGIN_MM,
    )


def pages(leaves: tuple[Leaf, ...], build: Build, last: Version | None = None) -> tuple[Page, ...]:
    """Return the leaves as numbered pages of the packet, each with frame and title block.

    Parameters
    ----------
    leaves : tuple of Leaf
        In order.
    build : Build
        Names the build and its unit.
    last : Version, optional
        What was changed last, where a history was kept.
    """
    changed = last_change(build, last)
    return tuple(
        _page(leaf, _title(leaf, build, f"{number} of {len(leaves)}", changed))
        for number, leaf in enumerate(leaves, start=1)
    )


def unnumbered(leaf: Leaf, build: Build, last: Version | None) -> tuple[Page, Point]:
    """Return a page without its number among all sheets, and where that number stands."""
    whole = _page(leaf, _title(leaf, build, MOST_SHEETS, last_change(build, last)))
    number = next(
        one for one in whole.drawing.elements if isinstance(one, Text) and one.words == MOST_SHEETS
    )
    rest = tuple(one for one in whole.drawing.elements if one is not number)
    return replace(whole, drawing=replace(whole.drawing, elements=rest)), number.at


def title_area(leaf: Leaf, build: Build) -> Box:
    """Return the rectangle that a page's title block will take [mm], whatever was changed last."""
    box = frame_box(leaf.size)
    title = _title(leaf, build, MOST_SHEETS, last_change(build, None))
    return title_block(title, (box.right, box.bottom))[1]


def _title(leaf: Leaf, build: Build, sheet: str, changed: str) -> Title:
    """Return the words of a page's title block."""
    return Title(
        build=build.name,
        part=leaf.part,
        paper=leaf.paper,
        page=leaf.page,
        sheet=sheet,
        scale=leaf.scale,
        last_change=changed,
        unit=build.unit,
        check=CHECKS.get(leaf.scale, "print at 100 %"),
    )


def _page(leaf: Leaf, title: Title) -> Page:
    """Return one page."""
    box = frame_box(leaf.size)
    block, _ = title_block(title, (box.right, box.bottom))
    drawn = (*leaf.elements, frame(leaf.size), *block)
    return Page(leaf.size, Drawing(*size_mm(leaf.size), drawn), f"{leaf.paper} {leaf.page}")
