"""Fuses, switches and relays as sold: the smallest that bears what it is asked for."""

from collections.abc import Iterable

from msgspec import Struct

from trimwright.build import Fuse
from trimwright.wiring.copper import opening_band
from trimwright.wiring.sizing import fuse_of_class

SMALL = (1, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 100)  # A
FUSES: dict[str, tuple[float, ...]] = {
    "blade": SMALL,
    "glass": SMALL,
    "bolted": (60, 80, 100, 125, 150, 175, 200, 225, 250),  # common practice, no source
}
SWITCHES = (1.0, 3.0, 5.0, 10.0, 16.0, 20.0)  # A; common practice, no source
RELAYS = (20.0, 30.0, 40.0, 70.0, 100.0, 150.0, 200.0)  # A; common practice, no source
STARTING_S = 0.3  # that a motor takes to start, a lamp to warm; common practice, no source
SHARE = 0.8  # of its rating that a fuse bears for good; common practice, no source


class Start(Struct, frozen=True):
    """A current [A] for a short time [s], by the consumer that takes it."""

    name: str
    current_a: float
    seconds: float


def outlasts(kind: str, rated_a: float, start: Start) -> bool:
    """Return whether a fuse stays whole through a start: its earliest opening comes later."""
    earliest, _ = opening_band(fuse_of_class(kind, rated_a), [start.current_a])
    return bool(earliest[0] > start.seconds)


def opening_s(fuse: Fuse, current_a: float) -> float:
    """Return when a fuse opens at the latest at a current [s]; inf where it may hold it for ever."""
    _, latest = opening_band(fuse_of_class(fuse.type, fuse.rated.value), [current_a])
    return float(latest[0])


def bears(kind: str, rated_a: float, lasting_a: float, starts: Iterable[Start]) -> bool:
    """Return whether a fuse bears a current for good, and short ones."""
    return lasting_a <= SHARE * rated_a and all(outlasts(kind, rated_a, one) for one in starts)


def smallest_fuse(kind: str, lasting_a: float, starts: Iterable[Start]) -> float | None:
    """Return the smallest fuse as sold [A] that bears a current [A] and starts; None if none does.

    Examples
    --------
    >>> smallest_fuse("blade", 6.0, ())
    7.5
    """
    told = tuple(starts)
    return next((one for one in FUSES[kind] if bears(kind, one, lasting_a, told)), None)


def largest_fuse(kind: str, most_a: float) -> float | None:
    """Return the largest fuse as sold that is no larger than a current; None below the smallest.

    Examples
    --------
    >>> largest_fuse("blade", 9.9)
    7.5
    """
    return max((one for one in FUSES[kind] if one <= most_a), default=None)


def switch_rating(needed_a: float) -> float | None:
    """Return the rating of a switch as sold that will do [A]; None where a relay has to.

    Examples
    --------
    >>> switch_rating(3.5), switch_rating(41.0)
    (5.0, None)
    """
    return next((one for one in SWITCHES if one >= needed_a), None)


def relay_rating(needed_a: float) -> float:
    """Return the rating of a relay as sold that will do [A].

    Examples
    --------
    >>> relay_rating(35.0)
    40.0
    """
    return next((one for one in RELAYS if one >= needed_a), needed_a)
