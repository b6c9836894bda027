"""Rule 'carrying': a feed and a plug's cavity carry no more than they may."""

from collections.abc import Iterator

from trimwright.checks.wiring.words import sentence, waits_for
from trimwright.findings import Finding, Grade
from trimwright.quantities import Unit, shown_current
from trimwright.wiring import Electrics, WiringOutcome, combination, lasting_a, most_a

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
            waits = waits_for(found, (), {feed.name})
            yield _finding(own, (feed.name, feed.name), feed.carries.value, waits)


def _cavities(found: WiringOutcome, own: Electrics) -> Iterator[Finding]:
    """Yield what each cavity carries: the most of any wire that comes to it."""
    for plug in found.wiring.plugs:
        if plug.carries is None:
            continue
        there: dict[str, list[str]] = {}
        for wire in found.loom.wires:
            for end in (wire.start, wire.end):
                if end.device == plug.name:
                    there.setdefault(end.node, []).append(wire.name)
        for cavity, wires in there.items():
            most = max(wires, key=lambda wire: most_a(own, wire, lasting=False)[0])
            waits = waits_for(found, (), set(wires))
            yield _finding(own, (cavity, most), plug.carries.value, waits)


def _finding(
    own: Electrics, told: tuple[str, str], limit: float, waits: tuple[str, ...]
) -> Finding:
    """Return how what flows through a part at most, and for good, stands to what may.

    `told` names the place, and the part that the current is of.
    """
    name, part = told
    amps, state = most_a(own, part, lasting=False)
    lasting = lasting_a(own, part)
    good = amps <= limit
    grade: Grade = "good" if good else "stop" if lasting > limit else "change"
    words = f"{shown_current(amps)} of {shown_current(limit)}"
    place, upper = f"current through {name}", sentence(name)
    if good and waits:
        return Finding(RULE, place, "look", f"Not told what {name} carries.", LOCK, missing=waits)
    return Finding(
        rule=RULE,
        place=place,
        grade=grade,
        says=f"{upper} carries at most {words}."
        if good
        else f"{upper} carries too much{'' if lasting > limit else ' for moments'}: {words}.",
        lock=LOCK,
        figure=amps,
        limit=limit,
        margin=limit - amps,
        measure="A",
        source="what is written of it",
        why=(
            "The most in any state that was solved, starts of motors left out.",
            combination(own, state),
        ),
    )
