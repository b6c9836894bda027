"""A loom over its hinge on paper: as long as it is, from hole to hole, closed and open."""

from itertools import pairwise
from math import dist

import pytest

from tests.unit.wiring.test_crossing import hinged
from trimwright.drawing import Circle, Line, Text
from trimwright.papers.wiring import hinge_figure
from trimwright.wiring import Crossing, crossings, wiring_outcome


def _crossing(more: str) -> Crossing:
    (one,) = crossings(wiring_outcome(hinged(more), "mm"))
    return one


def test_closed_and_open_it_is_drawn_at_one_length() -> None:
    drawn, _ = hinge_figure.picture(_crossing(", free: 100 mm"))
    looms = [part for part in drawn if isinstance(part, Line) and part.layer == "loom"]
    long = [sum(dist(a, b) for a, b in pairwise(one.points)) for one in looms]
    assert [one.pen for one in looms] == ["visible", "hidden"]
    assert long[0] == pytest.approx(long[1], rel=0.01)
    # 100 mm of loom and 50 mm from hole to hole closed, in proportion
    chord = dist(looms[0].points[0], looms[0].points[-1])
    assert long[0] / chord == pytest.approx(100.0 / 50.0, rel=0.01)


def test_holes_stand_at_the_ends_and_words_beside_them() -> None:
    drawn, (wide, high) = hinge_figure.picture(_crossing(", free: 100 mm"))
    holes = [part.centre for part in drawn if isinstance(part, Circle)]
    ends = [
        end
        for part in drawn
        if isinstance(part, Line) and part.layer == "loom"
        for end in (part.points[0], part.points[-1])
    ]
    assert holes == ends
    assert [part.words for part in drawn if isinstance(part, Text)] == ["closed", "open", "body"]
    for part in drawn:
        if isinstance(part, Line):
            assert all(-1e-6 <= x <= wide and -1e-6 <= y <= high for x, y in part.points)


def test_a_stretched_loom_is_drawn_straight_and_said_to_have_no_shape() -> None:
    one = _crossing(", free: 60 mm")
    drawn, _ = hinge_figure.picture(one)
    assert all(
        len(part.points) == 2 for part in drawn if isinstance(part, Line) and part.layer == "loom"
    )
    assert any("no shape" in line for line in hinge_figure.told(one, "mm"))
