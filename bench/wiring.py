"""How long a build's wiring takes: all its states, and what a meter shows with every single fault.

The peer of the states is given as many matrices of as many nodes, ready to solve; ours finds what
can be on by logic, looks for the worst combinations, forms the network of each state and settles
its lamps and electronics. The peer of the faults is our own work on the states.
"""

from functools import cache
from itertools import count
from pathlib import Path

import numpy as np
from msgspec.structs import replace
from numpy.typing import NDArray

from bench.command import ROOT
from bench.measure import Bench
from bench.network import matrices
from trimwright.build import Wiring, load
from trimwright.wiring import electrics, meter_table

FIRST = Path(ROOT) / "examples" / "dunlin" / "first-wired.yaml"
NUMBERS = count(1)


@cache
def _demo() -> Wiring:
    own = load(FIRST).build.wiring
    if own is None or own.battery is None:
        raise ValueError("the demo must have a wiring with a battery")
    return own


def _moved() -> Wiring:
    """Return the demo's wiring with its battery a little otherwise: nothing is kept of it."""
    own = _demo()
    if own.battery is None:
        raise ValueError("the demo must have a battery")
    volts = replace(own.battery.volts, value=12.6 + next(NUMBERS) / 1e6)
    battery = own.battery.model_copy(update={"volts": volts})
    return own.model_copy(update={"battery": battery})


def all_states(wiring: Wiring) -> tuple[int, int]:
    """Find and solve all states of a wiring; return how many were solved, and of how many nodes."""
    found = electrics(wiring, "mm")
    if found is None or found.solved.failed.any():
        raise ValueError("the wiring must be solved")
    return sum(one.solved for one in found.searched), len(found.solved.circuit.nodes)


def all_faults(wiring: Wiring) -> None:
    """Find what a meter shows with each single fault of a wiring."""
    if meter_table(wiring, "mm") is None:
        raise ValueError("the wiring must be solved")


@cache
def _equations() -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    return matrices(*all_states(_demo()))


def demo_states() -> None:
    """Find and solve all states of the demo."""
    all_states(_moved())


def demo_equations() -> None:
    """Solve as many linear equations of as many states."""
    np.linalg.solve(*_equations())


def demo_faults() -> None:
    """Find all states of the demo and what a meter shows with each single fault."""
    all_faults(_moved())


STATES = Bench(
    "wiring, all states",
    demo_states,
    demo_equations,
    "numpy.linalg.solve of as many equations in as many states",
)
FAULTS = Bench("wiring, all single faults", demo_faults, demo_states, "all states alone")
