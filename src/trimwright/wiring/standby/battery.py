"""How long a battery lasts: parked, until it no longer starts the engine; idling, until it is spent.

Charge in less charge out, nothing finer: what can be taken is the capacity at a slow rate times the
share that may go, times what age and cold have left of it. Each is a range, since nobody knows them
better, and so is the answer. What a battery loses by itself is not counted: nothing was found in
print that could be held against.
"""

from math import inf

from msgspec import Struct

from trimwright.stock import standby_figure

_WARM_C, _COLD_C = 26.7, -17.8  # 80 and 0 degrees Fahrenheit [battery-cold-tip]
_HOURS_A_DAY, _MINUTES_AN_HOUR = 24.0, 60.0


class Span(Struct, frozen=True):
    """A range, from low to high."""

    low: float
    high: float

    def __post_init__(self) -> None:
        """Refuse a range that runs backwards."""
        if not 0 <= self.low <= self.high:
            raise ValueError(
                f"a span must go from 0 or more upwards, got {self.low:g} to {self.high:g}"
            )


class Store(Struct, frozen=True):
    """What a battery can give.

    Parameters
    ----------
    capacity_ah : float
        Charge when new, full, warm and drawn slowly [Ah]. Not the reserve capacity's minutes at
        25 A: that is another rate, see `capacity_from_reserve_ah`.
    usable : Span
        Share of it that may go.
    aged, chilled : Span
        Shares of the capacity that age, and cold, have left; 1 to 1 if they are not in doubt.

    Raises
    ------
    ValueError
        If the capacity is not above 0, or a share is above 1.
    """

    capacity_ah: float
    usable: Span
    aged: Span = Span(1.0, 1.0)
    chilled: Span = Span(1.0, 1.0)

    def __post_init__(self) -> None:
        """Refuse what no battery can be."""
        if not self.capacity_ah > 0:
            raise ValueError(f"capacity_ah must be above 0, got {self.capacity_ah:g}")
        for name in ("usable", "aged", "chilled"):
            high = getattr(self, name).high
            if high > 1:
                raise ValueError(f"{name} must be at most 1, got {high:g}")

    @property
    def charge_ah(self) -> Span:
        """Charge that can be taken [Ah]."""
        return Span(
            self.capacity_ah * self.usable.low * self.aged.low * self.chilled.low,
            self.capacity_ah * self.usable.high * self.aged.high * self.chilled.high,
        )


def standby_days(store: Store, drain_a: Span) -> Span:
    """Return the days until a parked car no longer starts; infinite if nothing draws.

    Parameters
    ----------
    store : Store
        The battery.
    drain_a : Span
        What everything that sleeps draws together [A].

    Examples
    --------
    >>> standby_days(Store(60.0, Span(0.4, 0.5)), Span(0.02, 0.02))
    Span(low=50.0, high=62.5)
    """
    hours = _lasting_hours(store, drain_a)
    return Span(hours.low / _HOURS_A_DAY, hours.high / _HOURS_A_DAY)


def largest_drain_a(store: Store, days: float) -> Span:
    """Return the drain [A] that a battery bears for so many days.

    Raises
    ------
    ValueError
        If the days are not above 0.

    Examples
    --------
    >>> round(largest_drain_a(Store(60.0, Span(0.5, 0.5)), 42.0).low * 1000, 6)
    29.761905
    """
    if not days > 0:
        raise ValueError(f"days must be above 0, got {days:g}")
    charge = store.charge_ah
    return Span(charge.low / (days * _HOURS_A_DAY), charge.high / (days * _HOURS_A_DAY))


def idle_minutes(store: Store, load_a: Span, alternator_a: Span) -> Span:
    """Return the minutes that an engine may idle until the battery has given what it may.

    Parameters
    ----------
    store : Store
        The battery.
    load_a : Span
        What everything that is on draws [A].
    alternator_a : Span
        What the alternator gives, hot, at idle [A].

    Returns
    -------
    Span
        Minutes; infinite where the alternator gives as much as is drawn.

    Examples
    --------
    >>> idle_minutes(Store(60.0, Span(0.5, 0.5)), Span(50.0, 55.0), Span(40.0, 45.0))
    Span(low=120.0, high=360.0)
    """
    short = Span(max(load_a.low - alternator_a.high, 0.0), max(load_a.high - alternator_a.low, 0.0))
    hours = _lasting_hours(store, short)
    return Span(hours.low * _MINUTES_AN_HOUR, hours.high * _MINUTES_AN_HOUR)


def _lasting_hours(store: Store, drain_a: Span) -> Span:
    """Return how long a drain lasts [h]; infinite if there is none."""
    charge = store.charge_ah
    return Span(
        charge.low / drain_a.high if drain_a.high > 0 else inf,
        charge.high / drain_a.low if drain_a.low > 0 else inf,
    )


def capacity_from_reserve_ah(reserve_min: float) -> float:
    """Return about the slow-rate capacity [Ah] of a battery by its reserve capacity [min].

    A car maker's rule of thumb, not the charge of the reserve-capacity test itself, which is 25 A
    for that time.

    References
    ----------
    parked-car-bulletin

    Examples
    --------
    >>> capacity_from_reserve_ah(100.0)
    60.0
    """
    if not reserve_min > 0:
        raise ValueError(f"reserve_min must be above 0, got {reserve_min:g}")
    return reserve_min * standby_figure("Ah in a minute of reserve capacity").value


def share_that_leaves_no_start() -> float:
    """Return the share of a full battery's capacity whose loss usually means no start, at 25 degC.

    References
    ----------
    parked-car-bulletin

    Examples
    --------
    >>> share_that_leaves_no_start()
    0.4
    """
    return standby_figure("share that leaves no start").value


def share_left_in_cold(celsius: float) -> float:
    """Return what cold leaves of a lead-acid battery's capacity, by a straight line.

    Parameters
    ----------
    celsius : float
        Temperature of the battery [degC], from -17.8 (0 F) up; at 26.7 (80 F) and above it is 1.

    Raises
    ------
    ValueError
        If it is colder than anything that was found in print.

    References
    ----------
    battery-cold-tip

    Examples
    --------
    >>> round(share_left_in_cold(0.0), 2)
    0.64
    """
    if not celsius >= _COLD_C:
        raise ValueError(f"celsius must be {_COLD_C:g} or more, got {celsius:g}")
    left = standby_figure("share of capacity left at -18 C").value
    return min(1.0, left + (1 - left) * (celsius - _COLD_C) / (_WARM_C - _COLD_C))
