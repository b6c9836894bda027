"""The voltages, currents and heat of a circuit in many states at once."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from trimwright.wiring.network.balance import (
    PORTS,
    Flow,
    Running,
    Solved,
    accounted,
    joined,
    laws,
)
from trimwright.wiring.network.circuit import Circuit
from trimwright.wiring.network.cut_out import settled
from trimwright.wiring.network.descent import Core
from trimwright.wiring.network.element import Alternator, Battery, ConstantPower
from trimwright.wiring.network.island import islands
from trimwright.wiring.network.reduction import Network, Taken, reduced, stamped, totalled
from trimwright.wiring.network.states import States

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Whole = NDArray[np.intp]

FIGURES = 2**24  # how many figures of matrices are held at once, about


def solve(circuit: Circuit, states: States) -> Solved:
    """Return what a circuit does in each of many states.

    Nodes between elements that are the same in all states and have a fixed resistance are taken
    out once for all states, those between other fixed resistances once a state; what is left has
    only the nodes of lamps, alternators and constant-power loads. A floating part with a source
    of its own has currents, though its voltages against the reference are unknown.

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


@dataclass(frozen=True, slots=True, eq=False)
class _Layout:
    """Nodes in the order in which they are kept: the reference, those of loads, of what varies."""

    order: Whole  # (nodes,) positions in the circuit
    ends: Whole  # (elements, 2) in that order
    port: Bools  # (elements,) lamps, alternators, constant-power loads
    varies: Bools  # (elements,) fixed resistances that differ between the states
    core: int  # how many nodes are the reference or a port's
    common: int  # how many are these or of what varies


def _fixed(circuit: Circuit, states: States) -> tuple[Floats, Floats]:
    """Return conductances [S] and driven currents [A] of fixed resistances, (rows, elements)."""
    own = np.where(circuit.kind(*PORTS), 0.0, states.siemens)
    return own + states.bypass, np.where(circuit.kind(Battery), own * states.volts, 0.0)


def _layout(circuit: Circuit, states: States) -> _Layout:
    fixed, driven = _fixed(circuit, states)
    live = np.any((states.siemens > 0) | (states.watts > 0), axis=0)
    port = circuit.kind(*PORTS) & live
    varies = np.any((fixed != fixed[0]) | (driven != driven[0]), axis=0)
    tier = np.full(len(circuit.nodes), 3)
    tier[circuit.ends[varies]] = 2
    tier[circuit.ends[port]] = 1
    tier[0] = 0
    order = np.argsort(tier, kind="stable")
    places = np.empty_like(order)
    places[order] = np.arange(len(order))
    kept = [int(np.sum(tier <= most)) for most in (1, 2)]
    return _Layout(order, places[circuit.ends], port, varies, *kept)


def _held(labels: Whole) -> Floats:
    """Return 1 S for a node of each part that hangs on nothing, to give its voltages a foot."""
    own = labels == np.arange(labels.shape[1])
    return np.asarray(own, np.float64)


def _core(
    layout: _Layout, fixed: Floats, driven: Floats, held: Floats
) -> tuple[Network, Taken, Taken]:
    """Return what is left of the network once all nodes but those of ports are taken out."""
    ends, varies, nodes = layout.ends, layout.varies, held.shape[1]
    same = ~varies
    amps = driven[:1, same]
    network = Network(
        stamped(ends[same], fixed[:1, same], nodes), totalled(ends[same], amps, -amps, nodes)
    )
    inner = np.arange(layout.common, nodes)
    network.matrix[:, inner, inner] += held[:1, inner]
    network, first = reduced(network, layout.common)
    kept = layout.common
    matrix = network.matrix + stamped(ends[varies], fixed[:, varies], kept)
    amps = driven[:, varies]
    inflow = network.inflow + totalled(ends[varies], amps, -amps, kept)
    outer = np.arange(kept)
    matrix[:, outer, outer] += held[:, outer]
    network, second = reduced(Network(matrix, inflow), layout.core)
    return network, first, second


def _solved(circuit: Circuit, states: States) -> Solved:
    layout = _layout(circuit, states)
    fixed, driven = _fixed(circuit, states)
    joins = (fixed > 0) | ((states.siemens > 0) & layout.port)
    labels = islands(layout.ends, joins, len(circuit.nodes))
    network, first, second = _core(layout, fixed, driven, _held(labels))
    sources = circuit.kind(Battery, Alternator) & (states.siemens > 0)
    feed_v = np.max(np.abs(states.volts), axis=1, where=sources, initial=0.0)
    ports = laws(circuit, states).elements_of(layout.port)
    core = Core(network, layout.ends[layout.port], ports, feed_v)
    plus, minus = layout.ends.T
    linked = labels[:, plus] == labels[:, minus]
    wanted = circuit.kind(ConstantPower) & linked & (states.watts > 0)
    found = settled(core, wanted[:, layout.port])
    ordered = first.voltages(second.voltages(found.voltages))
    voltages, floating = np.empty_like(ordered), np.empty(labels.shape, np.bool_)
    voltages[:, layout.order], floating[:, layout.order] = ordered, labels > 0
    runs = np.zeros_like(wanted), np.zeros_like(wanted)
    runs[0][:, layout.port], runs[1][:, layout.port] = found.on, found.collapsed
    return accounted(
        Flow(circuit, states, voltages, floating, linked), Running(wanted, *runs, found.reached)
    )
