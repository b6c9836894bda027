"""Wiring: the network a build's circuits make, solved, sized, laid along its routes and proven.

In: the build's wiring entries and stock tables. Out: frozen results for checks, drawings and paper.
"""

from trimwright.wiring.consumer import Consumer
from trimwright.wiring.copper import contact_rating, opening_band
from trimwright.wiring.electric import HELPING
from trimwright.wiring.laid import UNPLACED_MM, length_m
from trimwright.wiring.logic import Example, FaultBreak, LoopFinding, Short
from trimwright.wiring.loom import Loom, Wire, routes_from
from trimwright.wiring.mode import MODES, Mode
from trimwright.wiring.outcome import (
    Electrics,
    Proof,
    WiringOutcome,
    electrics,
    wiring_outcome,
)
from trimwright.wiring.sizing import NOMINAL_V, Sizing, fuse_of_class
from trimwright.wiring.sold import sold
from trimwright.wiring.standby import (
    Span,
    Store,
    idle_minutes,
    share_left_in_cold,
    share_that_leaves_no_start,
    standby_days,
)
from trimwright.wiring.supply import Supply
from trimwright.wiring.thicker import thicker
from trimwright.wiring.use import Row, Use

__all__ = [
    "HELPING",
    "MODES",
    "NOMINAL_V",
    "UNPLACED_MM",
    "Consumer",
    "Electrics",
    "Example",
    "FaultBreak",
    "Loom",
    "LoopFinding",
    "Mode",
    "Proof",
    "Row",
    "Short",
    "Sizing",
    "Span",
    "Store",
    "Supply",
    "Use",
    "Wire",
    "WiringOutcome",
    "contact_rating",
    "electrics",
    "fuse_of_class",
    "idle_minutes",
    "length_m",
    "opening_band",
    "routes_from",
    "share_left_in_cold",
    "share_that_leaves_no_start",
    "sold",
    "standby_days",
    "thicker",
    "wiring_outcome",
]
