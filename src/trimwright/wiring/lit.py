"""One state of a wiring looked at: what works, what is live, what carries, and how many volts arrive."""

import numpy as np
from msgspec import Struct

from trimwright.build import OIL, Wiring
from trimwright.quantities import Unit
from trimwright.wiring.consumer import consumers
from trimwright.wiring.fact import NAMED_ENGINE, NO, YES
from trimwright.wiring.logic import Board, Fault, Network, Standing, at_rest
from trimwright.wiring.logic import paths as ways
from trimwright.wiring.metered import Met, Urged, befallen
from trimwright.wiring.mode import Mode
from trimwright.wiring.outcome import connections
from trimwright.wiring.rig import Rig, rig_of, stood
from trimwright.wiring.sneak import LEAST_A, SHARE

Volts = tuple[tuple[str, float | None], ...]


class Lit(Struct, frozen=True):
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
    urged : tuple of Urged
        Relays that do what the voltage at their coil asks, and not what contacts join it to.
    """

    live: frozenset[str]
    carries: frozenset[str]
    on: Volts
    stray: Volts = ()
    urged: tuple[Urged, ...] = ()


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
    begun = at_rest(board, facts_put(network, mode, put), units_put(network, put))
    looked = None if begun is None else looked_at(wiring, unit, mode, (board, begun))
    return None if looked is None else seen_lit(wiring, looked)


class Looked(Struct, frozen=True):
    """A state of rest: the contacts, what follows from it, and what is solved in it if anything is."""

    board: Board
    seen: Standing
    met: Met | None = None
    urged: tuple[Urged, ...] = ()


def looked_at(
    wiring: Wiring, unit: Unit, mode: Mode, told: tuple[Board, Standing]
) -> Looked | None:
    """Return a state of rest of some contacts as it is once coils have had their say.

    None where relays then find no rest.
    """
    rig, (board, begun) = rig_of(wiring, unit), told
    if rig is None or not _has(rig, board.fault):
        return Looked(board, begun)
    met, (settled,) = rig.met([stood(mode, begun, board.fault)])
    if settled.chatters:
        return None
    return Looked(board, board.standing(settled.state), met, settled.urged)


def seen_lit(wiring: Wiring, looked: Looked) -> Lit:
    """Return what is lit in a state of rest, with the fault of its board."""
    board, seen = looked.board, looked.seen
    live = {
        edge.name
        for edge in board.edges
        if edge.name in seen.closed and edge.a in seen.live and edge.b in seen.live
    }
    carries, names = {one.relay for one in looked.urged if one.pulls_in}, []
    for one in consumers(wiring):
        if board.holds(one.fed, seen) and one.name not in carries:
            (way,) = ways(board, seen, one.fed)
            carries |= {*way.to, *way.back, one.name}
            if not one.is_coil:
                names.append(one.name)
    volts, stray = ({}, ()) if looked.met is None else _volts(wiring, looked.met, frozenset(names))
    on = tuple((name, volts.get(name)) for name in names)
    return Lit(frozenset(live), frozenset(carries), on, stray, looked.urged)


def _has(rig: Rig, fault: Fault | None) -> bool:
    """Return whether a fault befalls something of the circuit that is solved."""
    return fault is None or befallen(fault) in {one.name for one in rig.circuit.elements}


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


def _volts(wiring: Wiring, met: Met, on: frozenset[str]) -> tuple[dict[str, float], Volts]:
    """Return the voltage across each load that is on, and across each other that gets some [V]."""
    place = met.of(0)
    if place is None:
        return {}, ()
    solved, row = place
    at = {one.name: number for number, one in enumerate(solved.circuit.elements)}
    feed = float(np.nanmax(np.abs(solved.voltages[row]), initial=0.0))
    found, stray = dict[str, float](), list[tuple[str, float | None]]()
    for name in (load.name for load in wiring.loads if load.name in at):
        volts = abs(float(solved.across[row, at[name]]))
        if not np.isfinite(volts) or solved.dropped[row, at[name]]:
            continue
        if name in on:
            found[name] = volts
        elif volts > SHARE * feed and abs(float(solved.currents[row, at[name]])) > LEAST_A:
            stray.append((name, volts))
    return found, tuple(stray)
