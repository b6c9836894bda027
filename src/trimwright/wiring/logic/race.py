"""What a loop of relays does on the ways from rest: who wins a race, and what never ends."""

from collections.abc import Iterator
from typing import Literal

from msgspec import Struct

from trimwright.wiring.logic.bearing import Cone
from trimwright.wiring.logic.journey import FactChange, Journey, lawful
from trimwright.wiring.logic.movement import Settling, UnitMove
from trimwright.wiring.logic.network import Network, State, resting
from trimwright.wiring.logic.standing import Board

MOST_STATES = 2_000


class Unrest(Struct, frozen=True):
    """What a loop does once the relays are left to themselves in some state.

    'race': it comes to rest in one of several `ends`, by who moves first. 'chatter': from the one
    of `ends` it never comes to rest. That is after `change` in the state `before`, or, if both are
    None, as the feeds come on with all relays dropped out.
    """

    kind: Literal["race", "chatter"]
    ends: tuple[State, ...]
    before: State | None
    change: FactChange | UnitMove | None


def unrest(network: Network, loop: tuple[str, ...], bears: Cone) -> tuple[Unrest, ...] | None:
    """Return the first race and the first endless chatter of a loop on the ways from rest.

    None if there are more states than can be looked at, or facts at rest break a constraint.
    """
    start = resting(network)
    if not lawful(network, dict(start.facts)):
        return None
    found: dict[str, Unrest] = {}
    seen: set[State] = set()
    for before, change, settling in _settlings(Journey(Board(network), bears), start, seen):
        ends = _race(settling, loop)
        if ends and "race" not in found:
            found["race"] = Unrest("race", ends, before, change)
        if settling.restless and "chatter" not in found and set(settling.chatterers) <= {*loop}:
            found["chatter"] = Unrest("chatter", (settling.restless,), before, change)
    return None if len(seen) > MOST_STATES else tuple(found.values())


def _settlings(
    journey: Journey, start: State, seen: set[State]
) -> Iterator[tuple[State | None, FactChange | UnitMove | None, Settling]]:
    """Yield what happens from rest on, the nearest first, and gather the states of rest."""
    first = journey.settling(start)
    yield None, None, first
    waiting = list(dict.fromkeys(rest for rest, _ in first.rests))
    seen |= set(waiting)
    for state in waiting:  # grows on the way
        for step, after in journey.steps(journey.board.standing(state)):
            settling = journey.settling(after)
            yield state, step, settling
            more = [rest for rest, _ in settling.rests if rest not in seen]
            waiting += more
            seen |= set(more)
        if len(seen) > MOST_STATES:
            return


def _race(settling: Settling, loop: tuple[str, ...]) -> tuple[State, ...]:
    """Return states of rest that differ within the loop alone, if there are two or more."""
    alike: dict[tuple[object, ...], list[State]] = {}
    for rest, _ in settling.rests:
        pulled = tuple(name for name in rest.pulled if name not in loop)
        units = tuple(pair for pair in rest.units if pair[0] not in loop)
        alike.setdefault((pulled, units), []).append(rest)
    return next((tuple(ends) for ends in alike.values() if len(ends) > 1), ())
