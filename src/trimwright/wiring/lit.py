"""One state of a wiring looked at: what works, what is live, what carries, and how many volts arrive."""

from dataclasses import dataclass

import numpy as np

from trimwright.build import OIL, Wiring
from trimwright.quantities import Unit
from trimwright.wiring.consumer import consumers
from trimwright.wiring.electric import circuit, flows
from trimwright.wiring.fact import NAMED_ENGINE, NO, YES
from trimwright.wiring.laid import length_m
from trimwright.wiring.logic import Board, Fault, Network, Standing, at_rest
from trimwright.wiring.logic import paths as ways
from trimwright.wiring.mode import Mode
from trimwright.wiring.outcome import connections
from trimwright.wiring.sold import ohm_per_m


@dataclass(frozen=True, slots=True)
class Lit:
    """What follows from where key, engine and switches stand.

    Attributes
    ----------
    live : frozenset of str
        Wires, fuses and closed contacts that are joined to a live feed.
    carries : frozenset of str
        Those that current passes, on either side of what works, and the relays that are pulled in.
    on : tuple of (str, float or None)
        Loads that are joined to a feed and to ground, with the voltage across each [V]; None where
        that cannot be told, or it is off for lack of voltage.
    """

    live: frozenset[str]
    carries: frozenset[str]
    on: tuple[tuple[str, float | None], ...]


def handles(wiring: Wiring) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return what can be put somewhere by hand: switches and doors, each with its positions."""
    network = connections(wiring)[1]
    apart = ("key", "engine", OIL, NAMED_ENGINE)
    return tuple((fact.name, fact.values) for fact in network.facts if fact.name not in apart)


def lit(
    wiring: Wiring, unit: Unit, mode: Mode, put: dict[str, str], fault: Fault | None = None
) -> Lit | None:
    """Return what follows from a mode of the car and where its switches are put.

    Parameters
    ----------
    wiring : Wiring
        The build's.
    unit : {'mm', 'in'}
        The build's.
    mode : Mode
        Key, engine and what supplies it.
    put : dict of str to str
        A position for some of `handles`; the others rest.
    fault : Fault, optional
        One thing that does not do what it is there for.

    Returns
    -------
    Lit or None
        None where relays find no rest.
    """
    laid, network, _ = connections(wiring)
    board = Board(network, fault)
    seen = at_rest(board, _facts(network, mode, put))
    if seen is None:
        return None
    live = {
        edge.name
        for edge in board.edges
        if edge.name in seen.closed and edge.a in seen.live and edge.b in seen.live
    }
    carries, names = set[str](), []
    for one in consumers(wiring):
        if board.holds(one.fed, seen):
            (way,) = ways(board, seen, one.fed)
            carries |= {*way.to, *way.back, one.name}
            if not one.is_coil:
                names.append(one.name)
    ohms = {one.name: ohm_per_m(one.size, unit) * length_m(one) for one in laid.wires}
    volts = _volts(wiring, mode, seen, ohms)
    return Lit(frozenset(live), frozenset(carries), tuple((n, volts.get(n)) for n in names))


def _facts(network: Network, mode: Mode, put: dict[str, str]) -> tuple[tuple[str, str], ...]:
    """Return a value for every fact: as put, as the mode says, else at rest."""
    runs = YES if mode.engine == "running" else NO
    told = {**put, "key": mode.key, "engine": mode.engine, OIL: runs, NAMED_ENGINE: runs}
    return tuple(
        (fact.name, told.get(fact.name, fact.values[0]))
        if told.get(fact.name) in fact.values
        else (fact.name, fact.values[0])
        for fact in network.facts
    )


def _volts(wiring: Wiring, mode: Mode, seen: Standing, ohms: dict[str, float]) -> dict[str, float]:
    """Return the voltage across each load that has one [V]; empty where nothing is solved."""
    laid, network, _ = connections(wiring)
    built = circuit(wiring, laid, network, ohms)
    if built is None:
        return {}
    closed = frozenset(seen.closed) | frozenset(seen.alive)
    solved = flows(built, [(mode, closed)], network, wiring)
    found = {}
    for load in wiring.loads:
        if load.power is None and load.current is None:
            continue
        place = built.element(load.name)
        volts = abs(float(solved.across[0, place]))
        if np.isfinite(volts) and not solved.dropped[0, place]:
            found[load.name] = volts
    return found
