"""A circuit as a meter finds it: states to be solved, and what stands between two of its nodes."""

from collections.abc import Collection, Iterator, Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright.build import Wiring
from trimwright.wiring.contacts import MINUS
from trimwright.wiring.electric import HELPING, states
from trimwright.wiring.logic import Fault, Network, State
from trimwright.wiring.mode import Mode
from trimwright.wiring.network import Alternator, Circuit, ConstantPower, Solved, States

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Whole = NDArray[np.intp]

CRIMP_OHM = 0.5  # of a bad crimp
ASLEEP_OHM = 1e4  # through electronics that are off; common practice, no source
REGULATED_V = 0.3  # about what an alternator is regulated to; common practice, no source


class Urged(Struct, frozen=True):
    """A relay that does what the voltage at its coil asks, and not what contacts join it to."""

    relay: str
    volts: float
    pulls_in: bool


class Stand(Struct, frozen=True):
    """How the car stands, its relays settled.

    Attributes
    ----------
    mode : Mode
        The key, the engine and what supplies it.
    state : State
        Facts, relays that are pulled in, units.
    closed : frozenset of str
        What is closed or alive.
    fault : Fault or None
        What is wrong.
    urged : tuple of Urged
        The relays that did as the voltage at their coil asked.
    chatters : str
        A relay that finds no rest; '' where all do.
    """

    mode: Mode
    state: State
    closed: frozenset[str]
    fault: Fault | None = None
    urged: tuple[Urged, ...] = ()
    chatters: str = ""


def metered(
    circuit: Circuit,
    stands: Sequence[Stand],
    network: Network,
    wiring: Wiring,
    *,
    at_most: bool = False,
) -> States:
    """Return the states of some stands, each with its fault.

    What is broken is open, a bad crimp has 0.5 ohm more; a contact at fault stands as the contact
    logic has it. Electronics run where their voltage lets them, whatever it comes through. A little
    passes through them though they are off, which lifts a terminal that has lost its ground to what
    a meter shows there, and leaves nothing at a terminal that has lost its feed.

    Parameters
    ----------
    circuit, stands, network, wiring : Circuit, sequence of Stand, Network, Wiring
        The wiring and how the car stands, a row each.
    at_most : bool
        Whether a turning alternator gives all that it can, see `flows`.
    """
    asked = [(one.mode, one.closed) for one in stands]
    rows = frozenset(range(len(stands))) if at_most else frozenset[int]()
    found = states(circuit, asked, network, wiring, rows)
    found = found.shorted(circuit.kind(ConstantPower), ASLEEP_OHM)
    at = {one.name: number for number, one in enumerate(circuit.elements)}
    opened = np.zeros(found.siemens.shape, np.bool_)
    crimped = np.zeros(found.siemens.shape, np.bool_)
    for row, one in enumerate(stands):
        if one.fault is not None and not one.fault.kind.startswith("contact"):
            where = crimped if one.fault.kind == "bad crimp" else opened
            where[row, at[befallen(one.fault)]] = True
    with_crimps = CRIMP_OHM + 1 / np.where(crimped, found.siemens, 1.0)
    return found.given(crimped, ohms=with_crimps).opened(opened)


def befallen(fault: Fault) -> str:
    """Return the element of the circuit that a fault befalls."""
    stud = fault.of.removesuffix(" stud")
    return f"{stud} to body" if fault.kind == "ground lost" else fault.of


def varied(
    circuit: Circuit,
    given: States,
    loads: Collection[str],
    factors: tuple[Floats, Floats, Floats],
) -> States:
    """Return states with another battery voltage and with resistances times a factor.

    Parameters
    ----------
    circuit, given : Circuit, States
        What is varied.
    loads : collection of str
        The elements that current is for; all others lie on its way.
    factors : tuple of ndarray, shape (rows,)
        On the battery's voltage, on the resistance of what lies on the way, on that of loads. An
        alternator's regulated voltage goes up or down with the battery's, by what regulators do.
    """
    battery, way, load = (one[:, None] for one in factors)
    names = [one.name for one in circuit.elements]
    posts = np.array([name in ("battery", HELPING) for name in names])
    charged = circuit.kind(Alternator) & ~posts
    factor = np.where([name in loads for name in names], load, way)
    volts = np.where(posts, given.volts * battery, given.volts)
    volts = np.where(charged, volts + np.sign(battery - 1) * REGULATED_V, volts)
    return replace(
        given,
        siemens=given.siemens / factor,
        cold_siemens=given.cold_siemens / factor,
        watts=given.watts / load,
        volts=volts,
    )


class Met:
    """Voltages and currents in some states, solved in parts; what is in no part floats."""

    def __init__(self, rows: int, parts: Sequence[tuple[Whole, Solved]]) -> None:
        """Lay the parts out: of each, which of the states it tells of."""
        self.parts = tuple(parts)
        self.void = np.ones(rows, np.bool_)
        for numbers, solved in parts:
            self.void[numbers] = solved.failed | solved.collapsed.any(axis=1)

    def reading(self, red: str, black: str) -> Floats:
        """Return what a meter shows between two nodes in every state [V]; NaN where unsolved.

        Where a node hangs on nothing, the meter itself draws it to its other probe: it shows 0.
        """
        volts = self.at(red) - self.at(black)
        return np.where(self.void, np.nan, np.nan_to_num(volts))

    def at(self, node: str) -> Floats:
        """Return a node's voltage in every state [V]; NaN where it floats."""
        found = np.full(len(self.void), np.nan)
        for numbers, solved in self.parts:
            nodes = solved.circuit.nodes
            if node == MINUS or node in nodes:
                found[numbers] = solved.voltages[:, 0 if node == MINUS else nodes.index(node)]
        return found

    def of(self, number: int) -> tuple[Solved, int] | None:
        """Return where a state is solved, and which row of that it is; None if it is not."""
        for numbers, solved in self.parts:
            for row in np.flatnonzero(numbers == number):
                return solved, int(row)
        return None

    def some(self, which: Bools, numbers: Whole) -> Iterator[tuple[Whole, Solved]]:
        """Yield the parts with some of their states only, and all states given other numbers."""
        for rows, solved in self.parts:
            kept = which[rows]
            if kept.any():
                yield numbers[rows[kept]], solved.rows_of(kept)


def carrying(solved: Solved, row: int, least_a: float) -> frozenset[str]:
    """Return the names of the elements that carry a current of so much or more in a state."""
    amps = np.abs(np.nan_to_num(solved.currents[row]))
    return frozenset(
        one.name
        for one, flows in zip(solved.circuit.elements, amps, strict=True)
        if flows >= least_a
    )
