"""Wiring: the network a build's circuits make, solved, sized, laid along its routes and proven.

In: the build's wiring entries and stock tables. Out: frozen results for checks, drawings and paper.
"""

from trimwright.wiring.bundle import Bundle, tightest_bend
from trimwright.wiring.bundling import WRAP_MM, Bundling, bundlings, wrapped
from trimwright.wiring.buying import SOLD_BY_MM, SPARE_SHARE, Buying, Shared, buying
from trimwright.wiring.consumer import Consumer
from trimwright.wiring.copper import contact_rating, opening_band
from trimwright.wiring.crimp import Crimp, crimp
from trimwright.wiring.diagram import (
    Bar,
    Diagram,
    DiagramPage,
    Kind,
    Stroke,
    Symbol,
    Type,
    Words,
    diagram,
)
from trimwright.wiring.duty import (
    FuseDuty,
    RelayDuty,
    fuse_duties,
    lasting_a,
    other_end,
    relay_duties,
)
from trimwright.wiring.dying import dies_with
from trimwright.wiring.electric import HELPING
from trimwright.wiring.faulted import MeterTable, meter_table
from trimwright.wiring.faulty import Part, parts
from trimwright.wiring.harness import Board, Branch, Spot, boards
from trimwright.wiring.laid import UNPLACED_MM, length_m
from trimwright.wiring.lit import Lit, handles, lit
from trimwright.wiring.logic import (
    Contradiction,
    Example,
    FactChange,
    Fault,
    FaultBreak,
    LoopFinding,
    Offence,
    Path,
    RelayMove,
    Short,
    Step,
)
from trimwright.wiring.loom import End, Loom, Wire, routes_from
from trimwright.wiring.made_of import MadeOf, made_of
from trimwright.wiring.meter import (
    EXPLAINED_V,
    Diagnosis,
    Likely,
    as_expected,
    chosen,
    diagnosis,
    unseen,
    wrong_readings,
)
from trimwright.wiring.meter_words import limit_words, position_words, probe_words
from trimwright.wiring.mode import MODES, Mode
from trimwright.wiring.outcome import (
    Electrics,
    Proof,
    WiringOutcome,
    electrics,
    wiring_outcome,
)
from trimwright.wiring.passing import passed
from trimwright.wiring.plug_face import Half, PlugFace, plug_faces
from trimwright.wiring.probing import Probing
from trimwright.wiring.proposal import NoCircuitError, Proposal, proposal, unwired
from trimwright.wiring.rating import SHARE as FUSE_SHARE
from trimwright.wiring.rating import (
    STARTING_S,
    Start,
    largest_fuse,
    outlasts,
    relay_rating,
    smallest_fuse,
)
from trimwright.wiring.rating import bears as fuse_bears
from trimwright.wiring.replay import Frame, Replay, replay
from trimwright.wiring.sizing import NOMINAL_V, Sizing, fuse_of_class
from trimwright.wiring.sneak import Sneak, sneaks
from trimwright.wiring.sold import sold
from trimwright.wiring.standby import (
    Span,
    Store,
    idle_minutes,
    share_left_in_cold,
    share_that_leaves_no_start,
    standby_days,
)
from trimwright.wiring.step_words import step_words
from trimwright.wiring.supply import Supply
from trimwright.wiring.thicker import thicker
from trimwright.wiring.tried import Tried, tried
from trimwright.wiring.use import Row, Use
from trimwright.wiring.wording import RESTING, fault_words, faults_words, rule_words, state_words

__all__ = [
    "EXPLAINED_V",
    "FUSE_SHARE",
    "HELPING",
    "MODES",
    "NOMINAL_V",
    "RESTING",
    "SOLD_BY_MM",
    "SPARE_SHARE",
    "STARTING_S",
    "UNPLACED_MM",
    "WRAP_MM",
    "Bar",
    "Board",
    "Branch",
    "Bundle",
    "Bundling",
    "Buying",
    "Consumer",
    "Contradiction",
    "Crimp",
    "Diagnosis",
    "Diagram",
    "DiagramPage",
    "Electrics",
    "End",
    "Example",
    "FactChange",
    "Fault",
    "FaultBreak",
    "Frame",
    "FuseDuty",
    "Half",
    "Kind",
    "Likely",
    "Lit",
    "Loom",
    "LoopFinding",
    "MadeOf",
    "MeterTable",
    "Mode",
    "NoCircuitError",
    "Offence",
    "Part",
    "Path",
    "PlugFace",
    "Probing",
    "Proof",
    "Proposal",
    "RelayDuty",
    "RelayMove",
    "Replay",
    "Row",
    "Shared",
    "Short",
    "Sizing",
    "Sneak",
    "Span",
    "Spot",
    "Start",
    "Step",
    "Store",
    "Stroke",
    "Supply",
    "Symbol",
    "Tried",
    "Type",
    "Use",
    "Wire",
    "WiringOutcome",
    "Words",
    "as_expected",
    "boards",
    "bundlings",
    "buying",
    "chosen",
    "contact_rating",
    "crimp",
    "diagnosis",
    "diagram",
    "dies_with",
    "electrics",
    "fault_words",
    "faults_words",
    "fuse_bears",
    "fuse_duties",
    "fuse_of_class",
    "handles",
    "idle_minutes",
    "largest_fuse",
    "lasting_a",
    "length_m",
    "limit_words",
    "lit",
    "made_of",
    "meter_table",
    "opening_band",
    "other_end",
    "outlasts",
    "parts",
    "passed",
    "plug_faces",
    "position_words",
    "probe_words",
    "proposal",
    "relay_duties",
    "relay_rating",
    "replay",
    "routes_from",
    "rule_words",
    "share_left_in_cold",
    "share_that_leaves_no_start",
    "smallest_fuse",
    "sneaks",
    "sold",
    "standby_days",
    "state_words",
    "step_words",
    "thicker",
    "tightest_bend",
    "tried",
    "unseen",
    "unwired",
    "wiring_outcome",
    "wrapped",
    "wrong_readings",
]
