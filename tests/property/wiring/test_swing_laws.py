"""Laws of a loom over a hinge."""

from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trimwright.wiring.swing import Lead, Swing, lyings, tightest

SIDES = st.floats(20.0, 120.0)


@given(SIDES, SIDES, st.floats(0.05, 0.95), st.floats(10.0, 180.0), st.booleans())
@settings(max_examples=60, deadline=None)
def test_the_longest_and_the_closest_bound_the_whole_swing(
    body: float,
    door: float,
    share: float,
    opens: float,
    parting: bool,  # noqa: FBT001  drawn
) -> None:
    closed = abs(body - door) + share * (body + door - abs(body - door))
    swing = Swing(body, door, closed, opens, parting)
    far, near = swing.straight_mm(swing.longest_deg), swing.straight_mm(swing.closest_deg)
    for step in range(101):
        assert near - 1e-6 <= swing.straight_mm(opens * step / 100) <= far + 1e-6


@given(SIDES, SIDES, st.floats(0.2, 0.8), st.floats(20.0, 100.0), st.floats(0.5, 3.0))
@settings(max_examples=12, deadline=None)
def test_twice_as_large_bends_half_as_tight(
    body: float, door: float, share: float, opens: float, times: float
) -> None:
    closed = abs(body - door) + share * (body + door - abs(body - door))
    small = Swing(body, door, closed, opens, parting=True)
    large = Swing(body * times, door * times, closed * times, opens, parting=True)
    free = 1.4 * small.straight_mm(small.longest_deg)
    radius = tightest(lyings(small, Lead(30.0, 40.0), free)).radius_mm
    scaled = tightest(lyings(large, Lead(30.0, 40.0), free * times)).radius_mm
    assert scaled == pytest.approx(radius * times, rel=1e-4)


@given(SIDES, SIDES, st.floats(0.2, 0.8), st.floats(20.0, 100.0))
@settings(max_examples=12, deadline=None)
def test_swapped_holes_bend_the_loom_alike(
    body: float, door: float, share: float, opens: float
) -> None:
    closed = abs(body - door) + share * (body + door - abs(body - door))
    free = 1.5 * (body + door)
    one = tightest(lyings(Swing(body, door, closed, opens, parting=True), Lead(20.0, 50.0), free))
    other = tightest(lyings(Swing(door, body, closed, opens, parting=True), Lead(50.0, 20.0), free))
    assert one.radius_mm == pytest.approx(other.radius_mm, rel=1e-3)


@given(st.floats(1.05, 2.5))
@settings(max_examples=20, deadline=None)
def test_held_ends_bend_no_less_than_free_ones(times: float) -> None:
    swing = Swing(60.0, 85.0, 70.0, 68.0, parting=True)
    free = times * swing.straight_mm(68.0)
    loose = lyings(swing, Lead(), free)
    held = lyings(swing, Lead(90.0, 90.0), free)
    assert hypot(*loose[0].points_mm[0]) == pytest.approx(60.0)
    # of all shapes between two points the least energy has the one whose ends are free
    assert tightest(held).radius_mm <= tightest(loose).radius_mm * 1.001
