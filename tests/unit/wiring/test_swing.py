"""A loom over a hinge: distances, shapes and lengths."""

from itertools import pairwise
from math import hypot, inf, pi

import numpy as np
import pytest

from trimwright.wiring.swing import Lead, Swing, lyings, needed_mm, tightest
from trimwright.wiring.swing.over import openings

SQUARE = Swing(30.0, 40.0, 50.0, 90.0, parting=True)  # 3-4-5: closed at a right angle


def test_closed_the_holes_stand_as_they_were_measured() -> None:
    assert SQUARE.straight_mm(0.0) == pytest.approx(50.0)


def test_opened_by_a_quarter_the_holes_are_in_line_across_the_axis() -> None:
    assert SQUARE.straight_mm(90.0) == pytest.approx(70.0)


def test_the_longest_way_may_be_in_the_middle_of_the_swing() -> None:
    wide = Swing(30.0, 40.0, 50.0, 160.0, parting=True)
    assert wide.longest_deg == pytest.approx(90.0)
    assert wide.straight_mm(160.0) < wide.straight_mm(90.0) == pytest.approx(70.0)


def test_nearing_at_first_the_holes_pass_on_one_side_of_the_axis() -> None:
    nearing = Swing(30.0, 40.0, 50.0, 120.0, parting=False)
    assert nearing.closest_deg == pytest.approx(90.0)
    assert nearing.straight_mm(90.0) == pytest.approx(10.0)


def test_what_the_holes_are_apart_along_the_axis_stays() -> None:
    aside = Swing(30.0, 40.0, hypot(50.0, 24.0), 90.0, parting=True, along_mm=24.0)
    assert aside.flat_mm(0.0) == pytest.approx(50.0)
    assert aside.straight_mm(90.0) == pytest.approx(hypot(70.0, 24.0))


def test_sides_that_close_no_triangle_are_refused() -> None:
    with pytest.raises(ValueError, match=r"must close a triangle, got 90$"):
        _ = Swing(30.0, 40.0, 90.0, 90.0, parting=True).shut_rad


@pytest.mark.parametrize("lead", [Lead(), Lead(20.0, 35.0), Lead(60.0, None), Lead(None, 10.0)])
def test_the_loom_reaches_from_hole_to_hole_at_every_opening(lead: Lead) -> None:
    for one in lyings(SQUARE, lead, 110.0):
        body, door = SQUARE.holes(one.open_deg)
        assert one.points_mm[0] == pytest.approx(body, abs=1e-6)
        assert one.points_mm[-1] == pytest.approx(door, abs=1e-4)
        assert np.sum(np.hypot(*np.diff(one.points_mm, axis=0).T)) == pytest.approx(110.0, rel=1e-3)


def test_the_loom_leaves_its_holes_as_it_is_led() -> None:
    for one in lyings(SQUARE, Lead(90.0, 90.0), 110.0):
        turned = SQUARE.turned_rad(one.open_deg)
        first, last = np.diff(one.points_mm[:2], axis=0)[0], np.diff(one.points_mm[-2:], axis=0)[0]
        # square to the line from the axis, towards where the other hole is when closed
        assert np.arctan2(first[1], first[0]) == pytest.approx(pi / 2, abs=0.05)
        away = np.array([np.sin(turned), -np.cos(turned)])
        assert -last @ away / np.hypot(*last) == pytest.approx(1.0, abs=2e-3)


def test_the_whole_swing_is_looked_at_and_where_the_distance_turns() -> None:
    wide = Swing(30.0, 40.0, 50.0, 160.0, parting=True)
    seen = openings(wide)
    assert (seen[0], seen[-1]) == (0.0, 160.0)
    assert 90.0 in seen
    assert max(b - a for a, b in pairwise(seen)) <= 4.0


def test_a_loom_that_is_too_short_has_no_shape() -> None:
    with pytest.raises(ValueError, match=r"free_mm must be above 70, got 69$"):
        lyings(SQUARE, Lead(), 69.0)


def test_a_straight_loom_bends_nowhere() -> None:
    found = lyings(SQUARE, Lead(), 70.0 * 1.000001)
    assert found[-1].radius_mm > 100 * found[0].radius_mm
    assert tightest(found).open_deg == 0.0


def test_what_is_needed_bears_and_a_little_less_does_not() -> None:
    for lead, radius_mm in ((Lead(), 24.0), (Lead(45.0, 45.0), 16.0)):
        needed = needed_mm(SQUARE, lead, radius_mm, 0.0)
        assert needed is not None
        assert tightest(lyings(SQUARE, lead, needed)).radius_mm >= radius_mm
        assert tightest(lyings(SQUARE, lead, needed - 0.6)).radius_mm < radius_mm


def test_where_no_length_will_do_none_is_told() -> None:
    assert needed_mm(SQUARE, Lead(90.0, 90.0), 500.0, 0.0) is None


def test_led_along_the_axis_a_loom_twists_and_bends_less() -> None:
    aside = Swing(30.0, 40.0, hypot(50.0, 80.0), 90.0, parting=True, along_mm=80.0)
    flat = tightest(lyings(SQUARE, Lead(), 90.0)).radius_mm
    assert tightest(lyings(aside, Lead(), hypot(90.0, 80.0))).radius_mm == pytest.approx(
        flat * (90.0**2 + 80.0**2) / 90.0**2
    )


def test_a_radius_is_endless_where_nothing_bends() -> None:
    still = Swing(30.0, 40.0, 70.0, 1e-4, parting=False)
    assert tightest(lyings(still, Lead(), 70.0 + 1e-7)).radius_mm < inf
