"""Small pieces share a page, large ones are tiled; no note is lost and none stands twice."""

import math
from itertools import pairwise
from typing import TypeGuard

import pytest
from msgspec.structs import replace

from trimwright.build import parse
from trimwright.drawing import Element, Fill, Line, Size, Text
from trimwright.papers.leaf import Leaf
from trimwright.papers.note import note
from trimwright.papers.one_to_one import leaves, tiled
from trimwright.papers.piece import Piece
from trimwright.papers.shared_page import Paper

BUILD = parse(
    "build: Wrenfold Teal, 1970\nunit: mm\n"
    + """car:
  datum: {marks: two scribed lines, top of tunnel here: bare metal}
  tunnel: [{at: 50 behind, top: 200 above floor, down 10: {left: 50, right: 54},
    down 150: {left: 130, right: 131}}]
"""
).build


def piece(name: str, wide: float, high: float, notes: int = 1) -> Piece:
    """Return a rectangle with notes spread along it."""
    ring = ((2.0, 2.0), (wide - 2.0, 2.0), (wide - 2.0, high - 2.0), (2.0, high - 2.0))
    said = tuple(
        note((wide * (k + 0.5) / notes - 8.0, high / 2), f"{name} {k}", 30.0) for k in range(notes)
    )
    return Piece(name, "", wide, high, (Line(ring, "saw", closed=True, layer="saw"),), said)


def paper() -> Paper:
    return Paper("template", "A4", BUILD, "Cut it out.")


def outlines(leaf: Leaf) -> list[Line]:
    """Return the rectangles on a page."""
    return [
        one
        for one in leaf.elements
        if isinstance(one, Line) and one.layer == "saw" and len(one.points) == 4
    ]


def test_pieces_that_fit_side_by_side_share_a_page() -> None:
    first, *made = leaves(tuple(piece(name, 80.0, 60.0) for name in "abcdefghi"), paper())
    assert (first.page, first.part) == ("first", "check, key, maps of 2 pages 1:1")
    assert [leaf.part for leaf in made] == ["a, b, c, d, e, f, g, h", "i"]
    lefts = {round(min(x for x, _ in one.points)) for one in outlines(made[0])}
    assert len(lefts) == 2  # two columns


def test_a_small_piece_goes_on_the_first_page_with_room() -> None:
    made = leaves(
        (piece("a", 80.0, 60.0), piece("b", 300.0, 60.0), piece("c", 80.0, 60.0)), paper()
    )
    assert [(leaf.part, leaf.page) for leaf in made[1:]] == [
        ("a, c", "1 of 1"),
        ("b", "A1, 1 of 2"),
        ("b", "A2, 2 of 2"),
    ]


@pytest.mark.parametrize(
    ("wide", "high", "size"),
    [
        (180.0, 250.0, "A4"),  # whole, upright
        (260.0, 160.0, (297.0, 210.0)),  # whole, lying
        (180.0, 500.0, "A4"),  # two upright or 1 x 3 lying
        (520.0, 160.0, (297.0, 210.0)),  # two lying or three upright
    ],
)
def test_pages_lie_the_way_that_takes_fewer(wide: float, high: float, size: Size) -> None:
    made = leaves((piece("a", wide, high),), paper())[1:]
    assert {leaf.size for leaf in made} == {size}
    assert len(made) == (1 if wide * high < 46000 else 2)


def test_a_turned_piece_keeps_its_shape_and_its_words_beside_it() -> None:
    one = piece("a", 100.0, 60.0)
    arrow = Fill(((80.0, 30.0), (90.0, 30.0), (80.0, 40.0)), hatch="waste", layer="waste")
    spoken = note((70.0, 20.0), "here", 30.0, near=(80.0, 25.0))
    turned = replace(one, lines=(*one.lines, arrow), notes=(spoken,)).turned
    assert (turned.width_mm, turned.height_mm) == (60.0, 100.0)
    outline, area = turned.lines
    assert isinstance(outline, Line)
    assert isinstance(area, Fill)
    # a quarter turn clockwise: right becomes down, down becomes left
    assert outline.points == ((58.0, 2.0), (58.0, 98.0), (2.0, 98.0), (2.0, 2.0))
    assert area.points == ((30.0, 80.0), (30.0, 90.0), (20.0, 80.0))
    (said,) = turned.notes
    (words,) = said.texts
    assert said.near == (35.0, 80.0)
    assert words.turn_deg == 90.0
    left, top, right, bottom = said.area
    was = spoken.area
    assert (left, top, right, bottom) == pytest.approx((60 - was[3], was[0], 60 - was[1], was[2]))


def test_a_long_narrow_piece_lies_along_a_page() -> None:
    (page,) = leaves((piece("a", 100.0, 268.0),), paper())[1:]
    assert page.size == (297.0, 210.0)
    (ring,) = outlines(page)
    assert {round(abs(p[0] - q[0])) for p, q in pairwise(ring.points)} == {0, 264}


def test_every_page_can_be_checked_and_finds_its_place() -> None:
    first, *made = leaves((piece("b", 700.0, 420.0),), paper())
    sides = [math.dist(*one.points[:2]) for one in first.elements if is_check(one, 4)]
    assert sides[:2] == pytest.approx([100.0, 101.6])  # 4 in of 25.4 mm
    names = [leaf.page.split(",")[0] for leaf in made]
    for leaf in made:
        rules = [one.points for one in leaf.elements if is_check(one, 2)]
        long = [ends for ends in rules if math.dist(*ends) > 10.0]
        ways = [abs(p[0] - q[0]) > abs(p[1] - q[1]) for p, q in long]
        assert sorted(ways) == [False, True]  # one along, one down
        assert [math.dist(*ends) for ends in long] == pytest.approx([101.6, 101.6])
        across = next(ends for ends, level in zip(long, ways, strict=True) if level)
        ticks = sorted(
            p[0] - across[0][0] for p, q in rules if p[0] == q[0] and p[1] < across[0][1]
        )
        assert ticks == pytest.approx([0.0, 100.0, 101.6])
        said = [one.words for one in leaf.elements if isinstance(one, Text)]
        assert [name for name in said if name in names] == names  # its map


def is_check(one: Element, corners: int) -> TypeGuard[Line]:
    """Return whether an element is a line of a check square or rule with so many corners."""
    return isinstance(one, Line) and one.layer == "check" and len(one.points) == corners


def test_pages_that_show_nothing_are_left_out() -> None:
    bent = ((2.0, 2.0), (2.0, 480.0), (500.0, 480.0))
    made = leaves((Piece("b", "", 502.0, 482.0, (Line(bent, "saw", layer="saw"),), ()),), paper())
    assert [leaf.page for leaf in made[1:]] == [
        "A1, 1 of 4",
        "B1, 2 of 4",
        "B2, 3 of 4",
        "B3, 4 of 4",
    ]


def test_every_note_of_a_tiled_piece_stands_once() -> None:
    large = piece("b", 700.0, 420.0, notes=9)
    made = leaves((large,), paper())[1:]
    said = [t.words for leaf in made for t in leaf.elements if isinstance(t, Text)]
    assert sorted(word for word in said if word.startswith("b ")) == [f"b {k}" for k in range(9)]
    window = tiled(large, paper()).window
    for leaf in made:
        for text in leaf.elements:
            if isinstance(text, Text) and text.words.startswith("b "):
                assert window.x <= text.at[0] <= window.right
                assert window.y <= text.at[1] <= window.bottom
