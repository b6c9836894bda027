"""Wiring: the network a build's circuits make, solved, sized, laid along its routes and proven.

In: the build's wiring entries and stock tables. Out: frozen results for checks, drawings and paper.
"""

from trimwright.wiring.consumer import Consumer
from trimwright.wiring.loom import Loom, Wire
from trimwright.wiring.mode import MODES, Mode
from trimwright.wiring.outcome import (
    Electrics,
    Proof,
    Supply,
    WiringOutcome,
    electrics,
    wiring_outcome,
)
from trimwright.wiring.sizing import Sizing
from trimwright.wiring.use import Row, Use

__all__ = [
    "MODES",
    "Consumer",
    "Electrics",
    "Loom",
    "Mode",
    "Proof",
    "Row",
    "Sizing",
    "Supply",
    "Use",
    "Wire",
    "WiringOutcome",
    "electrics",
    "wiring_outcome",
]
