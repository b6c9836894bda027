"""Boards of trees made by chance: every trunk at its length, no two on each other."""

from itertools import combinations
from math import dist

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString

from trimwright.wiring.board_layout import Twig, outward, spots_of


@st.composite
def trees(draw: st.DrawFn) -> list[Twig]:
    """Return trunks of a tree: each new spot hangs on one before it."""
    count = draw(st.integers(1, 18))
    lengths = st.integers(20, 3000)
    return [Twig(n, draw(st.integers(0, n)), n + 1, float(draw(lengths))) for n in range(count)]


@settings(max_examples=60, deadline=None)
@given(trees())
def test_trunks_lie_at_their_lengths_and_clear_of_each_other(twigs: list[Twig]) -> None:
    order = outward(len(twigs) + 1, twigs)
    placed = spots_of(len(twigs) + 1, order)
    assert len(placed) == len(twigs) + 1
    assert sorted(one.trunk for one in order) == [one.trunk for one in twigs]
    lines = [(one, LineString([placed[one.start], placed[one.end]])) for one in order]
    for one, line in lines:
        assert abs(dist(placed[one.start], placed[one.end]) - one.long_mm) < 1e-3
        assert line.length > 0
    for (a, first), (b, second) in combinations(lines, 2):
        if {a.start, a.end} & {b.start, b.end}:
            assert first.intersection(second).length < 1e-6
        else:
            assert first.distance(second) > 0.0
