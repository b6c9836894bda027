"""Rule 'carrying': a feed and a plug's cavity carry no more than they may."""

from collections.abc import Iterator

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
            yield _finding(own, feed.name, feed.name, feed.carries.value)


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
            yield _finding(own, cavity, most, plug.carries.value)


def _finding(own: Electrics, name: str, part: str, limit: float) -> Finding:
    """Return how what flows through a part at most, and for good, stands to what may."""
    amps, state = most_a(own, part, lasting=False)
    lasting = lasting_a(own, part)
    good = amps <= limit
    grade: Grade = "good" if good else "stop" if lasting > limit else "change"
    told = f"{shown_current(amps)} of {shown_current(limit)}"
    upper = name[:1].upper() + name[1:]
    return Finding(
        rule=RULE,
        place=f"current through {name}",
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
        why=(
            "The most in any state that was solved, starts of motors left out.",
            combination(own, state),
        ),
    )
