"""A build's wiring as a circuit: every wire, contact, fuse, coil and load with its resistance."""

from collections.abc import Callable, Iterator, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from trimwright.build import Wiring
from trimwright.wiring.consumer import ends_of, load_element
from trimwright.wiring.contacts import B_PLUS, BATTERY, MINUS, ends, merged, supplied
from trimwright.wiring.logic import Network, switched
from trimwright.wiring.loom import Loom
from trimwright.wiring.mode import Mode
from trimwright.wiring.network import (
    Alternator,
    Battery,
    Circuit,
    Element,
    Resistor,
    Solved,
    States,
    solve,
)

BODY = "body"
CONTACT_OHM = 0.005  # of a switch or relay contact; common practice, no source
FUSE_V = 0.1  # that a fuse loses at its rating; common practice, no source
STRAP_OHM = 0.001  # battery to body where no path says so; common practice, no source
ALTERNATOR_OHM = 0.02  # behind its regulated voltage; common practice, no source
CELL_V = 2.1  # of a charged lead-acid cell at rest; common practice, no source
CRANKED_V = 1.2  # of a cell at the end of a cold cranking test [SAE J537, from memory]
SHORTED_A = 5000.0  # more than any battery here gives: a bound that never binds
STARTER = "starter"
HELPING = "battery beside the alternator"
AT_MOST = "alternator at its most"
PUSH_V = 1000.0  # behind so many ohms that it gives its most, whatever voltage it meets, to 1.5 %


def inside_ohm(wiring: Wiring) -> float | None:
    """Return the battery's inner resistance [ohm]: as written, else from its cranking current."""
    battery = wiring.battery
    if battery is None:
        return None
    if battery.inside is not None:
        return battery.inside.value
    if battery.cranks is not None:
        volts = battery.volts.value
        return (volts - CRANKED_V * round(volts / CELL_V)) / battery.cranks.value
    return None


def circuit(
    wiring: Wiring, loom: Loom, contacts: Network, ohms: Mapping[str, float]
) -> Circuit | None:
    """Return the circuit of a wiring.

    Parameters
    ----------
    wiring, loom : Wiring, Loom
        The build's, and its wires.
    contacts : Network
        The same as contacts: each becomes a resistor of its name.
    ohms : mapping of str to float
        Resistance of each wire by its name [ohm].

    Returns
    -------
    Circuit or None
        None where the battery, or what is inside it, is not written.
    """
    inside = inside_ohm(wiring)
    if wiring.battery is None or inside is None:
        return None
    one_of, used = merged(loom), ends(loom)
    found: list[Element] = [
        Battery("battery", BATTERY, MINUS, wiring.battery.volts.value, inside),
        # beside an alternator it is charged: it helps out, and takes next to nothing in
        Alternator(HELPING, BATTERY, MINUS, wiring.battery.volts.value, inside, SHORTED_A),
        Resistor(
            STARTER, BATTERY, MINUS, wiring.battery.volts.value / wiring.battery.starter_takes.value
        ),
    ]
    found += _alternator(wiring, used)
    for join in contacts.joins:
        if join.kind == "wire":
            found.append(Resistor(join.name, join.a, join.b, ohms[join.name]))
    rated = {fuse.name: fuse.rated.value for fuse in wiring.fuses}
    found += [
        Resistor(join.name, join.a, join.b, FUSE_V / rated[join.name])
        for join in contacts.joins
        if join.kind == "fuse"
    ]
    behind = {feed.name: feed.behind.value for feed in wiring.feeds}
    found += [
        Resistor(one.name, one.a, one.b, behind.get(one.name, CONTACT_OHM))
        for one in switched(contacts)
    ]
    found += [
        Resistor(
            feed.name,
            BATTERY,
            one_of.get(f"{feed.name} out", f"{feed.name} out"),
            feed.behind.value,
        )
        for feed in wiring.feeds
        if not supplied(feed, used)
    ]
    found += _ground(wiring, used)
    coils = {relay.name: relay.coil.value for relay in wiring.relays}
    found += [Resistor(coil.relay, coil.a, coil.b, coils[coil.relay]) for coil in contacts.coils]
    for load in wiring.loads:
        at = tuple(one_of.get(end, end) for end in ends_of(load))
        element = load_element(load, (at[0], at[1]))
        found += [element] if element else []
    return Circuit(MINUS, tuple(found))


def _alternator(wiring: Wiring, used: set[str]) -> Iterator[Element]:
    """Yield what an alternator gives, and its D+ which it holds at the same voltage."""
    own = wiring.alternator
    if own is None:
        return
    plus = B_PLUS if B_PLUS in used else BATTERY
    minus = "alternator B-" if "alternator B-" in used else BODY
    yield Alternator("alternator", plus, minus, own.holds.value, ALTERNATOR_OHM, own.gives.value)
    yield Battery(AT_MOST, plus, minus, PUSH_V, PUSH_V / own.gives.value)
    if "alternator D+" in used:
        yield Resistor("alternator D+ live", "alternator D+", plus, CONTACT_OHM)


def _ground(wiring: Wiring, used: set[str]) -> Iterator[Element]:
    """Yield the body: each ground point to it, and it to the battery."""
    for ground in wiring.grounds:
        yield Resistor(
            f"{ground.name} to body", f"{ground.name} stud", BODY, ground.to_battery.value
        )
    if MINUS not in used:
        yield Resistor("battery to body", BODY, MINUS, STRAP_OHM)


def flows(
    built: Circuit, rows: list[tuple[Mode, frozenset[str]]], contacts: Network, wiring: Wiring
) -> Solved:
    """Return what flows in some states.

    Beside an alternator that holds its voltage the battery takes nothing. Where the alternator is
    at its limit, the state is solved anew with the alternator at its most and the battery open both
    ways: what is left over charges it, what lacks it gives.

    Parameters
    ----------
    built : Circuit
        From `circuit`.
    rows : list
        A mode, and the names of all contacts that are closed and feeds that are alive.
    contacts : Network
        Whose contacts open.
    wiring : Wiring
        For what the alternator gives at hot idle.
    """

    def at_most(over: NDArray[np.intp]) -> Solved:
        again = [rows[number] for number in over.tolist()]
        return solve(built, states(built, again, contacts, wiring, frozenset(range(len(over)))))

    held = solve(built, states(built, rows, contacts, wiring))
    return limited(held, [mode for mode, _ in rows], at_most)


def limited(
    held: Solved, modes: Sequence[Mode], at_most: Callable[[NDArray[np.intp]], Solved]
) -> Solved:
    """Return states solved beside an alternator that holds its voltage, or at its most where it must.

    `at_most` solves the states of some numbers anew beside one at its most.
    """
    over = np.flatnonzero(may_be_over(held, modes))
    if not len(over):
        return held
    most = at_most(over)
    kept = is_over(held.rows_of(over), most)
    return held.with_rows(over[kept], most.rows_of(kept))


def may_be_over(solved: Solved, modes: Sequence[Mode]) -> NDArray[np.bool_]:
    """Return in which states a turning alternator may be asked for more than it gives."""
    own = np.array([one.name == "alternator" for one in solved.circuit.elements], np.bool_)
    turns = np.array([one.engine == "running" for one in modes], np.bool_) & own.any()
    return np.asarray(turns & (_sagging(solved) | solved.dropped.any(axis=1)))


def is_over(held: Solved, most: Solved) -> NDArray[np.bool_]:
    """Return in which states the alternator gives its most: of two solutions, the second counts.

    `held` is beside an alternator that holds its voltage, `most` beside one at its most. Where the
    first is not at its limit and something lets go, it is the second if less lets go in it: a load
    that lets go in both does so for a bad crimp of its own, and leaves the voltage as it is.
    """
    fewer = most.dropped.sum(axis=1) < held.dropped.sum(axis=1)
    return np.asarray(_sagging(held) | fewer)


def _sagging(solved: Solved) -> NDArray[np.bool_]:
    """Return in which states the alternator is at its limit, or nothing is solved with it."""
    own = np.array([one.name == "alternator" for one in solved.circuit.elements], np.bool_)
    limited = (solved.limited & own).any(axis=1)
    return np.asarray(limited | solved.collapsed.any(axis=1) | solved.failed)


def states(
    built: Circuit,
    rows: list[tuple[Mode, frozenset[str]]],
    contacts: Network,
    wiring: Wiring,
    at_most: frozenset[int] = frozenset(),
) -> States:
    """Return the circuit's states: a row each for a mode and the contacts that are closed in it.

    `at_most` are the rows in which the alternator gives all it can; see `flows` for the others.
    """
    position = {one.name: n for n, one in enumerate(built.elements)}
    opened = np.zeros((len(rows), len(built.elements)), dtype=bool)
    own = {feed.name for feed in wiring.feeds}
    names = [one.name for one in switched(contacts)]
    names += [one.name for one in contacts.feeds if one.name in own]
    shut = [[name not in closed for name in names] for _, closed in rows]
    opened[:, [position[name] for name in names]] = np.array(shut, dtype=bool)
    most = np.array([number in at_most for number in range(len(rows))], dtype=bool)
    _supplied(opened, [mode for mode, _ in rows], position, at_most=most)
    found = built.states(len(rows)).opened(opened)
    return _idling(found, rows, position, wiring)


def _supplied(
    opened: NDArray[np.bool_],
    modes: list[Mode],
    position: Mapping[str, int],
    *,
    at_most: NDArray[np.bool_],
) -> None:
    """Open what does not turn: the starter but while cranking, the alternator but while running."""
    opened[:, position[STARTER]] = [mode.engine != "cranking" for mode in modes]
    runs = np.array([mode.engine == "running" for mode in modes], dtype=bool)
    runs &= "alternator" in position
    opened[:, position["battery"]] = runs & ~at_most
    for name, on in (
        (HELPING, runs & ~at_most),
        ("alternator", runs & ~at_most),
        (AT_MOST, runs & at_most),
        ("alternator D+ live", runs),
    ):
        if name in position:
            opened[:, position[name]] = ~on


def _idling(
    found: States,
    rows: list[tuple[Mode, frozenset[str]]],
    position: Mapping[str, int],
    wiring: Wiring,
) -> States:
    """Return the states with what the alternator gives hot and idling, where that is written."""
    own = wiring.alternator
    if own is None or own.at_idle is None:
        return found
    idle = np.zeros_like(found.siemens, dtype=bool)
    most = found.most_a.copy()
    for number, (mode, _) in enumerate(rows):
        if mode.supply == "idle":
            most[number, position["alternator"]] = own.at_idle.value
            idle[number, position[AT_MOST]] = found.siemens[number, position[AT_MOST]] > 0
    told = States(found.siemens, found.volts, found.watts, most, found.cold_siemens, found.bypass)
    return told.given(idle, ohms=PUSH_V / own.at_idle.value)
