"""A circuit as a meter finds it: states to be solved, and what stands between two of its nodes."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from trimwright.build import Wiring
from trimwright.wiring.consumer import LETS_GO_V
from trimwright.wiring.contacts import MINUS
from trimwright.wiring.electric import HELPING, states
from trimwright.wiring.logic import Board, Fault, Network, State, at_rest, wakes
from trimwright.wiring.mode import Mode
from trimwright.wiring.network import (
    Alternator,
    Circuit,
    ConstantPower,
    Solved,
    States,
    conducting_part,
    solve,
)

Floats = NDArray[np.float64]

CRIMP_OHM = 0.5  # of a bad crimp
BREAK_OHM = 1e7  # across what is broken: next to nothing, yet no part of the network hangs loose
ASLEEP_OHM = 1e4  # through electronics that are off; common practice, no source
REGULATED_V = 0.3  # about what an alternator is regulated to; common practice, no source


@dataclass(frozen=True, slots=True)
class Stand:
    """How the car stands: the mode, what is closed or alive, which loads are fed, and the fault."""

    mode: Mode
    closed: frozenset[str]
    fed: frozenset[str]
    fault: Fault | None = None


def stand(board: Board, mode: Mode, state: State) -> Stand | None:
    """Return how the car stands with relays and units settled anew; None if they find no rest.

    A unit begins as it wakes where that leads to the state with nothing wrong, for a fault may keep
    it from ever coming there; else as it stands in the state.
    """
    woken = wakes(board.with_fault(None), state)
    seen = at_rest(board, state.facts, None if woken else state.units)
    if seen is None:
        return None
    fed = frozenset(one.name for one in board.network.loads if board.between(one, seen))
    return Stand(mode, frozenset({*seen.closed, *seen.alive}), fed, board.fault)


def metered(circuit: Circuit, stands: Sequence[Stand], network: Network, wiring: Wiring) -> States:
    """Return the states of some stands, each with its fault.

    Electronics run where contacts join them to a feed and to ground, and let go where there is too
    little voltage. While they are off they pass a little, which lifts a terminal that has lost its
    ground to what a meter shows there.
    """
    asked = [(one.mode, one.closed) for one in stands]
    found = states(circuit, asked, network, wiring)
    electronics = circuit.kind(ConstantPower)
    found = found.shorted(electronics, ASLEEP_OHM)
    found = found.given(electronics & (found.volts == 0), volts=LETS_GO_V)
    running = [[one.name in at.fed for one in circuit.elements] for at in stands]
    found = found.given(electronics & ~np.array(running, np.bool_), watts=0.0)
    at = {one.name: number for number, one in enumerate(circuit.elements)}
    opened = np.zeros(found.siemens.shape, np.bool_)
    crimped = np.zeros(found.siemens.shape, np.bool_)
    for row, one in enumerate(stands):
        if one.fault is not None and not one.fault.kind.startswith("contact"):
            where = crimped if one.fault.kind == "bad crimp" else opened
            where[row, at[befallen(one.fault)]] = True
    with_crimps = CRIMP_OHM + 1 / np.where(crimped, found.siemens, 1.0)
    return found.given(crimped, ohms=with_crimps).given(opened, ohms=BREAK_OHM)


def befallen(fault: Fault) -> str:
    """Return the element of the circuit that a fault befalls."""
    stud = fault.of.removesuffix(" stud")
    return f"{stud} to body" if fault.kind == "ground lost" else fault.of


def varied(
    circuit: Circuit, given: States, loads: Collection[str], factors: tuple[float, float, float]
) -> States:
    """Return states with another battery voltage and with resistances times a factor.

    Parameters
    ----------
    circuit, given : Circuit, States
        What is varied.
    loads : collection of str
        The elements that current is for; all others lie on its way.
    factors : tuple of float
        On the battery's voltage, on the resistance of what lies on the way, on that of loads. An
        alternator's regulated voltage goes up or down with the battery's, by what regulators do.
    """
    battery, way, load = factors
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


@dataclass(frozen=True, slots=True)
class Met:
    """Voltages solved for a part of a circuit; what is not in it floats."""

    solved: Solved

    def reading(self, red: str, black: str) -> Floats:
        """Return what a meter shows between two nodes in every state [V]; NaN where unsolved.

        Where a node hangs on nothing, the meter itself draws it to its other probe: it shows 0.
        """
        volts = self.at(red) - self.at(black)
        void = self.solved.failed | self.solved.collapsed.any(axis=1)
        return np.where(void, np.nan, np.nan_to_num(volts))

    def at(self, node: str) -> Floats:
        """Return a node's voltage in every state [V]; NaN where it floats."""
        nodes = self.solved.circuit.nodes
        if node == MINUS or node in nodes:
            return self.solved.voltages[:, 0 if node == MINUS else nodes.index(node)]
        return np.full(len(self.solved.voltages), np.nan)


def stacked(parts: Sequence[States]) -> States:
    """Return states one after the other."""
    return States(*map(np.concatenate, zip(*(one.arrays for one in parts), strict=True)))


def solved_part(circuit: Circuit, given: States) -> Met:
    """Return the solution of the part of a circuit in which anything flows."""
    return Met(solve(*conducting_part(circuit, given)))


def carrying(solved: Solved, row: int, least_a: float) -> frozenset[str]:
    """Return the names of the elements that carry a current of so much or more in a state."""
    amps = np.abs(np.nan_to_num(solved.currents[row]))
    return frozenset(
        one.name
        for one, flows in zip(solved.circuit.elements, amps, strict=True)
        if flows >= least_a
    )
