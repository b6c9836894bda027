"""Small pieces share a page, large ones are tiled; no note is lost and none stands twice."""

from trimwright.build import parse
from trimwright.drawing import Line, Text
from trimwright.papers.note import note
from trimwright.papers.one_to_one import Paper, leaves, window_box
from trimwright.papers.piece import Piece

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


def test_pieces_that_fit_side_by_side_share_a_page() -> None:
    made = leaves(tuple(piece(name, 80.0, 60.0) for name in "abcde"), paper())
    assert [leaf.part for leaf in made] == ["a, b, c, d", "e"]
    outlines = [
        one
        for one in made[0].elements
        if isinstance(one, Line) and one.layer == "saw" and len(one.points) == 4
    ]
    assert len({round(min(x for x, _ in one.points)) for one in outlines}) == 2  # two columns


def test_a_large_piece_between_small_ones_keeps_the_order() -> None:
    made = leaves(
        (piece("a", 80.0, 60.0), piece("b", 300.0, 60.0), piece("c", 80.0, 60.0)), paper()
    )
    assert [(leaf.part, leaf.page) for leaf in made] == [
        ("a", "1 of 1"),
        ("b", "A1, 1 of 2"),
        ("b", "A2, 2 of 2"),
        ("c", "1 of 1"),
    ]


def test_every_note_of_a_tiled_piece_stands_once() -> None:
    made = leaves((piece("b", 700.0, 420.0, notes=9),), paper())
    said = [t.words for leaf in made for t in leaf.elements if isinstance(t, Text)]
    assert sorted(word for word in said if word.startswith("b ")) == [f"b {k}" for k in range(9)]
    window = window_box("A4")
    for leaf in made:
        for text in leaf.elements:
            if isinstance(text, Text) and text.words.startswith("b "):
                assert window.x <= text.at[0] <= window.right
                assert window.y <= text.at[1] <= window.bottom
