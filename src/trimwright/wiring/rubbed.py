"""A wiring with one of its points rubbed through to the body: what then flows everywhere."""

from collections.abc import Iterator, Sequence
from functools import cached_property

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Wiring
from trimwright.wiring.contacts import BATTERY
from trimwright.wiring.electric import BODY, STARTER, states
from trimwright.wiring.logic import Network
from trimwright.wiring.network import Circuit, Resistor, States, conducting_part, islands, solve
from trimwright.wiring.use import Row

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

SHORT_OHM = 1e-4  # of bare copper pressed on the body: next to nothing, so that the most flows
LEAST_SHARE = 0.1  # of a short's current, below which it does not come that way
EXCITED = "alternator D+ live"  # a body that draws D+ down takes the alternator its excitation


class Point(Struct, frozen=True):
    """A terminal joined to the body, in a solved row, with cold wires or with warm ones.

    `opened` are the fuses that have opened by then.
    """

    row: int
    node: str
    warm: bool
    opened: tuple[str, ...] = ()


class Flow(Struct, frozen=True, eq=False):
    """What flows with each of some points at the body.

    Attributes
    ----------
    amps : ndarray, shape (points, elements)
        Through each element of the circuit, whichever way [A]; NaN where it could not be solved.
    short_a : ndarray, shape (points,)
        Into the body at the point [A].
    fed : ndarray of bool, shape (points,)
        Whether the battery reaches the point through nothing but copper, contacts and fuses.
    through : tuple of tuple of str
        The loads next to the point, seen from it along copper, that carry a share of its current.
    """

    amps: Floats
    short_a: Floats
    fed: Bools
    through: tuple[tuple[str, ...], ...]


class Bench(Struct, frozen=True, eq=False, dict=True):
    """A circuit with all that is needed to short its points in rows of a solved wiring.

    Loads that a short's current does not go through are left out: it is the largest without them.
    `warmed` is by what each element resists more with its insulation as warm as it bears for good.
    """

    wiring: Wiring
    network: Network
    circuit: Circuit
    rows: tuple[Row, ...]
    warmed: Floats

    @cached_property
    def load(self) -> Bools:
        """Which elements are loads, the others being copper."""
        loads, relays = self.wiring.loads, self.wiring.relays
        names = {*(one.name for one in loads), *(one.name for one in relays), STARTER}
        return np.array([one.name in names for one in self.circuit.elements], np.bool_)

    def flow(self, points: Sequence[Point]) -> Flow:
        """Return what flows with each of some points at the body, in their order."""
        count = len(points)
        amps = np.zeros((count, len(self.circuit.elements)))
        short_a, fed = np.zeros(count), np.zeros(count, np.bool_)
        through: list[tuple[str, ...]] = [()] * count
        groups: dict[tuple[int, bool, tuple[str, ...]], list[int]] = {}
        for number, one in enumerate(points):
            groups.setdefault((one.row, one.warm, one.opened), []).append(number)
        for mine, state in zip(groups.values(), self._states(list(groups)), strict=True):
            found = self._struck(state, [points[n].node for n in mine])
            amps[mine], short_a[mine], fed[mine] = found.amps, found.short_a, found.fed
            for number, told in zip(mine, found.through, strict=True):
                through[number] = told
        return Flow(amps, short_a, fed, tuple(through))

    def _states(self, asked: list[tuple[int, bool, tuple[str, ...]]]) -> Iterator[States]:
        """Yield the circuit as it stands in rows, with warm wires or cold, some fuses open."""
        rows = [(one.mode, one.closed) for row, _, _ in asked for one in [self.rows[row]]]
        every = states(self.circuit, rows, self.network, self.wiring)
        names = [one.name for one in self.circuit.elements]
        gone = np.array([[n in opened or n == EXCITED for n in names] for _, _, opened in asked])
        warm = np.array([[is_warm] for _, is_warm, _ in asked]) & (self.warmed > 1)
        every = every.opened(gone)
        ohms = self.warmed / np.where(every.siemens > 0, every.siemens, 1.0)
        every = every.given(warm & (every.siemens > 0), ohms=ohms)
        yield from (every.rows_of(slice(n, n + 1)) for n in range(len(asked)))

    def _struck(self, state: States, nodes: list[str]) -> Flow:
        """Return what flows in one state with each of some nodes at the body."""
        count, known = len(nodes), len(self.circuit.elements)
        fed, beside = self._reached(state, nodes)
        shorts = tuple(Resistor(f"short at {one}", one, BODY, SHORT_OHM) for one in nodes)
        whole = Circuit(self.circuit.reference, (*self.circuit.elements, *shorts))
        part, given = conducting_part(
            whole, _beside(state.repeated(count).opened(self.load & ~beside))
        )
        solved = solve(part, given)
        amps = np.zeros((count, known + count))
        at = {one.name: number for number, one in enumerate(whole.elements)}
        amps[:, [at[one.name] for one in part.elements]] = np.abs(solved.currents)
        short_a = amps[np.arange(count), known + np.arange(count)]
        amps = amps[:, :known]
        shares = beside & (amps > LEAST_SHARE * short_a[:, None])
        through = (
            tuple(self.circuit.elements[n].name for n in np.flatnonzero(one)) for one in shares
        )
        return Flow(amps, short_a, fed, tuple(through))

    def _reached(self, state: States, nodes: list[str]) -> tuple[Bools, Bools]:
        """Return whether copper leads to nodes from the battery, and the loads beside the others."""
        circuit = self.circuit
        copper = circuit.kind(Resistor) & ~self.load & (state.siemens[0] > 0)
        parts = islands(circuit.ends, copper[None], len(circuit.nodes))[0]
        own = parts[[circuit.node(one) for one in nodes]]
        fed = own == parts[circuit.node(BATTERY)]
        meets = np.sum(parts[circuit.ends] == own[:, None, None], axis=2) == 1
        return fed, meets & self.load & ~fed[:, None]


def _beside(state: States) -> States:
    """Return states with so many elements more as there are states: a short in each its own."""
    count = state.rows

    def wider(figures: Floats, more: Floats) -> Floats:
        return np.concatenate([figures, more], axis=1)

    none, each = np.zeros((count, count)), np.eye(count) / SHORT_OHM
    return States(
        wider(state.siemens, each),
        *(
            wider(one, none)
            for one in (state.volts, state.watts, state.most_a, state.cold_siemens, state.bypass)
        ),
    )
