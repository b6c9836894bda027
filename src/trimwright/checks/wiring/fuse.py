"""Rule 'fuse': every wire is behind a fuse, and a fuse bears what its loads take."""

from collections.abc import Iterator

import numpy as np

from trimwright.build import Fuse
from trimwright.findings import Edit, Finding, Remedy
from trimwright.quantities import Unit, shown_current
from trimwright.wiring import WiringOutcome
from trimwright.wiring.laid import length_m

LOCK = "carpet"
SHARE = 0.8  # of its rating that a fuse bears for good; common practice, no source
NEAR_M = 0.3  # wire that may lie between the battery and its fuse; common practice, no source
RATINGS = (1, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 100)
PRACTICE = "common practice, no source"


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
    """Return whether a fuse bears for good what goes through it; None where nothing does."""
    electrics = found.electrics
    if electrics is None:
        return None
    place = electrics.solved.circuit.element(fuse.name)
    amps = np.abs(np.nan_to_num(electrics.solved.currents[:, place]))
    brief = {use.consumer.name for use in found.uses if use.consumer.on_for_s is not None}
    lasting = np.array([not (row.on & brief) for row in electrics.rows])
    most = float(np.max(amps[lasting], initial=0.0))
    if not float(np.max(amps, initial=0.0)):
        return None
    limit, rated = SHARE * fuse.rated.value, fuse.rated.value
    good = most <= limit
    next_up = next((one for one in RATINGS if SHARE * one >= most), None)
    says = (
        f"{_upper(fuse.name)} bears what lasts: {shown_current(most)} of {shown_current(rated)}."
        if good
        else f"{_upper(fuse.name)} will open in time: {shown_current(most)} goes through"
        f" {shown_current(rated)} for good."
    )
    number = found.wiring.fuses.index(fuse)
    remedies: tuple[Remedy, ...] = ()
    if not good and next_up is not None:
        edit = Edit(("wiring", "fuses", number, "rated"), f"{next_up:g} A")
        remedies = (
            Remedy(f"Take a fuse of {next_up:g} A, and wire that it looks after.", (edit,)),
        )
    return Finding(
        rule="fuse",
        place=fuse.name,
        grade="good" if good else "change",
        says=says,
        lock=LOCK,
        figure=most,
        limit=limit,
        margin=limit - most,
        measure="A",
        remedies=remedies,
        source=f"{SHARE:.0%} of its rating; {PRACTICE}",
        why=("A fuse run near its rating ages and opens on a warm day.",),
    )


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]
