"""The harness board on paper: bands at true length over all pages, flags complete."""

from itertools import pairwise
from math import dist

import pytest

from tests.invented_loom import loom_cabin
from trimwright.build import parse
from trimwright.cabin import Cabin, cabin
from trimwright.drawing import Circle, Line, Size, Text, flat, overlaps
from trimwright.papers.leaf import Leaf, pages
from trimwright.papers.wiring import harness_board
from trimwright.papers.wiring.harness_board import band, device_words
from trimwright.wiring import End, WiringOutcome, boards


def _found(one: Cabin) -> WiringOutcome:
    assert one.wiring is not None
    return one.wiring


def words(some: tuple[Leaf, ...]) -> str:
    """Return all words of leaves."""
    return " ".join(
        one.words for leaf in some for one in flat(leaf.elements) if isinstance(one, Text)
    )


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_words_keep_apart(size: Size, unit: str) -> None:
    one = loom_cabin(unit)
    made = pages(harness_board.leaves(one, size), one.build)
    assert [found for page in made for found in overlaps(page)] == []


def test_a_band_is_drawn_two_millimetres_wide_at_true_length() -> None:
    for board in boards(_found(loom_cabin())):
        for branch in board.branches:
            (line,) = band(branch, lambda point: point)
            a, b, c, _ = line.points
            assert dist(a, b) == pytest.approx(branch.long_mm, abs=0.1)
            assert dist(b, c) == pytest.approx(2.0)


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_the_pages_together_show_every_band_whole(size: Size) -> None:
    one = loom_cabin()
    first, *made = harness_board.leaves(one, size)
    assert first.page == "first"
    shown = sum(
        dist(*ends)
        for leaf in made
        for line in leaf.elements
        if isinstance(line, Line) and line.layer == "band"
        for ends in pairwise((*line.points, line.points[0]) if line.closed else line.points)
    )
    whole = sum(branch.long_mm for board in boards(_found(one)) for branch in board.branches)
    # two sides of each band, and what lies in the overlaps twice
    assert shown >= 2 * whole - 1.0


def test_there_is_a_nail_at_every_place_and_every_300_mm() -> None:
    made = harness_board.leaves(loom_cabin(), "A4")
    nails = {
        (leaf.page, round(one.centre[0], 3), round(one.centre[1], 3))
        for leaf in made[1:]
        for one in leaf.elements
        if isinstance(one, Circle) and one.layer == "nail"
    }
    # 6 spots, and 3 + 1 + 1 + 2 + 2 along trunks of 1000, 600, 500, 700 and 900 mm
    assert len(nails) >= 6 + 3 + 1 + 1 + 2 + 2


def test_every_device_with_a_place_has_its_flag() -> None:
    one = loom_cabin()
    said = words(harness_board.leaves(one, "A4"))
    for wire in _found(one).loom.wires:
        if wire.route is not None:
            assert f"{wire.start.device}:" in said
            assert f"{wire.end.device}:" in said
    assert "Free end: in the car it meets door." in said
    assert "Not laid, as their way is not known: 2 wires" in said


def test_a_flag_tells_terminals_and_colours() -> None:
    found = _found(loom_cabin())
    ends = [
        (end, wire)
        for wire in found.loom.wires
        for end in (wire.start, wire.end)
        if end.device in ("fuse 2",)
    ]
    assert device_words("fuse 2", ends) == "fuse 2: out GYWH+GN (2 wires)"
    stud = [(End("stud", "stud", "dash"), wire) for wire in found.loom.wires[:1]]
    assert device_words("stud", stud) == "stud: RD"


def test_more_devices_than_a_page_has_room_for_are_left_to_the_wire_list() -> None:
    many = 240
    loads = "\n".join(
        f"    - {{name: lamp number {n} of the dash, at: dash, kind: lamp, takes: 5 W}}"
        for n in range(many)
    )
    paths = "\n".join(
        f"    - {{name: lamp {n}, goes: [box stud, lamp number {n} of the dash, dash stud], colour: RD}}"
        for n in range(many)
    )
    text = f"""build: Wrenfold Teal, many lamps
unit: mm
wiring:
  places: [{{name: box}}, {{name: dash}}]
  trunks: [{{from: box, to: dash, long: 700}}]
  grounds: [{{name: dash stud, at: dash}}, {{name: box stud, at: box}}]
  loads:
{loads}
  paths:
{paths}
"""
    said = words(harness_board.leaves(cabin(parse(text).build), "A4"))
    assert "What ends at each place is too much for here: see the wire list." in said
    assert "Dash: 720 ends" in said
