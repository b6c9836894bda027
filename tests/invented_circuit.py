"""Invented networks of a vehicle: feeds that branch and mesh, loads, shared grounds."""

from dataclasses import dataclass

import numpy as np

from trimwright.wiring.network import (
    Alternator,
    Battery,
    Circuit,
    ConstantPower,
    Element,
    Lamp,
    Resistor,
    States,
)

REFERENCE = "post"


@dataclass(frozen=True, slots=True)
class Size:
    """How many nodes on the feed side and of ground, wires that close meshes, and loads."""

    feeds: int = 12
    grounds: int = 4
    meshes: int = 4
    heaters: int = 5
    lamps: int = 0
    electronics: int = 0
    batteries: int = 1
    alternators: int = 0


def wires(rng: np.random.Generator, nodes: list[str], meshes: int, most: float) -> list[Element]:
    """Return a random tree over nodes, and wires that close meshes in it."""
    joins = [(int(rng.integers(k)), k) for k in range(1, len(nodes))]
    for _ in range(meshes if len(nodes) > 1 else 0):
        one, other = rng.choice(len(nodes), 2, replace=False)
        joins.append((int(one), int(other)))
    made = list[Element]()
    for k, (one, other) in enumerate(joins):
        ohms = float(np.exp(rng.uniform(np.log(1e-3), np.log(most))))
        made.append(Resistor(f"wire {k} of {nodes[0]}", nodes[one], nodes[other], ohms))
    return made


def circuit(rng: np.random.Generator, size: Size) -> Circuit:
    """Return a network; sources and loads stand between feeds and grounds."""
    feeds = [f"feed {k}" for k in range(size.feeds)]
    grounds = [REFERENCE, *(f"ground {k}" for k in range(1, size.grounds))]
    made = wires(rng, feeds, size.meshes, 0.1) + wires(rng, grounds, size.meshes // 2, 0.05)

    def ends() -> tuple[str, str]:
        return str(rng.choice(feeds)), str(rng.choice(grounds))

    made.append(Battery("battery 0", feeds[0], REFERENCE, 12.6, 0.02))
    for k in range(1, size.batteries):
        made.append(Battery(f"battery {k}", *ends(), rng.uniform(11, 14), rng.uniform(0.01, 0.3)))
    for k in range(size.alternators):
        most = rng.uniform(2, 60)
        posts = ends()
        made.append(Alternator(f"alternator {k}", *posts, 14.2, rng.uniform(0.005, 0.05), most))
        made.append(Resistor(f"field {k}", *posts, 100.0))
    for k in range(size.heaters):
        made.append(Resistor(f"heater {k}", *ends(), rng.uniform(1, 30)))
    for k in range(size.lamps):
        watts = float(rng.choice([5.0, 21.0, 55.0]))
        made.append(Lamp(f"lamp {k}", *ends(), 13.5, watts, 13.5**2 / watts / rng.uniform(8, 14)))
    for k in range(size.electronics):
        made.append(ConstantPower(f"driver {k}", *ends(), rng.uniform(1, 25), 7.0))
    return Circuit(REFERENCE, tuple(made))


def opened(rng: np.random.Generator, made: Circuit, rows: int, share: float = 0.12) -> States:
    """Return states in each of which another choice of elements is open; the first has none."""
    out = rng.random((rows, len(made.elements))) < share
    out[0] = False
    out[:, made.element("battery 0")] = False
    return made.states(rows).opened(out)
