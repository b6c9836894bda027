"""Network: the solved direct-current network of a vehicle.

In: nodes and what stands between them in volts, ohms and watts, and how these differ from state to
state. Out: voltages, currents and heat in every state, what floats, drops out or collapses, and the
worst combination of loads. Nothing here knows a build.
"""

from trimwright.wiring.network.balance import Solved, joined
from trimwright.wiring.network.circuit import Circuit
from trimwright.wiring.network.element import (
    Alternator,
    Battery,
    ConstantPower,
    Element,
    Lamp,
    Resistor,
)
from trimwright.wiring.network.island import islands
from trimwright.wiring.network.law import EXPONENT as LAMP_EXPONENT
from trimwright.wiring.network.part import conducting_part
from trimwright.wiring.network.solution import solve
from trimwright.wiring.network.states import States

__all__ = [
    "LAMP_EXPONENT",
    "Alternator",
    "Battery",
    "Circuit",
    "ConstantPower",
    "Element",
    "Lamp",
    "Resistor",
    "Solved",
    "States",
    "conducting_part",
    "islands",
    "joined",
    "solve",
]
