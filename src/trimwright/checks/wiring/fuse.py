"""Rule 'fuse': a fuse bears what its loads take."""

from collections.abc import Iterator

from trimwright.build import Fuse
from trimwright.checks.wiring import cold_lamp
from trimwright.checks.wiring.words import sentence, waits_for
from trimwright.findings import Edit, Finding, Remedy
from trimwright.quantities import Unit, shown_current
from trimwright.wiring import (
    FUSE_SHARE,
    STARTING_S,
    ColdLamps,
    Start,
    WiringOutcome,
    combination,
    dies_with,
    fuse_bears,
    lasting_a,
    most_a,
    outlasts,
    smallest_fuse,
)

LOCK = "carpet"
LEAST_A = 1e-3  # below this nothing flows through it
PRACTICE = "common practice, no source"


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each fuse that something goes through."""
    del unit
    told = []
    for fuse in found.wiring.fuses:
        lamps = cold_lamp.behind(found, fuse.name)
        told += [one for one in (_bears(found, fuse, lamps),) if one]
        told += cold_lamp.finding(found, fuse, lamps)
    return tuple(told)


def _bears(found: WiringOutcome, fuse: Fuse, lamps: ColdLamps | None) -> Finding | None:
    """Return whether a fuse bears what goes through it; None where nothing does."""
    electrics = found.electrics
    if electrics is None:
        return None
    most, state = most_a(electrics, fuse.name, lasting=True)
    starts = tuple(starts_through(found, fuse.name))
    asked = _unsaid(found, fuse.name)
    if not (most or starts or asked):
        return None
    limit, rated = FUSE_SHARE * fuse.rated.value, fuse.rated.value
    early = next((one for one in starts if not outlasts(fuse.type, rated, one)), None)
    good = most <= limit and early is None
    if good and asked:
        says = f"Not told whether {fuse.name} bears it."
        return Finding("fuse", fuse.name, "look", says, LOCK, missing=asked)
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
        source=f"{FUSE_SHARE:.0%} of its rating; {PRACTICE}; opening band of its class",
        why=(
            "A fuse run near its rating ages and opens on a warm day.",
            *((combination(electrics, state),) if most > LEAST_A else ()),
            *(
                f"{one.name} takes {shown_current(one.current_a)} for {one.seconds:g} s at a time, as"
                " written."
                for one in starts
            ),
            *cold_lamp.told(fuse, lamps),
            *(
                (f"With it goes {', '.join(dead)}.",)
                if (dead := dies_with(found, fuse.name))
                else ()
            ),
        ),
    )


def _says(fuse: Fuse, most: float, limit: float, early: Start | None) -> str:
    """Return the sentence."""
    rated, name = shown_current(fuse.rated.value), sentence(fuse.name)
    if most > limit:
        return f"{name} will open in time: {shown_current(most)} goes through {rated} for good."
    if early is not None:
        return (
            f"{name} may open when {early.name} starts: {shown_current(early.current_a)} for"
            f" {early.seconds:g} s through {rated}."
        )
    return f"{name} bears what lasts: {shown_current(most)} of {rated}."


def starts_through(found: WiringOutcome, name: str) -> Iterator[Start]:
    """Yield what goes through a fuse or wire for a short time: a start, a load on for moments."""
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


def _unsaid(found: WiringOutcome, name: str) -> tuple[str, ...]:
    """Return what is not known of the loads behind a fuse: what they take, a motor at first too."""
    first = (
        f"what {use.consumer.name} takes at first"
        for use in found.uses
        if name in use.path.to and use.consumer.contact == "motor" and use.consumer.first_a is None
    )
    return (*waits_for(found, (), {name}), *dict.fromkeys(first))


def outlives(found: WiringOutcome, fuse: Fuse, rating_a: float) -> bool:
    """Return whether a fuse of a rating [A] in the place of one bears all that goes through it."""
    if found.electrics is None:
        return False
    starts = starts_through(found, fuse.name)
    whole = cold_lamp.stays_whole(fuse.type, rating_a, cold_lamp.behind(found, fuse.name))
    lasting = lasting_a(found.electrics, fuse.name)
    return whole and fuse_bears(fuse.type, rating_a, lasting, starts)


def _larger(found: WiringOutcome, fuse: Fuse) -> tuple[Remedy, ...]:
    """Return the smallest fuse as sold that bears it all."""
    if found.electrics is None:
        return ()
    lasting = lasting_a(found.electrics, fuse.name)
    rating = smallest_fuse(fuse.type, lasting, starts_through(found, fuse.name))
    if rating is None:
        return ()
    edit = Edit(("wiring", "fuses", found.wiring.fuses.index(fuse), "rated"), f"{rating:g} A")
    return (Remedy(f"Take {rating:g} A for {fuse.name}, and wire that it looks after.", (edit,)),)
