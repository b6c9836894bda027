"""Build: the builder's file, read, checked, edited and kept.

In: the text of a build file. Out: a frozen `Build` with every figure in mm and its doubt, or one
`InputError` with every fault; edited text that leaves untouched lines alone; a history with undo.
"""

from trimwright.build.assumed import Assumed, assumed
from trimwright.build.car import Car
from trimwright.build.console import (
    AsBuilt,
    Bulkhead,
    Console,
    DeckPoint,
    Fixing,
    Opening,
    Scribe,
    Sheet,
    Trims,
    Walls,
    Width,
)
from trimwright.build.document import Document
from trimwright.build.entry import Entry, Said, said
from trimwright.build.fault import Fault, InputError
from trimwright.build.handbook import describe
from trimwright.build.history import ConflictError, History
from trimwright.build.journal import Version
from trimwright.build.load import Loaded, load, parse
from trimwright.build.occupant import (
    BetweenSeats,
    Body,
    Box,
    Cylinder,
    DashLine,
    DashPoint,
    DashReading,
    EdgePoint,
    EnginePlay,
    Handbrake,
    KnobPlace,
    Lever,
    LeverKnob,
    Move,
    Outline,
    OutlinePoint,
    Pivot,
    Place,
    Seat,
    Seats,
)
from trimwright.build.probe import CARD, Probe, ProbePlace, probe_place
from trimwright.build.reading import Reading, figures_of, measured, readings, value
from trimwright.build.splice import edited
from trimwright.build.tunnel import (
    Bite,
    BitePoint,
    Carpet,
    Corner,
    Datum,
    Diagonal,
    Layer,
    Mark,
    Pressing,
    Row,
    Section,
    TunnelPoint,
)
from trimwright.build.wanted import Cover, Covers, LeftAsIs, Wanted
from trimwright.build.whole import Build

__all__ = [
    "CARD",
    "AsBuilt",
    "Assumed",
    "BetweenSeats",
    "Bite",
    "BitePoint",
    "Body",
    "Box",
    "Build",
    "Bulkhead",
    "Car",
    "Carpet",
    "ConflictError",
    "Console",
    "Corner",
    "Cover",
    "Covers",
    "Cylinder",
    "DashLine",
    "DashPoint",
    "DashReading",
    "Datum",
    "DeckPoint",
    "Diagonal",
    "Document",
    "EdgePoint",
    "EnginePlay",
    "Entry",
    "Fault",
    "Fixing",
    "Handbrake",
    "History",
    "InputError",
    "KnobPlace",
    "Layer",
    "LeftAsIs",
    "Lever",
    "LeverKnob",
    "Loaded",
    "Mark",
    "Move",
    "Opening",
    "Outline",
    "OutlinePoint",
    "Pivot",
    "Place",
    "Pressing",
    "Probe",
    "ProbePlace",
    "Reading",
    "Row",
    "Said",
    "Scribe",
    "Seat",
    "Seats",
    "Section",
    "Sheet",
    "Trims",
    "TunnelPoint",
    "Version",
    "Walls",
    "Wanted",
    "Width",
    "assumed",
    "describe",
    "edited",
    "figures_of",
    "load",
    "measured",
    "parse",
    "probe_place",
    "readings",
    "said",
    "value",
]
