"""Wiring: the network a build's circuits make, solved, sized, laid along its routes and proven.

In: the build's wiring entries and stock tables. Out: frozen results for checks, drawings and paper.
"""

from trimwright.wiring.back_feed import BackFed, Lifted, PastFuse, back_fed, lifted, past_fuses
from trimwright.wiring.bundle import Bend, Bundle, tightest_bend, tightest_moving
from trimwright.wiring.bundling import WRAP_MM, Bundling, bundlings, wrapped
from trimwright.wiring.buying import SOLD_BY_MM, SPARE_SHARE, Buying, Shared, buying
from trimwright.wiring.combination import combination
from trimwright.wiring.consumer import Consumer
from trimwright.wiring.copper import (
    contact_rating,
    held_a,
    melts_a2s,
    opening_band,
    resistance_factor,
    sure_a,
)
from trimwright.wiring.crimp import Crimp, crimp
from trimwright.wiring.crossing import Coarse, Crossing, crossings
from trimwright.wiring.dead import Dead, dead, with_ground
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
    most_a,
    other_end,
    relay_duties,
)
from trimwright.wiring.dying import dies_with
from trimwright.wiring.electric import FUSE_V, HELPING, inside_ohm
from trimwright.wiring.faulted import MeterTable, meter_table
from trimwright.wiring.faulty import Part, parts
from trimwright.wiring.filament import melting_a2s
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
    State,
    Step,
)
from trimwright.wiring.loom import End, Loom, Wire, free_mm, routes_from, straight_mm, trunk_mm
from trimwright.wiring.made_of import MadeOf, made_of
from trimwright.wiring.met_at import LooseEnd, Meeting, loose_ends, meetings, single_ends
from trimwright.wiring.meter import (
    Diagnosis,
    Likely,
    as_expected,
    chosen,
    diagnosis,
    unseen,
    wrong_readings,
)
from trimwright.wiring.meter_words import limit_words, position_words, probe_words
from trimwright.wiring.metered import Urged
from trimwright.wiring.mode import MODES, Mode
from trimwright.wiring.next_stop import NextStop, Way, next_stops
from trimwright.wiring.outcome import (
    Electrics,
    Proof,
    WiringOutcome,
    electrics,
    keeps,
    wiring_outcome,
)
from trimwright.wiring.parting import parted
from trimwright.wiring.passing import passed
from trimwright.wiring.plug_face import Half, PlugFace, plug_faces
from trimwright.wiring.probing import Probing
from trimwright.wiring.proposal import NoCircuitError, Proposal, proposal, unwired
from trimwright.wiring.rating import FUSES as FUSES_SOLD
from trimwright.wiring.rating import SHARE as FUSE_SHARE
from trimwright.wiring.rating import (
    STARTING_S,
    Start,
    largest_fuse,
    opening_s,
    outlasts,
    relay_rating,
    smallest_fuse,
)
from trimwright.wiring.rating import bears as fuse_bears
from trimwright.wiring.replay import Frame, Replay, replay
from trimwright.wiring.ridging import Ridging, ridges
from trimwright.wiring.shorted import Rub, Warmest, bearing, borne_by, shorted
from trimwright.wiring.sizing import FUSE_CLASS, NOMINAL_V, Sizing, fuse_of_class
from trimwright.wiring.sneak import Sneak, sneaks
from trimwright.wiring.sold import choice, sold
from trimwright.wiring.standby import (
    Span,
    Store,
    idle_minutes,
    share_left_in_cold,
    share_that_leaves_no_start,
    standby_days,
)
from trimwright.wiring.starting import ColdLamps, cold_lamps
from trimwright.wiring.step_words import step_words
from trimwright.wiring.supply import Supply
from trimwright.wiring.swing import Lead, Lying, Swing, lyings, tightest
from trimwright.wiring.thicker import thicker
from trimwright.wiring.tried import Tried, tried
from trimwright.wiring.use import Row, Use
from trimwright.wiring.wording import (
    RESTING,
    fault_words,
    faults_told,
    faults_words,
    rule_words,
    state_words,
)

__all__ = [
    "FUSES_SOLD",
    "FUSE_CLASS",
    "FUSE_SHARE",
    "FUSE_V",
    "HELPING",
    "MODES",
    "NOMINAL_V",
    "RESTING",
    "SOLD_BY_MM",
    "SPARE_SHARE",
    "STARTING_S",
    "UNPLACED_MM",
    "WRAP_MM",
    "BackFed",
    "Bar",
    "Bend",
    "Board",
    "Branch",
    "Bundle",
    "Bundling",
    "Buying",
    "Coarse",
    "ColdLamps",
    "Consumer",
    "Contradiction",
    "Crimp",
    "Crossing",
    "Dead",
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
    "Lead",
    "Lifted",
    "Likely",
    "Lit",
    "Loom",
    "LoopFinding",
    "LooseEnd",
    "Lying",
    "MadeOf",
    "Meeting",
    "MeterTable",
    "Mode",
    "NextStop",
    "NoCircuitError",
    "Offence",
    "Part",
    "PastFuse",
    "Path",
    "PlugFace",
    "Probing",
    "Proof",
    "Proposal",
    "RelayDuty",
    "RelayMove",
    "Replay",
    "Ridging",
    "Row",
    "Rub",
    "Shared",
    "Short",
    "Sizing",
    "Sneak",
    "Span",
    "Spot",
    "Start",
    "State",
    "Step",
    "Store",
    "Stroke",
    "Supply",
    "Swing",
    "Symbol",
    "Tried",
    "Type",
    "Urged",
    "Use",
    "Warmest",
    "Way",
    "Wire",
    "WiringOutcome",
    "Words",
    "as_expected",
    "back_fed",
    "bearing",
    "boards",
    "borne_by",
    "bundlings",
    "buying",
    "choice",
    "chosen",
    "cold_lamps",
    "combination",
    "contact_rating",
    "crimp",
    "crossings",
    "dead",
    "diagnosis",
    "diagram",
    "dies_with",
    "electrics",
    "fault_words",
    "faults_told",
    "faults_words",
    "free_mm",
    "fuse_bears",
    "fuse_duties",
    "fuse_of_class",
    "handles",
    "held_a",
    "idle_minutes",
    "inside_ohm",
    "keeps",
    "largest_fuse",
    "lasting_a",
    "length_m",
    "lifted",
    "limit_words",
    "lit",
    "loose_ends",
    "lyings",
    "made_of",
    "meetings",
    "melting_a2s",
    "melts_a2s",
    "meter_table",
    "most_a",
    "next_stops",
    "opening_band",
    "opening_s",
    "other_end",
    "outlasts",
    "parted",
    "parts",
    "passed",
    "past_fuses",
    "plug_faces",
    "position_words",
    "probe_words",
    "proposal",
    "relay_duties",
    "relay_rating",
    "replay",
    "resistance_factor",
    "ridges",
    "routes_from",
    "rule_words",
    "share_left_in_cold",
    "share_that_leaves_no_start",
    "shorted",
    "single_ends",
    "smallest_fuse",
    "sneaks",
    "sold",
    "standby_days",
    "state_words",
    "step_words",
    "straight_mm",
    "sure_a",
    "thicker",
    "tightest",
    "tightest_bend",
    "tightest_moving",
    "tried",
    "trunk_mm",
    "unseen",
    "unwired",
    "wiring_outcome",
    "with_ground",
    "wrapped",
    "wrong_readings",
]
