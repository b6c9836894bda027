from math import inf

import pytest

from trimwright.wiring.standby import (
    Span,
    Store,
    capacity_from_reserve_ah,
    idle_minutes,
    largest_drain_a,
    share_left_in_cold,
    standby_days,
)

HALF = Store(48.0, Span(0.5, 0.5))


def test_what_is_in_doubt_widens_the_answer_to_both_sides() -> None:
    doubted = Store(48.0, Span(0.5, 0.5), aged=Span(0.5, 1.0), chilled=Span(0.5, 1.0))
    assert standby_days(doubted, Span(0.05, 0.1)) == Span(2.5, 20.0)


def test_nothing_that_draws_lasts_for_ever() -> None:
    assert standby_days(HALF, Span(0.0, 0.0)) == Span(inf, inf)
    assert standby_days(HALF, Span(0.0, 0.1)) == Span(10.0, inf)


def test_an_alternator_that_may_just_do_lasts_from_some_time_to_ever() -> None:
    assert idle_minutes(HALF, Span(50.0, 52.0), Span(40.0, 50.0)) == Span(120.0, inf)


def test_an_alternator_that_does_is_never_short() -> None:
    assert idle_minutes(HALF, Span(30.0, 40.0), Span(40.0, 50.0)) == Span(inf, inf)


def test_the_largest_drain_lasts_just_so_long() -> None:
    drain = largest_drain_a(HALF, 30.0)
    assert standby_days(HALF, drain).low == pytest.approx(30.0)


@pytest.mark.parametrize(("celsius", "share"), [(40.0, 1.0), (4.45, 0.7)])
def test_cold_takes_its_share_on_a_straight_line(celsius: float, share: float) -> None:
    assert share_left_in_cold(celsius) == pytest.approx(share)


def test_colder_than_anything_printed_is_refused() -> None:
    with pytest.raises(ValueError, match=r"celsius must be -17\.8 or more, got -25"):
        share_left_in_cold(-25.0)


def test_a_range_that_runs_backwards_is_refused() -> None:
    with pytest.raises(ValueError, match="a span must go from 0 or more upwards, got 2 to 1"):
        Span(2.0, 1.0)


def test_shares_above_the_whole_are_refused() -> None:
    with pytest.raises(ValueError, match=r"aged must be at most 1, got 1\.2"):
        Store(60.0, Span(0.5, 0.5), aged=Span(0.5, 1.2))


@pytest.mark.parametrize("wrong", [0.0, -1.0])
def test_a_battery_of_nothing_is_refused(wrong: float) -> None:
    with pytest.raises(ValueError, match="capacity_ah must be above 0"):
        Store(wrong, Span(0.5, 0.5))
    with pytest.raises(ValueError, match="reserve_min must be above 0"):
        capacity_from_reserve_ah(wrong)
    with pytest.raises(ValueError, match="days must be above 0"):
        largest_drain_a(HALF, wrong)
