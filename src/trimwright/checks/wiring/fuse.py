"""Rule 'fuse': every wire is behind a fuse, and a fuse bears what its loads take."""

from collections.abc import Iterator
from dataclasses import dataclass

from trimwright.build import Fuse
from trimwright.findings import Edit, Finding, Remedy
from trimwright.quantities import Unit, shown_current
from trimwright.wiring import (
    WiringOutcome,
    dies_with,
    fuse_of_class,
    lasting_a,
    length_m,
    opening_band,
)

LOCK = "carpet"
STARTING_S = 0.3  # that a motor takes to start, a lamp to warm; common practice, no source
SHARE = 0.8  # of its rating that a fuse bears for good; common practice, no source
NEAR_M = 0.3  # wire that may lie between the battery and its fuse; common practice, no source
RATINGS = (1, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 100)
PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Start:
    """A current [A] for a short time [s], by the consumer that takes it."""

    name: str
    current_a: float
    seconds: float


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each fuse, one for each long wire that no fuse looks after."""
    del unit
    if found.electrics is None:
        return ()
    return (*_unfused(found), *(one for f in found.wiring.fuses if (one := _bears(found, f))))


def largest_rating(most_a: float) -> float | None:
    """Return the largest fuse as sold that is no larger than a current; None below the smallest.

    Examples
    --------
    >>> largest_rating(9.9)
    7.5
    """
    return max((one for one in RATINGS if one <= most_a), default=None)


def _unfused(found: WiringOutcome) -> Iterator[Finding]:
    """Yield a stop for each wire ahead of all fuses that is longer than it may be."""
    if found.electrics is None:
        return
    for wire, sizing in zip(found.loom.wires, found.electrics.sizings, strict=True):
        long = length_m(wire)
        if not sizing.met.ahead or sizing.met.fuse is not None or long <= NEAR_M:
            continue
        yield Finding(
            rule="fuse",
            place=f"no fuse ahead of {wire.name}",
            grade="stop",
            says=f"No fuse looks after {wire.name}: a short there is fed by the whole battery.",
            lock=LOCK,
            figure=1000 * long,
            limit=1000 * NEAR_M,
            margin=1000 * (NEAR_M - long),
            remedies=(
                Remedy(f"Put a fuse at its beginning, within {1000 * NEAR_M:g} mm of the battery."),
            ),
            source=PRACTICE,
            why=("Disconnect the battery before any work on this wire.",),
        )


def _bears(found: WiringOutcome, fuse: Fuse) -> Finding | None:
    """Return whether a fuse bears what goes through it; None where nothing does."""
    electrics = found.electrics
    if electrics is None:
        return None
    most = lasting_a(electrics, fuse.name)
    starts = tuple(_starts(found, fuse.name))
    if not most and not starts:
        return None
    limit, rated = SHARE * fuse.rated.value, fuse.rated.value
    early = next((one for one in starts if not outlasts(fuse.type, rated, one)), None)
    good = most <= limit and early is None
    return Finding(
        rule="fuse",
        place=fuse.name,
        grade="good" if good else "change",
        says=_says(fuse, most, limit, early),
        lock=LOCK,
        figure=most,
        limit=limit,
        margin=limit - most,
        measure="A",
        remedies=() if good else _larger(found, fuse),
        source=f"{SHARE:.0%} of its rating; {PRACTICE}; opening band of its class",
        why=(
            "A fuse run near its rating ages and opens on a warm day.",
            *(
                f"{one.name} takes {shown_current(one.current_a)} for {one.seconds:g} s at a time."
                for one in starts
            ),
            *(
                (f"With it goes {', '.join(dead)}.",)
                if (dead := dies_with(found, fuse.name))
                else ()
            ),
        ),
    )


def _says(fuse: Fuse, most: float, limit: float, early: Start | None) -> str:
    """Return the sentence."""
    rated, name = shown_current(fuse.rated.value), _upper(fuse.name)
    if most > limit:
        return f"{name} will open in time: {shown_current(most)} goes through {rated} for good."
    if early is not None:
        return (
            f"{name} may open when {early.name} starts: {shown_current(early.current_a)} for"
            f" {early.seconds:g} s through {rated}."
        )
    return f"{name} bears what lasts: {shown_current(most)} of {rated}."


def _starts(found: WiringOutcome, name: str) -> Iterator[Start]:
    """Yield what goes through a fuse for a short time: a motor that starts, a load on for moments."""
    seen: set[str] = set()
    for use in found.uses:
        own = use.consumer
        if own.name in seen or name not in use.path.to or own.current_a is None:
            continue
        seen.add(own.name)
        if own.first_a is not None:
            yield Start(own.name, own.first_a, STARTING_S)
        if own.on_for_s is not None:
            yield Start(own.name, own.current_a, own.on_for_s)


def outlasts(kind: str, rated_a: float, start: Start) -> bool:
    """Return whether a fuse stays whole through a start: its earliest opening comes later."""
    earliest, _ = opening_band(fuse_of_class(kind, rated_a), [start.current_a])
    return bool(earliest[0] > start.seconds)


def outlives(found: WiringOutcome, fuse: Fuse, rating_a: float) -> bool:
    """Return whether a fuse of a rating [A] in the place of one bears all that goes through it."""
    starts = tuple(_starts(found, fuse.name))
    if found.electrics is None:
        return False
    lasts = lasting_a(found.electrics, fuse.name) <= SHARE * rating_a
    return lasts and all(outlasts(fuse.type, rating_a, start) for start in starts)


def _larger(found: WiringOutcome, fuse: Fuse) -> tuple[Remedy, ...]:
    """Return the smallest fuse as sold that bears it all."""
    rating = next((one for one in RATINGS if outlives(found, fuse, one)), None)
    if rating is None:
        return ()
    edit = Edit(("wiring", "fuses", found.wiring.fuses.index(fuse), "rated"), f"{rating:g} A")
    return (Remedy(f"Take {rating:g} A for {fuse.name}, and wire that it looks after.", (edit,)),)


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]
