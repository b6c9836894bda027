"""The cone of a condition: all that can reach it by wire, and the loops in which relays hang."""

from collections.abc import Iterable, Mapping
from functools import lru_cache

from msgspec import Struct

from trimwright.wiring.logic.condition import (
    Atom,
    Condition,
    Is,
    Pulled,
    atoms,
)
from trimwright.wiring.logic.influence import Influence
from trimwright.wiring.logic.network import Network, Unit

KEPT = 4  # networks


class Cone(Struct, frozen=True):
    """Names of what can move a condition, each in the network's order."""

    facts: tuple[str, ...]
    relays: tuple[str, ...]
    units: tuple[str, ...]
    edges: tuple[str, ...]
    feeds: tuple[str, ...]


def cone(influence: Influence, *conditions: Condition) -> Cone:
    """Return all that can move some conditions, however many relays lie between."""
    told = [influence.moving(atom) for condition in conditions for atom in atoms(condition)]
    seen = frozenset[Atom]().union(*(one.atoms for one in told))
    passed = frozenset[str]().union(*(one.edges for one in told))
    feeds = frozenset[str]().union(*(one.feeds for one in told))
    named = {atom.of for atom in seen if isinstance(atom, Is)}
    relays = {atom.relay for atom in seen if isinstance(atom, Pulled)}
    net = influence.network
    return Cone(
        tuple(fact.name for fact in net.facts if fact.name in named),
        tuple(coil.relay for coil in net.coils if coil.relay in relays),
        tuple(unit.name for unit in net.units if unit.name in named),
        tuple(name for name in influence.edges if name in passed),
        tuple(feed.name for feed in net.feeds if feed.name in feeds),
    )


@lru_cache(maxsize=KEPT)
def influence_of(network: Network, lost: frozenset[str] = frozenset()) -> Influence:
    """Return a network laid out for asking what moves what, kept for the next who asks."""
    return Influence(network, lost)


def _movers(influence: Influence) -> dict[str, tuple[str, ...]]:
    """Return for each relay and unit the relays and units that move it at first hand."""
    net = influence.network
    found = {
        coil.relay: _among(influence, influence.behind(Pulled(coil.relay))[0]) for coil in net.coils
    }
    for unit in net.units:
        behind: list[tuple[str, ...]] = [(unit.name,)] if _goes_round(unit) else []
        for atom in influence.behind(Is(unit.name, unit.states[0]))[0]:
            direct = isinstance(atom, Is | Pulled)
            behind.append(_among(influence, (atom,) if direct else influence.behind(atom)[0]))
        found[unit.name] = tuple(dict.fromkeys(name for names in behind for name in names))
    return found


def _among(influence: Influence, behind: Iterable[Atom]) -> tuple[str, ...]:
    units = {unit.name for unit in influence.network.units}
    names = (
        atom.relay if isinstance(atom, Pulled) else atom.of
        for atom in behind
        if isinstance(atom, Pulled) or (isinstance(atom, Is) and atom.of in units)
    )
    return tuple(dict.fromkeys(names))


def _goes_round(unit: Unit) -> bool:
    """Say whether moves that do not wait may lead a unit back to a state that it left."""
    ahead = {
        state: tuple(m.to for m in unit.moves if m.state == state and not m.waits and m.to != state)
        for state in unit.states
    }
    return any(state in _all_behind(state, ahead) for state in unit.states)


def loops(network: Network, influence: Influence | None = None) -> tuple[tuple[str, ...], ...]:
    """Return the loops in which relays and units move each other, or one moves itself.

    A network without one has exactly one setting of its relays in each state of its facts. The
    loops come in such an order that none is moved by a later one.
    """
    movers = _movers(influence or influence_of(network))
    behind = {name: _all_behind(name, movers) for name in movers}
    found = dict.fromkeys(
        tuple(other for other in movers if other in behind[name] and name in behind[other])
        for name in movers
        if name in behind[name]
    )
    return tuple(sorted(found, key=lambda loop: len(behind[loop[0]])))


def _all_behind(name: str, movers: Mapping[str, tuple[str, ...]]) -> set[str]:
    found: set[str] = set()
    waiting = [*movers[name]]
    while waiting:
        one = waiting.pop()
        if one not in found:
            found.add(one)
            waiting += movers[one]
    return found
