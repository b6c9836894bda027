"""How the work on a wiring grows: with loads, with relays, with nodes of its network.

`python -m bench.growth_wiring --plot FILE` times each at several sizes and draws the chart.
"""

from functools import cache

import numpy as np

from bench.growth import Charts, plotted
from bench.interlock import chained, kept_out
from bench.wired import wired
from bench.wiring import all_faults, all_states
from tests.invented_circuit import Size, circuit
from trimwright.wiring.logic import verdicts
from trimwright.wiring.network import Circuit, solve

SEED = 7


def states(loads: int) -> None:
    """Find and solve all states of a wiring with so many loads."""
    all_states(wired(loads))


def faults(loads: int) -> None:
    """Find what a meter shows with each single fault of a wiring with so many loads."""
    all_faults(wired(loads))


def proof(relays: int) -> None:
    """Prove a rule of so many relays that each keep the next one out."""
    if verdicts(chained(relays), [kept_out()])[0].answer != "proven":
        raise ValueError("the rule must be proven")


@cache
def _circuit(nodes: int) -> Circuit:
    tenth, part = nodes // 10, nodes // 25
    size = Size(9 * tenth, tenth, part, heaters=tenth, lamps=part, electronics=part, alternators=1)
    return circuit(np.random.default_rng(SEED), size)


def network(nodes: int) -> None:
    """Solve one state of a network of so many nodes."""
    made = _circuit(nodes)
    if solve(made, made.states()).failed.any():
        raise ValueError("the network must be solved")


CHARTS: Charts = (
    ("All states of a wiring", "loads, half by a relay", states, (4, 8, 16, 32)),
    ("All its single faults", "loads, half by a relay", faults, (4, 8, 16, 32)),
    ("A rule proven over every state", "relays in a chain", proof, (6, 12, 24, 48)),
    ("One state of a network", "nodes", network, (125, 250, 500, 1000)),
)

if __name__ == "__main__":
    plotted("bench.growth_wiring", CHARTS)
