"""Days of standby: charge over drain, and a car maker's service bulletin on parked cars.

Days = Ah x usable share / (A x 24), worked out to seven digits. The bulletin, as quoted in an
owners' forum: about 0.6 Ah a minute of reserve capacity; 40 % of that gone usually means no start.
"""

import pytest

from trimwright.wiring.standby import (
    Span,
    Store,
    capacity_from_reserve_ah,
    largest_drain_a,
    share_left_in_cold,
    share_that_leaves_no_start,
    standby_days,
)


@pytest.mark.parametrize(
    ("capacity_ah", "usable", "drain_ma", "days"),
    [
        (60.0, 0.5, 20.0, 62.500000),
        (60.0, 0.5, 50.0, 25.000000),
        (70.0, 0.6, 30.0, 58.333333),
        (45.0, 0.5, 75.0, 12.500000),
    ],
)
def test_days_of_standby(capacity_ah: float, usable: float, drain_ma: float, days: float) -> None:
    drain = Span(drain_ma / 1000, drain_ma / 1000)
    found = standby_days(Store(capacity_ah, Span(usable, usable)), drain)
    assert (found.low, found.high) == pytest.approx((days, days), rel=1e-7)


def test_largest_drain_for_six_weeks() -> None:
    found = largest_drain_a(Store(60.0, Span(0.5, 0.5)), 42.0)
    assert found.low * 1000 == pytest.approx(29.761905, rel=1e-7)


def test_the_bulletin_s_rule() -> None:
    capacity, share = capacity_from_reserve_ah(100.0), share_that_leaves_no_start()
    assert capacity == pytest.approx(60.0)
    assert capacity * share == pytest.approx(24.0)
    found = standby_days(Store(capacity, Span(share, share)), Span(0.030, 0.030))
    assert found.low == pytest.approx(33.333333, rel=1e-7)


def test_a_battery_at_0_fahrenheit_has_two_fifths_of_its_capacity_at_80() -> None:
    assert share_left_in_cold((0 - 32) / 1.8 + 0.03) == pytest.approx(0.40, abs=0.005)
    assert share_left_in_cold((80 - 32) / 1.8) == pytest.approx(1.0, abs=0.005)
