"""How long the direct-current network takes, against solving as many equations without it.

One state of 1,000 nodes with 40 lamps, 40 constant-power loads and an alternator, and 64 states of
60 nodes that differ in what is open. The peer is given matrices of the same size ready to solve, of
fixed resistances only; ours forms them, finds what floats, settles lamps and loads, and adds up the
currents.
"""

from functools import cache

import numpy as np
from numpy.typing import NDArray

from bench.measure import Bench
from tests.invented_circuit import Size, circuit, opened
from trimwright.wiring.network import Circuit, States, solve

SEED = 7
LARGE = Size(900, 100, 60, heaters=120, lamps=40, electronics=40, alternators=1)
SMALL = Size(48, 12, 8, heaters=10, lamps=6, electronics=6, alternators=1)
ROWS = 64

Floats = NDArray[np.float64]


@cache
def large() -> tuple[Circuit, States]:
    """Return a network of 1,000 nodes in one state."""
    made = circuit(np.random.default_rng(SEED), LARGE)
    return made, _thick(made, made.states())


@cache
def small() -> tuple[Circuit, States]:
    """Return a network of 60 nodes in 64 states."""
    rng = np.random.default_rng(SEED)
    made = circuit(rng, SMALL)
    return made, _thick(made, opened(rng, made, ROWS))


def _thick(made: Circuit, states: States) -> States:
    """Return states with wires that carry all loads: none drops out."""
    where = np.array([one.name.startswith("wire") for one in made.elements])
    ohms = np.full_like(states.siemens, np.inf)
    np.divide(0.05, states.siemens, out=ohms, where=states.siemens > 0)
    return states.given(where, ohms=ohms)


@cache
def matrices(rows: int, nodes: int) -> tuple[Floats, Floats]:
    """Return conductance matrices of random trees with a way to the reference, and currents."""
    rng = np.random.default_rng(SEED)
    made = np.zeros((rows, nodes, nodes))
    for k in range(1, nodes):
        near = int(rng.integers(k))
        mho = rng.uniform(10, 1000, rows)
        made[:, k, near] = made[:, near, k] = -mho
        made[:, k, k] += mho
        made[:, near, near] += mho
    made[:, 0, 0] += 50.0
    return made, rng.uniform(-1, 1, (rows, nodes, 1))


def ours_large() -> None:
    """Solve the one state of many nodes."""
    _checked(*large())


def ours_small() -> None:
    """Solve the many states of few nodes."""
    _checked(*small())


def _checked(made: Circuit, states: States) -> None:
    solved = solve(made, states)
    if solved.failed.any() or solved.collapsed.any():
        raise ValueError("the network must have a solution in every state")


def peer_large() -> None:
    """Solve 1,000 linear equations."""
    np.linalg.solve(*matrices(1, 1000))


def peer_small() -> None:
    """Solve 64 times 60 linear equations."""
    np.linalg.solve(*matrices(ROWS, 60))


NODES = Bench(
    name="network of 1,000 nodes",
    ours=ours_large,
    peer=peer_large,
    peer_says="numpy.linalg.solve of 1,000 equations",
)
STATES = Bench(
    name="network in 64 states",
    ours=ours_small,
    peer=peer_small,
    peer_says="numpy.linalg.solve of 64 x 60 equations",
)
