"""The voltages, currents and heat of a circuit in many states at once."""

from itertools import pairwise

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.wiring.network.balance import (
    PORTS,
    Flow,
    Running,
    Solved,
    accounted,
    joined,
)
from trimwright.wiring.network.circuit import Circuit
from trimwright.wiring.network.cut_out import settled
from trimwright.wiring.network.descent import Core
from trimwright.wiring.network.element import Alternator, Battery, ConstantPower
from trimwright.wiring.network.island import islands
from trimwright.wiring.network.law import Laws
from trimwright.wiring.network.reduction import (
    Branches,
    Taken,
    branches,
    stamped,
    thinned,
    totalled,
)
from trimwright.wiring.network.states import States

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Whole = NDArray[np.intp]

FIGURES = 2**24  # how many figures of matrices are held at once, about


def solve(circuit: Circuit, states: States) -> Solved:
    """Return what a circuit does in each of many states.

    Nodes between elements of fixed resistance are taken out, first those that have no more than two
    branches, all states and many nodes at once. What is left is seen from lamps, alternators and
    constant-power loads alone. A floating part with a source of its own has currents, though its
    voltages against the reference are unknown.

    Parameters
    ----------
    circuit : Circuit
        What stands between which nodes.
    states : States
        From `circuit.states`, changed or not; at least one row.

    Returns
    -------
    Solved
        Of which the solution with loads is the upper one, see `descended`, and the loads that are
        on the most that can be, see `settled`.

    Raises
    ------
    ValueError
        If `states` has no rows, or another number of elements than the circuit.

    Notes
    -----
    Conductances that differ by more than about 1e10 in one circuit cost more digits than a
    millionth of the feed voltage allows.

    Examples
    --------
    >>> from trimwright.wiring.network import Battery, Circuit, Resistor
    >>> circuit = Circuit("post", (
    ...     Battery("battery", "feed", "post", 12.6, 0.01),
    ...     Resistor("wire", "feed", "lamp", 0.09),
    ...     Resistor("bulb", "lamp", "post", 2.9),
    ... ))
    >>> solved = solve(circuit, circuit.states())
    >>> float(solved.across[0, circuit.element("bulb")].round(6))
    12.18
    """
    if states.siemens.shape[1] != len(circuit.elements) or not states.rows:
        raise ValueError(
            f"states must have a row and {len(circuit.elements)} elements, "
            f"got shape {states.siemens.shape}"
        )
    step = max(1, FIGURES // len(circuit.nodes) ** 2)
    starts = range(0, states.rows, step)
    parts = [_solved(circuit, states.rows_of(slice(at, at + step))) for at in starts]
    return joined(parts)


class _Ports(Struct, frozen=True, eq=False):
    """The elements of a circuit that have no fixed resistance, those of a kind side by side."""

    numbers: Whole  # in the circuit
    laws: Laws

    def of(self, figures: Floats, more: Floats) -> Floats:
        """Return figures (rows, elements) of a circuit with some for these added to them."""
        told = figures.copy()
        told[:, self.numbers] += more
        return told


def _ports(circuit: Circuit, states: States) -> _Ports:
    live = np.any((states.siemens > 0) | (states.watts > 0), axis=0)
    kinds = [np.flatnonzero(circuit.kind(kind) & live) for kind in PORTS]
    past = np.cumsum([0, *map(len, kinds)]).tolist()
    lamp, alternator, load = (slice(*pair) for pair in pairwise(past))
    numbers = np.concatenate(kinds)
    return _Ports(numbers, Laws.of(lamp, alternator, load, states.elements_of(numbers)))


class _Left(Struct, frozen=True, eq=False):
    """A circuit as its ports see it, and how the voltages of its nodes follow from what they draw.

    `solved`, shape (rows, left, ports + 1), holds how much an ampere at each port lowers the
    voltages of the nodes that are left [ohm], and last those voltages while none is drawn [V];
    `labels`, shape (rows, nodes), tells what hangs together, 0 what hangs on the reference.
    """

    ends: Whole  # of the ports, among the nodes that are left
    left: Bools
    taken: tuple[Taken, ...]
    solved: Floats
    labels: Whole

    def across(self) -> Floats:
        """Return what `solved` holds from the plus to the minus end of each port."""
        plus, minus = self.ends.T
        return np.asarray(self.solved[:, plus] - self.solved[:, minus])

    def voltages(self, drawn: Floats) -> Floats:
        """Return the voltages of all nodes, shape (rows, nodes) [V]."""
        there = self.solved[:, :, -1] - (self.solved[:, :, :-1] @ drawn[:, :, None])[:, :, 0]
        found = np.zeros((len(self.left), len(drawn)))
        found[self.left] = there.T
        for one in self.taken:
            one.put_back(found)
        return np.ascontiguousarray(found.T)


def _left(circuit: Circuit, states: States, ports: _Ports) -> _Left:
    """Take out all nodes but those of ports, and solve what is left for a current at each port."""
    ends, nodes, at = circuit.ends, len(circuit.nodes), ports.numbers
    own = np.where(circuit.kind(*PORTS), 0.0, states.siemens)
    fixed = own + states.bypass
    mho = ports.laws.siemens
    amps = np.where(circuit.kind(Battery), own * states.volts, 0.0)
    amps = ports.of(amps, ports.laws.pushed)
    some, keep = np.any(fixed > 0, axis=0), np.arange(nodes) == 0
    keep[ends[at]] = True
    inflow = totalled(ends, amps, -amps, nodes)
    network, left, taken = thinned(branches(ends[some], fixed[:, some], inflow), keep)
    order = np.argsort(~left, kind="stable")  # the nodes that are left come first
    places = np.argsort(order)
    labels = islands(places[ends], ports.of(fixed, mho) > 0, nodes)
    solved = _unit_drawn(network, left, places[ends[at]], (mho, labels))
    return _Left(places[ends[at]], left, taken, solved, labels[:, places])


def _unit_drawn(network: Branches, left: Bools, ports: Whole, told: tuple[Floats, Whole]) -> Floats:
    """Return what an ampere at each port does to the nodes that are left, see `_Left`.

    `told` are the conductances that the ports are taken for [S], and what hangs together.
    """
    mho, labels = told
    count, number = int(left.sum()), np.cumsum(left) - 1
    matrix = stamped(number[network.ends], network.siemens.T, count) + stamped(ports, mho, count)
    inner = np.arange(count)
    matrix[:, inner, inner] += labels[:, :count] == inner  # 1 S holds a foot of each part
    right = np.zeros((len(mho), count, len(ports) + 1))
    right[:, ports[:, 0], np.arange(len(ports))] = 1.0
    right[:, ports[:, 1], np.arange(len(ports))] -= 1.0
    right[:, :, -1] = network.inflow[left].T
    solved = np.zeros_like(right)
    solved[:, 1:] = np.linalg.solve(matrix[:, 1:, 1:], right[:, 1:])
    return solved


def _solved(circuit: Circuit, states: States) -> Solved:
    ports = _ports(circuit, states)
    own = _left(circuit, states, ports)
    sources = circuit.kind(Battery, Alternator) & (states.siemens > 0)
    feed_v = np.max(np.abs(states.volts), axis=1, where=sources, initial=0.0)
    seen = own.across()
    core = Core(seen[:, :, -1], np.ascontiguousarray(seen[:, :, :-1]), ports.laws, feed_v)
    plus, minus = circuit.ends.T
    linked = own.labels[:, plus] == own.labels[:, minus]
    wanted = circuit.kind(ConstantPower) & linked & (states.watts > 0)
    found = settled(core, wanted[:, ports.numbers])
    runs = np.zeros_like(wanted), np.zeros_like(wanted)
    runs[0][:, ports.numbers], runs[1][:, ports.numbers] = found.on, found.collapsed
    return accounted(
        Flow(circuit, states, own.voltages(found.drawn), own.labels > 0, linked),
        Running(wanted, *runs, found.reached),
    )
