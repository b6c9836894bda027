"""Rule 'carrying': a feed and a plug's cavity carry no more than they may."""

from collections.abc import Iterator

import numpy as np

from trimwright.checks.wiring.words import sentence, waits_for
from trimwright.findings import Finding, Grade
from trimwright.quantities import Unit, shown_current
from trimwright.wiring import Electrics, WiringOutcome, lasting_a

RULE, LOCK = "carrying", "carpet"


def findings(found: WiringOutcome, unit: Unit) -> tuple[Finding, ...]:
    """Return one finding for each feed, and each cavity in use, of which it is written what it may."""
    del unit
    own = found.electrics
    return () if own is None else (*_feeds(found, own), *_cavities(found, own))


def _feeds(found: WiringOutcome, own: Electrics) -> Iterator[Finding]:
    """Yield what each feed carries."""
    names = {one.name for one in own.solved.circuit.elements}
    for feed in found.wiring.feeds:
        if feed.carries is not None and feed.name in names:
            amps = (_most_a(own, feed.name), lasting_a(own, feed.name))
            waits = waits_for(found, (), {feed.name})
            yield _finding(feed.name, amps, feed.carries.value, waits)


def _cavities(found: WiringOutcome, own: Electrics) -> Iterator[Finding]:
    """Yield what each cavity carries: the most of any wire that comes to it."""
    for plug in found.wiring.plugs:
        if plug.carries is None:
            continue
        most: dict[str, tuple[float, float]] = {}
        for wire in found.loom.wires:
            for end in (wire.start, wire.end):
                if end.device == plug.name:
                    amps = (_most_a(own, wire.name), lasting_a(own, wire.name))
                    most[end.node] = max(most.get(end.node, amps), amps)
        for cavity, amps in most.items():
            ends = {w.name for w in found.loom.wires if cavity in (w.start.node, w.end.node)}
            yield _finding(cavity, amps, plug.carries.value, waits_for(found, (), ends))


def _most_a(own: Electrics, name: str) -> float:
    """Return the most that flows through a part in any state that was solved [A]."""
    place = own.solved.circuit.element(name)
    return float(np.max(np.abs(np.nan_to_num(own.solved.currents[:, place])), initial=0.0))


def _finding(
    name: str, told_a: tuple[float, float], limit: float, waits: tuple[str, ...]
) -> Finding:
    """Return how what flows at most, and for good, stands to what may."""
    amps, lasting = told_a
    good = amps <= limit
    grade: Grade = "good" if good else "stop" if lasting > limit else "change"
    told = f"{shown_current(amps)} of {shown_current(limit)}"
    place, upper = f"current through {name}", sentence(name)
    if good and waits:
        return Finding(RULE, place, "look", f"Not told what {name} carries.", LOCK, missing=waits)
    return Finding(
        rule=RULE,
        place=place,
        grade=grade,
        says=f"{upper} carries at most {told}."
        if good
        else f"{upper} carries too much{'' if lasting > limit else ' for moments'}: {told}.",
        lock=LOCK,
        figure=amps,
        limit=limit,
        margin=limit - amps,
        measure="A",
        source="what is written of it",
        why=("The most in any state that was solved, starts of motors left out.",),
    )
