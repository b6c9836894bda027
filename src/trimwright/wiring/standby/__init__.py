"""Standby: how long a battery lasts, parked and idling.

In: capacity and the shares of it that may go, drains [A]. Out: ranges of days and minutes. Nothing
here knows a build.
"""

from trimwright.wiring.standby.battery import (
    Span,
    Store,
    capacity_from_reserve_ah,
    idle_minutes,
    largest_drain_a,
    share_left_in_cold,
    share_that_leaves_no_start,
    standby_days,
)

__all__ = [
    "Span",
    "Store",
    "capacity_from_reserve_ah",
    "idle_minutes",
    "largest_drain_a",
    "share_left_in_cold",
    "share_that_leaves_no_start",
    "standby_days",
]
