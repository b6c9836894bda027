"""Joints and the map of pages: what a hand needs to lay pages together."""

import pytest

from trimwright.drawing import (
    Box,
    Circle,
    Document,
    Drawing,
    Fill,
    Line,
    Page,
    Text,
    Tile,
    joints,
    overlaps,
    page_map,
    text_extents,
    tiles,
)

CORNERS = ((5.0, 5.0), (350.0, 5.0), (350.0, 285.0), (5.0, 285.0))
WHOLE = Drawing(360.0, 290.0, (Line(CORNERS, "saw", closed=True),))
PAGES = tiles(WHOLE, (186.0, 150.0))


def crosses(tile: Tile) -> set[tuple[float, float]]:
    """Return where a page's crosses stand in the drawing."""
    drawn = joints(tile, PAGES)
    middles = [element.centre for element in drawn if isinstance(element, Circle)]
    return {(round(x + tile.window.x, 6), round(y + tile.window.y, 6)) for x, y in middles}


def test_crosses_of_two_pages_stand_at_the_same_places() -> None:
    a1, a2, b1, b2 = PAGES
    # 186 wide less half the overlap of 10: the joint lies at 181; 150 less 5: at 145
    assert {x for x, _ in crosses(a1) & crosses(a2)} == {181.0}
    assert {y for _, y in crosses(a1) & crosses(b1)} == {145.0}
    for one, other in ((a1, a2), (a1, b1), (a2, b2), (b1, b2)):
        assert len(crosses(one) & crosses(other)) >= 2


def test_page_says_what_it_lies_over_and_what_lies_over_it() -> None:
    words = [element.words for element in joints(PAGES[1], PAGES) if isinstance(element, Text)]
    assert words == ["cut here, lay over page A1", "page B2 comes over this, to the line"]


def test_page_alone_has_no_joint() -> None:
    small = tiles(Drawing(100.0, 100.0, (Line(((1.0, 1.0), (9.0, 9.0))),)), (186.0, 150.0))
    assert joints(small[0], small) == ()


def test_words_of_joints_keep_clear_of_each_other() -> None:
    for tile in PAGES:
        page = Page((200.0, 160.0), Drawing(200.0, 160.0, joints(tile, PAGES)))
        assert overlaps(page) == ()


def test_map_names_every_page_and_hatches_this_one() -> None:
    drawn = page_map(PAGES[3], PAGES, WHOLE, Box(120.0, 180.0, 74.0, 60.0))
    assert [element.words for element in drawn if isinstance(element, Text)] == [
        "A1",
        "A2",
        "B1",
        "B2",
    ]
    (here,) = [one for one in drawn if isinstance(one, Fill) and one.hatch]
    # the drawing's windows reach 362 by 290: 74 mm for 362; B2 is its own from the joints on
    scale = 74.0 / 362.0
    assert here.points[0] == pytest.approx((120.0 + 181.0 * scale, 180.0 + 145.0 * scale))
    assert here.points[2] == pytest.approx((120.0 + 362.0 * scale, 180.0 + 290.0 * scale))


def test_extents_tell_page_and_place_of_words() -> None:
    pages = tuple(
        Page("A4", Drawing(210.0, 297.0, (Text((20.0, 50.0), words, 10.0),)))
        for words in ("a", "b")
    )
    found = text_extents(Document(pages))
    assert [(extent.page, extent.text.words) for extent in found] == [(0, "a"), (1, "b")]
    assert found[0].corners[0] == pytest.approx((20.0, 50.0 - 7.6))


@pytest.mark.parametrize(
    ("mark", "names"),
    [
        (((178.0, 20.0), (185.0, 20.0)), ["A1"]),  # in the overlap: the page before shows it
        (((188.0, 20.0), (193.0, 20.0)), ["A2"]),  # just past it
        (((20.0, 151.0), (20.0, 155.0)), ["B1"]),
    ],
)
def test_mark_is_on_the_page_that_alone_can_show_it(
    mark: tuple[tuple[float, float], tuple[float, float]], names: list[str]
) -> None:
    found = tiles(Drawing(360.0, 290.0, (Line(mark, "saw"),)), (186.0, 150.0))
    assert [tile.name for tile in found] == names
