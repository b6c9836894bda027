"""Build: the builder's file, read, checked, edited and kept.

In: the text of a build file. Out: a frozen `Build` with every figure in mm and its doubt, or one
`InputError` with every fault; edited text that leaves untouched lines alone; a history with undo.
"""

from trimwright.build.assumed import Assumed, assumed
from trimwright.build.beginning import First, beginning, filled_in, first_readings
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
from trimwright.build.cut_then import CutThen, can_be_cut, cut_now, cut_then
from trimwright.build.disk import fingerprint, write_new
from trimwright.build.document import Document
from trimwright.build.entry import Entry, Said, said
from trimwright.build.fault import Fault, InputError
from trimwright.build.handbook import describe
from trimwright.build.history import ConflictError, History
from trimwright.build.journal import Version
from trimwright.build.key_name import called
from trimwright.build.layout import Field, layout
from trimwright.build.load import Loaded, load, parse
from trimwright.build.noted import Noted, album
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
    ShaftPlace,
)
from trimwright.build.picture_file import (
    MOST_PICTURE_BYTES,
    NoPictureError,
    keep_picture,
    picture_bytes,
    picture_name,
    seen,
)
from trimwright.build.probe import CARD, Probe, ProbePlace, probe_edits, probe_place
from trimwright.build.reading import Reading, figures_of, measured, readings, value
from trimwright.build.source import MOST_BYTES
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
    NailPoint,
    Nails,
    Pressing,
    Row,
    Section,
    TunnelPoint,
)
from trimwright.build.wanted import Cover, Covers, Hours, LeftAsIs, Locked, Note, Wanted
from trimwright.build.whole import Build
from trimwright.build.written import changed, meet, met, written

__all__ = [
    "CARD",
    "MOST_BYTES",
    "MOST_PICTURE_BYTES",
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
    "CutThen",
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
    "Field",
    "First",
    "Fixing",
    "Handbrake",
    "History",
    "Hours",
    "InputError",
    "KnobPlace",
    "Layer",
    "LeftAsIs",
    "Lever",
    "LeverKnob",
    "Loaded",
    "Locked",
    "Mark",
    "Move",
    "NailPoint",
    "Nails",
    "NoPictureError",
    "Note",
    "Noted",
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
    "ShaftPlace",
    "Sheet",
    "Trims",
    "TunnelPoint",
    "Version",
    "Walls",
    "Wanted",
    "Width",
    "album",
    "assumed",
    "beginning",
    "called",
    "can_be_cut",
    "changed",
    "cut_now",
    "cut_then",
    "describe",
    "edited",
    "figures_of",
    "filled_in",
    "fingerprint",
    "first_readings",
    "keep_picture",
    "layout",
    "load",
    "measured",
    "meet",
    "met",
    "parse",
    "picture_bytes",
    "picture_name",
    "probe_edits",
    "probe_place",
    "readings",
    "said",
    "seen",
    "value",
    "write_new",
    "written",
]
