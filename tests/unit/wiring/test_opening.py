from math import inf

import numpy as np
import pytest
from msgspec.structs import replace

from trimwright.stock import FuseClass, FusePoint, fuse_class, wire
from trimwright.wiring.copper import (
    Fuse,
    Laid,
    ampacity,
    celsius_after,
    copper_c,
    opening_band,
    protection,
    seconds_to,
    sure_a,
)

MINI = fuse_class("mini blade")
TEN = Fuse(MINI, 10.0)


def test_a_fuse_at_its_rating_never_opens() -> None:
    for name in ("glass 5x20", "blade", "mini blade", "maxi blade"):
        least, most = opening_band(Fuse(fuse_class(name), 10.0), [1.0, 9.99])
        assert least.tolist() == most.tolist() == [inf, inf]


def test_half_way_between_two_points_in_logarithms() -> None:
    middle = 10.0 * (1.35 * 2.0) ** 0.5
    assert float(opening_band(TEN, middle)[1]) == pytest.approx((600 * 5) ** 0.5)
    assert float(opening_band(TEN, middle)[0]) == pytest.approx((0.75 * 0.15) ** 0.5)


def test_beyond_the_last_point_the_heat_stays_and_no_earliest_is_known() -> None:
    least, most = opening_band(TEN, 600.0)
    assert float(least) == 0.0
    assert float(most) == pytest.approx(0.1 / 100)  # ten times the current


def test_a_fuse_without_a_rating_is_refused() -> None:
    with pytest.raises(ValueError, match="rating_a must be above 0, got 0"):
        Fuse(MINI, 0.0)


def test_a_thin_wire_behind_a_large_fuse_is_not_protected() -> None:
    found = protection(Laid(wire("0.5 mm2"), 40.0), Fuse(MINI, 25.0), prospective_a=150.0)
    assert not found.protects
    assert found.margin < 0
    assert found.wire_s < found.fuse_s


def test_a_wire_must_bear_for_good_what_the_fuse_need_never_open_at() -> None:
    # 0.75 mm2 at 60 degC bears 14.1 A; a fuse of 10 A may hold 13.5 A, one of 10.5 A 14.2 A
    laid = Laid(wire("0.75 mm2"), 60.0)
    taken, refused = (
        protection(laid, Fuse(MINI, rating), prospective_a=300.0) for rating in (10.0, 10.5)
    )
    assert (taken.protects, refused.protects) == (True, False)
    assert (taken.held_a, refused.held_a) == pytest.approx((13.5, 14.175), abs=1e-9)
    assert refused.carried_a < refused.held_a
    assert refused.fuse_s == inf


def test_while_the_fuse_takes_its_time_the_wire_may_get_as_warm_as_its_excursions() -> None:
    warm = wire("0.75 mm2")
    strict = replace(warm, excursion_c=warm.class_c)
    allowed, refused = (
        protection(Laid(one, 60.0), TEN, prospective_a=300.0) for one in (warm, strict)
    )
    assert (allowed.protects, refused.protects) == (True, False)


def test_a_short_that_cannot_blow_the_fuse_is_borne_or_not() -> None:
    laid = Laid(wire("0.5 mm2"), 60.0)  # bears 11.1 A
    fuse = Fuse(MINI, 20.0)
    assert protection(laid, fuse, prospective_a=10.0).protects
    assert not protection(laid, fuse, prospective_a=12.0).protects


def test_the_worst_current_is_found_inside_the_band() -> None:
    # a band with one bad corner: late at 300 % for a fuse that is quick on both sides of it
    bad = FuseClass(
        "bad at 3",
        tuple(
            FusePoint(share, least, most, "made up", "made up")
            for share, least, most in ((1.0, inf, inf), (1.2, 0, 5), (3.0, 0, 5), (3.01, 0, 0.01))
        ),
        confirmed=False,
    )
    found = protection(Laid(wire("1 mm2"), 25.0), Fuse(bad, 10.0), prospective_a=500.0)
    assert found.worst_a == pytest.approx(30.0, rel=1e-9)


def test_a_warm_start_leaves_less_time() -> None:
    laid = Laid(wire("1 mm2"), 25.0)
    cold, warm = (
        float(seconds_to(laid, 60.0, limit_c=105.0, start_c=start)[0]) for start in (25.0, 80.0)
    )
    assert warm < cold / 2


def test_a_wire_that_starts_too_hot_has_no_time() -> None:
    assert seconds_to(Laid(wire("1 mm2"), 25.0), 5.0, limit_c=80.0, start_c=80.0)[0] == 0.0


def test_nothing_flows_is_refused() -> None:
    with pytest.raises(ValueError, match="prospective_a must be above 0, got 0"):
        protection(Laid(wire("1 mm2"), 25.0), TEN, prospective_a=0.0)


def test_no_current_never_warms() -> None:
    assert seconds_to(Laid(wire("1 mm2"), 25.0), [0.0], limit_c=80.0) == np.array([inf])


def test_in_a_bundle_too_a_wire_never_gets_too_hot_below_what_it_bears() -> None:
    laid = Laid(wire("1 mm2"), 60.0, 0.4125)
    bears = ampacity(laid)
    below, above = seconds_to(laid, [0.999 * bears, 1.001 * bears], limit_c=105.0)
    assert below == inf
    assert 60 < above < inf


def test_what_a_wire_carries_before_the_short_counts() -> None:
    laid = Laid(wire("0.75 mm2"), 60.0)
    idle, busy = (
        protection(laid, TEN, prospective_a=300.0, carried_a=amperes) for amperes in (0.0, 10.0)
    )
    assert (idle.protects, busy.protects) == (True, False)


@pytest.mark.parametrize("current_a", [21.0, 60.0, 400.0])
def test_copper_is_as_warm_after_a_time_as_it_takes_to_get_there(current_a: float) -> None:
    laid = Laid(wire("1 mm2"), 25.0)
    took = seconds_to(laid, current_a, limit_c=90.0, start_c=40.0)
    assert celsius_after(laid, current_a, took, start_c=40.0)[0] == pytest.approx(90.0, abs=0.1)


def test_a_wire_never_gets_warmer_than_it_settles_nor_than_copper_melts() -> None:
    laid = Laid(wire("1 mm2"), 25.0)
    rests = celsius_after(laid, [10.0, 10.0], [1e9, inf], start_c=25.0)
    assert rests == pytest.approx(float(copper_c(laid, 10.0)), abs=0.1)
    assert celsius_after(laid, 500.0, inf, start_c=25.0)[0] == 1083.0
    assert celsius_after(laid, 500.0, 0.0, start_c=25.0)[0] == 25.0


def test_from_which_current_on_a_fuse_is_sure_to_open_in_time() -> None:
    assert sure_a(TEN, 0.5) == pytest.approx(35.0)  # as its sheet prints
    glass = Fuse(fuse_class("glass 5x20"), 10.0)
    assert sure_a(glass, 30.0) == pytest.approx(40.0)  # beyond 200 % by its heat: 120 s x (2/4)^2
    for seconds in (0.01, 2.0, 100.0):
        least = sure_a(TEN, seconds)
        assert opening_band(TEN, least)[1] <= seconds < opening_band(TEN, 0.999 * least)[1]
