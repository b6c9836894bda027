"""The states in which each wire is shorted: where it carries most of what it is there for."""

from collections.abc import Iterator

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.wiring.contacts import merged
from trimwright.wiring.logic import And, Board, Condition, Live, Network, Prover, State, Walker
from trimwright.wiring.loom import Loom, Wire
from trimwright.wiring.mode import MODES
from trimwright.wiring.network import Circuit, Solved, islands
from trimwright.wiring.use import Row, led_to

Bools = NDArray[np.bool_]

LIVE_V = 1.0  # above the battery's post, from which on a terminal is not ground
NEAR = 0.5  # of the most that a wire carries: there it is on the way it is meant for


class Ways(Struct, frozen=True):
    """Rows, and for each wire the one in which most flows to the body and that in which least does.

    None for a wire that is live in no state.
    """

    rows: tuple[Row, ...]
    of: tuple[tuple[int | None, int | None], ...]


def node_names(wire: Wire, loom: Loom) -> tuple[str, str]:
    """Return the nodes of the network at a wire's ends."""
    one_of = merged(loom)
    start, end = (one_of.get(one.node, one.node) for one in (wire.start, wire.end))
    return start, end


def ways(loom: Loom, network: Network, rows: tuple[Row, ...], solved: Solved) -> Ways:
    """Return the states in which each wire is shorted; as few of them as serve all wires."""
    circuit = solved.circuit
    places = [circuit.element(one.name) for one in loom.wires]
    carried = _Carried(
        rows,
        np.abs(np.nan_to_num(solved.voltages[:, circuit.ends[places]])).max(axis=2),
        np.abs(np.nan_to_num(solved.currents[:, places])),
    )
    running = carried.chosen([n for n, one in enumerate(rows) if one.mode.supply == "speed"])
    stopped = carried.chosen([n for n, one in enumerate(rows) if one.mode.engine == "stopped"])
    cranked = carried.chosen([n for n, one in enumerate(rows) if one.mode.engine == "cranking"])
    told: list[tuple[int | None, int | None]] = []
    for run, stop, crank in zip(running, stopped, cranked, strict=True):
        most, least = (run, stop) if run is not None else (stop, stop)
        told.append((crank, crank) if most is None else (most, most if least is None else least))
    more: list[Row] = []
    prover, walker = Prover(network), Walker(network)
    parts = islands(circuit.ends, _copper(circuit, network), len(circuit.nodes))[0]
    at = {name: int(part) for name, part in zip(circuit.nodes, parts, strict=True)}
    seen: dict[int, tuple[int | None, int | None]] = {
        at[one]: (None, None) for one in network.grounds if one in at
    }
    for number, wire in enumerate(loom.wires):
        if told[number][0] is not None:
            continue
        node = node_names(wire, loom)[0]
        if at[node] not in seen:
            found = tuple(_live_in(prover, walker, node))
            first = len(rows) + len(more)
            more += found
            seen[at[node]] = (first + len(found) - 1, first) if found else (None, None)
        told[number] = seen[at[node]]
    return Ways((*rows, *more), tuple(told))


class _Carried(Struct, frozen=True, eq=False):
    """How wires stand in rows: the higher of their ends' voltages, and what they carry."""

    rows: tuple[Row, ...]
    volts: NDArray[np.float64]  # (rows, wires) [V]
    amps: NDArray[np.float64]  # (rows, wires) [A]

    def chosen(self, some: list[int]) -> list[int | None]:
        """Return for each wire one of some rows in which it is live; None where it is in none.

        A wire is best looked at where it carries its share, with the least else on; of the rows that
        will do, those are taken that will do for most others.
        """
        plain = [n for n in some if not self.rows[n].crowd]
        found: list[int | None] = [None] * self.volts.shape[1]
        if not plain:
            return found
        live = self.volts[plain] > LIVE_V
        amps = np.where(live, self.amps[plain], 0.0)
        fit = live & (amps >= NEAR * amps.max(axis=0))
        while fit.any():
            best = int(np.argmax(fit.sum(axis=1)))
            for wire in np.flatnonzero(fit[best]).tolist():
                found[wire] = plain[best]
            fit &= ~fit[best]
        return found


def _copper(circuit: Circuit, network: Network) -> Bools:
    """Return which elements join two nodes in every state, shape (1, elements)."""
    return circuit.among(one.name for one in network.joins)[None]


def _live_in(prover: Prover, walker: Walker, node: str) -> Iterator[Row]:
    """Yield a state in which a node is live with the engine off, then one with it running."""
    board = Board(prover.network)
    still = [mode for mode in MODES if mode.engine == "stopped"]
    turning = [mode for mode in MODES if mode.supply == "speed"]
    for modes in (still, turning):
        found = ((one, _reached(prover, walker, And((Live(node), one.condition)))) for one in modes)
        for mode, state in found:
            if state is not None:
                seen = board.standing(state)
                closed = frozenset(seen.closed) | frozenset(seen.alive)
                yield Row(mode, state, closed, frozenset(), crowd=False)
                break


def _reached(prover: Prover, walker: Walker, wanted: Condition) -> State | None:
    """Return the plainest state in which a condition holds; with units, one that steps lead to."""
    example = prover.example(wanted, wanted)
    if example is None:
        return None
    return led_to(prover, walker, wanted, example.state)
