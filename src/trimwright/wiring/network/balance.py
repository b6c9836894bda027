"""What flows at the voltages of a circuit, and whether it adds up."""

from collections.abc import Sequence

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.wiring.network.circuit import Circuit
from trimwright.wiring.network.element import Alternator, Battery, ConstantPower, Lamp
from trimwright.wiring.network.law import DEAD_V, Laws
from trimwright.wiring.network.reduction import totalled
from trimwright.wiring.network.states import States

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

PORTS = (Lamp, Alternator, ConstantPower)  # whose resistance is not fixed
TOLERANCE = 1e-9  # of the currents that meet at a node
ROUNDING = 1e-12  # of the conductances at a node times the highest voltage


class Solved(Struct, frozen=True, eq=False):
    """What a circuit does in each state; arrays of shape (rows, nodes) or (rows, elements).

    Attributes
    ----------
    circuit : Circuit
        Names the columns.
    voltages : ndarray, shape (rows, nodes)
        Against the reference [V]; NaN where a node floats.
    across : ndarray, shape (rows, elements)
        From the plus to the minus end [V]; NaN where these do not hang together.
    currents : ndarray, shape (rows, elements)
        From the plus to the minus end through the element, a short beside it counted [A]. A
        source that gives has a negative current.
    heat : ndarray, shape (rows, elements)
        What becomes warm in the element or is used by it [W]; of a source, inside it.
    floating : ndarray of bool, shape (rows, nodes)
        Nodes with no way to the reference through anything that conducts. A constant-power load
        does not count: with one end floating it takes nothing.
    dropped : ndarray of bool, shape (rows, elements)
        Constant-power loads with a way for their current that are off for lack of voltage.
    hunting : ndarray of bool, shape (rows, elements)
        Those of them that stand at or above their cut-out as long as they are off.
    limited : ndarray of bool, shape (rows, elements)
        Alternators that give the most they can.
    collapsed : ndarray of bool, shape (rows, elements)
        Marks, in a state without a solution, the load that asks most of what its feed can carry:
        the voltage collapses. All voltages, currents and heat of the state are NaN.
    residual : ndarray, shape (rows,)
        The worst node's sum of currents, in share of the currents that meet there, beyond what
        rounding explains.
    failed : ndarray of bool, shape (rows,)
        States whose residual is above 1e-9, by which they are not solved: their figures are NaN.
    """

    circuit: Circuit
    voltages: Floats
    across: Floats
    currents: Floats
    heat: Floats
    floating: Bools
    dropped: Bools
    hunting: Bools
    limited: Bools
    collapsed: Bools
    residual: Floats
    failed: Bools

    def __post_init__(self) -> None:
        """Make the arrays read-only."""
        for name in self.__struct_fields__[1:]:
            getattr(self, name).flags.writeable = False

    def rows_of(self, which: slice | Bools | NDArray[np.intp]) -> "Solved":
        """Return some of the states."""
        names = self.__struct_fields__[1:]
        return Solved(self.circuit, *(getattr(self, name)[which] for name in names))

    def with_rows(self, numbers: NDArray[np.intp], other: "Solved") -> "Solved":
        """Return the states with some of them put in the place of those of these numbers."""
        told = []
        for name in self.__struct_fields__[1:]:
            array = getattr(self, name).copy()
            array[numbers] = getattr(other, name)
            told.append(array)
        return Solved(self.circuit, *told)


def joined(parts: Sequence[Solved]) -> Solved:
    """Return states of one circuit that were solved in parts, one after the other."""
    names = Solved.__struct_fields__[1:]
    told = (np.concatenate([getattr(part, name) for part in parts]) for name in names)
    return Solved(parts[0].circuit, *told)


def laws(circuit: Circuit, states: States) -> Laws:
    """Return the laws of all elements of a circuit; those of fixed resistance have none."""
    kinds = [circuit.kind(kind) for kind in PORTS]
    return Laws.of(kinds[0], kinds[1], kinds[2], states)


class Flow(Struct, frozen=True, eq=False):
    """Voltages of a circuit's nodes, each part's against its own foot, and what hangs together."""

    circuit: Circuit
    states: States
    voltages: Floats  # (rows, nodes) [V]
    floating: Bools  # (rows, nodes)
    linked: Bools  # (rows, elements) whose ends hang together

    def own_currents(self, across: Floats, on: Bools) -> Floats:
        """Return what each element takes, a short beside it left out [A]."""
        circuit, states = self.circuit, self.states
        driven = np.where(circuit.kind(Battery), states.volts, 0.0)
        amps, _ = laws(circuit, states).currents(across, on)
        return np.where(circuit.kind(*PORTS), amps, states.siemens * (across - driven))

    def residual(self, currents: Floats) -> Floats:
        """Return the worst sum of currents at a node, as `Solved.residual` tells it."""
        states, ends, nodes = self.states, self.circuit.ends, len(self.circuit.nodes)
        conducts = states.siemens + states.cold_siemens + states.bypass
        driven = np.max(
            np.abs(states.volts), axis=1, initial=0.0
        )  # of no element: nothing conducts
        highest = np.max(np.abs(self.voltages), axis=1) + driven
        doubts = ROUNDING * conducts * highest[:, None]
        doubt = totalled(ends, doubts, doubts, nodes)
        over = np.abs(totalled(ends, currents, -currents, nodes)) - doubt
        meets = totalled(ends, np.abs(currents), np.abs(currents), nodes)
        share = np.zeros_like(over)
        np.divide(over, meets, out=share, where=over > 0)
        return np.asarray(np.max(share, axis=1))


class Running(Struct, frozen=True, eq=False):
    """Which constant-power loads are switched on, which run and which bring the voltage down.

    All of shape (rows, elements); `reached`, (rows,), tells where the search came to its end.
    """

    wanted: Bools
    on: Bools
    collapsed: Bools
    reached: Bools


def accounted(flow: Flow, running: Running) -> Solved:
    """Return the whole of what a circuit does, with figures only where its currents add up."""
    circuit, states, ends = flow.circuit, flow.states, flow.circuit.ends
    across = flow.voltages[:, ends[:, 0]] - flow.voltages[:, ends[:, 1]]
    across = np.where(flow.linked, across, 0.0)
    own = flow.own_currents(across, running.on)
    currents = own + states.bypass * across
    warm = across * own
    source = circuit.kind(Battery, Alternator)
    np.divide(own**2, states.siemens, out=warm, where=source & (states.siemens > 0))
    heat = warm + states.bypass * across**2
    residual = flow.residual(currents)
    falls = running.collapsed.any(axis=1)
    failed = ~falls & ~(running.reached & (residual <= TOLERANCE))
    void = (falls | failed)[:, None]
    off = running.wanted & ~running.on & ~void
    return Solved(
        circuit,
        voltages=np.where(flow.floating | void, np.nan, flow.voltages),
        across=np.where(flow.linked & ~void, across, np.nan),
        currents=np.where(void, np.nan, currents),
        heat=np.where(void, np.nan, heat),
        floating=flow.floating,
        dropped=off,
        hunting=off & (across > DEAD_V) & (across >= states.volts),
        limited=circuit.kind(Alternator) & (-own >= states.most_a) & (own < 0) & ~void,
        collapsed=running.collapsed,
        residual=np.where(falls, np.nan, residual),
        failed=failed,
    )
