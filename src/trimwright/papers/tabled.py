"""A paper of tables, each with a heading and words, over as many pages as they take."""

from msgspec import Struct

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
    head_height,
    row_height,
    shared_out,
    table,
    text_box,
)
from trimwright.papers.leaf import Leaf, room

GAP_MM = 4.0
BETWEEN_MM = 9.0  # from a table to the heading of the next


class Table(Struct, frozen=True):
    """One table: its heading, the words below that, columns with their share of the width, rows."""

    title: str
    words: str
    columns: tuple[tuple[Column, float], ...]
    rows: tuple[Row, ...]


class Filling(Struct):
    """A page as it fills up: what is drawn on it, and the rectangle that is left."""

    drawn: list[Element]
    left: Box


def fitted(shares: tuple[tuple[Column, float], ...], width_mm: float) -> tuple[Column, ...]:
    """Return columns whose widths are shares of a width [mm]."""
    whole = sum(share for _, share in shares)
    return tuple(Column(c.title, width_mm * share / whole, c.kind) for c, share in shares)


def heading(size: Size, build: Build, title: str, words: str) -> tuple[tuple[Element, ...], Box]:
    """Return a page's heading with its words, and the rectangle left below them."""
    return headed(room(size, build), title, words)


def headed(box: Box, title: str, words: str) -> tuple[tuple[Element, ...], Box]:
    """Return a heading with its words at the top of a rectangle, and what is left below them."""
    drawn: list[Element] = [Text((box.x, box.y + NAME_MM), title, NAME_MM, "say")]
    below, high = text_box((box.x, box.y + NAME_MM + 2.5), words, box.width, Setting(LEAD_MM))
    used = NAME_MM + 2.5 + (high if words else 0.0) + GAP_MM
    return (*drawn, *below), under(box, used)


def under(box: Box, used_mm: float) -> Box:
    """Return what is left of a rectangle of which so much is used from above [mm]."""
    return Box(box.x, box.y + used_mm, box.width, box.height - used_mm)


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
    made = flowed(size, build, (Table(title, words, columns, rows),))
    return numbered(size, (part, paper), made)


def numbered(size: Size, names: tuple[str, str], made: list[Filling]) -> tuple[Leaf, ...]:
    """Return filled pages as the leaves of a paper; `names` are its part and the paper."""
    part, paper = names
    return tuple(
        Leaf(size, tuple(one.drawn), part, paper, f"{number} of {len(made)}")
        for number, one in enumerate(made, start=1)
    )


def flowed(
    size: Size, build: Build, tables: tuple[Table, ...], begun: tuple[Filling, ...] = ()
) -> list[Filling]:
    """Return pages with tables one below the other.

    A table that one page holds is not parted: it stands below what is there, or begins a page. A
    longer one begins wherever there is room for its first row.

    Parameters
    ----------
    size, build
        As for `tabled`.
    tables : tuple of Table
        In order; those without rows are left out.
    begun : tuple of Filling
        Pages that come before, the last of them to go on with.
    """
    made, page = list(begun), room(size, build)
    for one in tables:
        columns = fitted(one.columns, page.width)
        if one.rows and not (made and _begins(one, columns, made[-1].left, page)):
            made.append(Filling([], page))
        if one.rows:
            made += _filled(one, columns, made.pop(), page)
    return made


def _begins(one: Table, columns: tuple[Column, ...], left: Box, page: Box) -> bool:
    """Return whether a table may begin in what is left of a page."""
    _, place = headed(left, one.title, one.words)
    _, own = headed(page, one.title, one.words)
    whole = head_height(columns) + sum(row_height(columns, row) for row in one.rows)
    if whole <= own.height:
        return whole <= place.height
    return bool(shared_out(columns, one.rows, place.height, own.height)[0])


def _filled(one: Table, columns: tuple[Column, ...], page: Filling, whole: Box) -> list[Filling]:
    """Return a page with a table begun on it, and those that it takes more."""
    head, place = headed(page.left, one.title, one.words)
    later, rest = headed(whole, f"{one.title}, continued", "")
    made: list[Filling] = []
    for some in shared_out(columns, one.rows, place.height, rest.height):
        before = [*later] if made else [*page.drawn, *head]
        at = rest if made else place
        drawn, high = table((at.x, at.y), columns, some)
        made.append(Filling([*before, *drawn], under(at, high + BETWEEN_MM)))
    return made
