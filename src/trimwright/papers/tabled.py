"""A paper that is a heading, words and a table over as many pages as it takes."""

from trimwright.build import Build
from trimwright.drawing import (
    LEAD_MM,
    NAME_MM,
    Box,
    Column,
    Element,
    Row,
    Setting,
    Size,
    Text,
    shared_out,
    table,
    text_box,
)
from trimwright.papers.leaf import Leaf, room

GAP_MM = 4.0


def fitted(shares: tuple[tuple[Column, float], ...], width_mm: float) -> tuple[Column, ...]:
    """Return columns whose widths are shares of a width [mm]."""
    whole = sum(share for _, share in shares)
    return tuple(Column(c.title, width_mm * share / whole, c.kind) for c, share in shares)


def heading(size: Size, build: Build, title: str, words: str) -> tuple[tuple[Element, ...], Box]:
    """Return a page's heading with its words, and the rectangle left below them."""
    box = room(size, build)
    drawn: list[Element] = [Text((box.x, box.y + NAME_MM), title, NAME_MM, "say")]
    below, high = text_box((box.x, box.y + NAME_MM + 2.5), words, box.width, Setting(LEAD_MM))
    used = NAME_MM + 2.5 + (high if words else 0.0) + GAP_MM
    return (*drawn, *below), Box(box.x, box.y + used, box.width, box.height - used)


def tabled(
    size: Size,
    build: Build,
    names: tuple[str, str, str],
    words: str,
    columns: tuple[tuple[Column, float], ...],
    rows: tuple[Row, ...],
) -> tuple[Leaf, ...]:
    """Return the leaves of one table.

    Parameters
    ----------
    size : Size
        Paper.
    build : Build
        What is named on every page.
    names : tuple of str
        Heading, part and paper, for the page and its title block.
    words : str
        What stands between heading and table on the first page.
    columns : tuple of (Column, share)
        Columns with their share of the width.
    rows : tuple of Row
        In order.
    """
    title, part, paper = names
    first, box = heading(size, build, title, words)
    later, rest = heading(size, build, f"{title}, continued", "")
    set_columns = fitted(columns, box.width)
    shared = shared_out(set_columns, rows, box.height, rest.height)
    leaves = []
    for number, some in enumerate(shared, start=1):
        head, place = (first, box) if number == 1 else (later, rest)
        drawn, _ = table((place.x, place.y), set_columns, some)
        leaves.append(Leaf(size, (*head, *drawn), part, paper, f"{number} of {len(shared)}"))
    return tuple(leaves)
