"""Tables below one another: short ones share a page, none is parted that a page would hold."""

import pytest

from trimwright.build import Build, parse
from trimwright.drawing import Column, Drawing, Page, Row, Text, flat, overlaps, size_mm
from trimwright.papers.tabled import BETWEEN_MM, Filling, Table, flowed

COLUMNS = ((Column("what", 60.0), 1), (Column("how", 60.0), 2))


def build() -> Build:
    return parse("build: Wrenfold Teal, 1970\nunit: mm\n").build


def table(title: str, count: int) -> Table:
    rows = tuple(Row((f"{title} {number}", "plain words")) for number in range(1, count + 1))
    return Table(title, "Words below the heading.", COLUMNS, rows)


def said(page: Filling) -> list[str]:
    return [one.words for one in flat(tuple(page.drawn)) if isinstance(one, Text)]


def most_rows() -> int:
    """Return how many rows one page holds below a heading."""
    count = 1
    while len(flowed("A4", build(), (table("long", count + 1),))) == 1:
        count += 1
    return count


def test_short_tables_share_a_page() -> None:
    made = flowed("A4", build(), (table("fuses", 3), table("relays", 2)))
    assert len(made) == 1
    assert {"fuses", "fuses 3", "relays", "relays 2"} <= {*said(made[0])}


def test_a_table_that_a_page_holds_is_not_parted() -> None:
    most = most_rows()
    made = flowed("A4", build(), (table("fuses", 3), table("relays", most)))
    assert [("relays 1" in said(one), f"relays {most}" in said(one)) for one in made] == [
        (False, False),
        (True, True),
    ]


def test_a_longer_one_begins_where_its_first_row_has_room() -> None:
    most = most_rows()
    first, *later = flowed("A4", build(), (table("fuses", 3), table("relays", 2 * most)))
    assert "relays 1" in said(first)
    assert all("relays, continued" in said(one) for one in later)
    told = [words for one in (first, *later) for words in said(one) if words.startswith("relays ")]
    assert told == [f"relays {number}" for number in range(1, 2 * most + 1)]


def test_no_heading_stands_alone_at_a_foot() -> None:
    most = most_rows()
    for count in range(1, most + 1):
        made = flowed("A4", build(), (table("fuses", count), table("relays", 2 * most)))
        for page in made:
            assert not any(words in ("fuses", "relays") for words in said(page)[-4:])


def test_a_table_without_rows_is_left_out() -> None:
    (page,) = flowed("A4", build(), (table("fuses", 0), table("relays", 1)))
    assert "fuses" not in said(page)
    assert flowed("A4", build(), (table("fuses", 0),)) == []


@pytest.mark.parametrize("count", [1, 7, 20])
def test_tables_keep_apart_and_inside_the_page(count: int) -> None:
    made = flowed("A4", build(), tuple(table(f"table {n}", count) for n in range(4)))
    for one in made:
        page = Page("A4", Drawing(*size_mm("A4"), tuple(one.drawn)), "page")
        assert list(overlaps(page)) == []
        assert one.left.height >= -BETWEEN_MM
