"""One state of a wiring looked at: what works, what is live, what carries, and how many volts arrive."""

from dataclasses import dataclass

import numpy as np

from trimwright.build import OIL, Wiring
from trimwright.quantities import Unit
from trimwright.wiring.consumer import consumers
from trimwright.wiring.electric import flows
from trimwright.wiring.fact import NAMED_ENGINE, NO, YES
from trimwright.wiring.faulty import with_fault
from trimwright.wiring.logic import Board, Fault, Network, Standing, at_rest
from trimwright.wiring.logic import paths as ways
from trimwright.wiring.mode import Mode
from trimwright.wiring.outcome import connections, electrics
from trimwright.wiring.sneak import LEAST_A, SHARE

Volts = tuple[tuple[str, float | None], ...]


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
    stray : tuple of (str, float or None)
        Loads that no contact joins to both, and that get a voltage through other loads all the
        same, more than a tenth of the highest there is [V].
    """

    live: frozenset[str]
    carries: frozenset[str]
    on: Volts
    stray: Volts = ()


def handles(wiring: Wiring) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return what can be put somewhere: switches and doors, each with its positions, and units.

    A control unit is put into one of its states; what it does there at once, it does.
    """
    network = connections(wiring)[1]
    apart = ("key", "engine", OIL, NAMED_ENGINE)
    worked = ((fact.name, fact.values) for fact in network.facts if fact.name not in apart)
    return (*worked, *((unit.name, unit.states) for unit in network.units))


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
    network = connections(wiring)[1]
    board = Board(network, fault)
    seen = at_rest(board, facts_put(network, mode, put), units_put(network, put))
    return None if seen is None else seen_lit(wiring, unit, mode, (board, seen))


def seen_lit(wiring: Wiring, unit: Unit, mode: Mode, told: tuple[Board, Standing]) -> Lit:
    """Return what is lit in a state of rest, with the fault of its board."""
    board, seen = told
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
    volts, stray = _volts(wiring, unit, mode, told, frozenset(names))
    return Lit(frozenset(live), frozenset(carries), tuple((n, volts.get(n)) for n in names), stray)


def facts_put(network: Network, mode: Mode, put: dict[str, str]) -> tuple[tuple[str, str], ...]:
    """Return a value for every fact: as put, as the mode says, else at rest."""
    runs = YES if mode.engine == "running" else NO
    told = {**put, "key": mode.key, "engine": mode.engine, OIL: runs, NAMED_ENGINE: runs}
    return tuple(
        (fact.name, told.get(fact.name, fact.values[0]))
        if told.get(fact.name) in fact.values
        else (fact.name, fact.values[0])
        for fact in network.facts
    )


def units_put(network: Network, put: dict[str, str]) -> tuple[tuple[str, str], ...]:
    """Return a state for every control unit: as put, else the one it wakes in."""
    return tuple(
        (unit.name, told if (told := put.get(unit.name)) in unit.states else unit.states[0])
        for unit in network.units
    )


def _volts(
    wiring: Wiring, unit: Unit, mode: Mode, told: tuple[Board, Standing], on: frozenset[str]
) -> tuple[dict[str, float], Volts]:
    """Return the voltage across each load that is on, and across each other that gets some [V]."""
    own = electrics(wiring, unit)
    if own is None:
        return {}, ()
    board, seen = told
    built = with_fault(own.solved.circuit, board.fault)
    closed = frozenset(seen.closed) | frozenset(seen.alive)
    solved = flows(built, [(mode, closed)], board.network, wiring)
    inside = {one.name for one in built.elements}
    feed = float(np.nanmax(np.abs(solved.voltages[0]), initial=0.0))
    found, stray = dict[str, float](), list[tuple[str, float | None]]()
    for load in wiring.loads:
        if load.name not in inside:
            continue
        place = built.element(load.name)
        volts = abs(float(solved.across[0, place]))
        if not np.isfinite(volts) or solved.dropped[0, place]:
            continue
        if load.name in on:
            found[load.name] = volts
        elif volts > SHARE * feed and abs(float(solved.currents[0, place])) > LEAST_A:
            stray.append((load.name, volts))
    return found, tuple(stray)
