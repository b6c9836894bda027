"""What stands beside and above the console: dash, seats, lever, handbrake, other bodies."""

import re
from typing import Any, ClassVar, Literal

from trimwright.build.entry import Entry
from trimwright.build.field import key, maybe, otherwise, several
from trimwright.build.form import FreeKeys, Split
from trimwright.build.kind import (
    MeasuredAcross,
    MeasuredAlong,
    MeasuredAngle,
    MeasuredLeft,
    MeasuredLength,
    MeasuredRight,
    MeasuredUp,
)


class DashReading(Entry):
    """The dash's underside above the tunnel top at one place."""

    along: MeasuredAlong
    height: MeasuredLength


def _dash_reading(name: str, found: re.Match[str]) -> dict[str, Any]:
    """Return what the key '60 ahead' or 'at datum' says."""
    del found
    return {"along": name}


class DashLine(Entry):
    """The dash's underside along the middle of the tunnel, straight up from the tunnel top."""

    WAY: ClassVar[str] = "straightedge and tape"

    over: str = otherwise("over", "What the tape stood on.", "bare metal")
    by: str | None = maybe("by", "How it was measured.", "tape")
    readings: tuple[DashReading, ...] = ()
    FREE: ClassVar[FreeKeys | None] = FreeKeys(
        re.compile(r"at datum|.+ (?:ahead|behind)"),
        "readings",
        _dash_reading,
        "60 ahead: 236 ± 3",
        scalar="height",
    )


class DashPoint(Entry):
    """One point of the dash's underside, off the middle."""

    WAY: ClassVar[str] = "straightedge and tape"

    at: MeasuredAlong = key("at", "Where it is, along the car.", "60 ahead")
    across: MeasuredAcross = key("across", "Where it is, across the car.", "80 left")
    up: MeasuredUp = key("up", "Its height above the datum.", "236 ± 3")
    by: str | None = maybe("by", "How it was measured.", "tape")


class BetweenSeats(Entry):
    """The free width between the seats, one figure for both sides."""

    at_hip: MeasuredLength = key("at hip", "Free width between the seats at the hip.", "262 ± 4")


class EdgePoint(Entry):
    """One point of a seat's inner edge: how far off the middle, at which height."""

    out: MeasuredLength
    up: MeasuredUp
    WHOLE: ClassVar[Split | None] = Split(
        re.compile(r"(?P<out>.+?) +at +(?!most)(?P<up>.+)"),
        "how far off the middle, at which height",
        "131 ± 3 at 40 up",
        main="out",
    )


class Seat(Entry):
    """One seat's inner edge, and how far the seat slides."""

    low: EdgePoint = key("inner edge low", "Lower point of the inner edge.", "131 ± 3 at 40 up")
    high: EdgePoint = key("inner edge high", "Upper point of the inner edge.", "128 ± 3 at 220 up")
    start: MeasuredAlong = key("from", "Front end of the inner edge.", "150 behind")
    end: MeasuredAlong = key("to", "Rear end of the inner edge.", "560 behind")
    slides: MeasuredLength = otherwise("slides", "How far the seat slides, end to end.", "0 mm")
    reading_at: Literal["rearmost", "foremost"] = otherwise(
        "reading at", "Where the seat stood when it was measured.", "rearmost"
    )


class Seats(Entry):
    """Both front seats, as seated facing forward."""

    left: Seat | None = maybe("left", "The left seat.", "{inner edge low: 131 at 40 up, ...}")
    right: Seat | None = maybe("right", "The right seat.", "{inner edge low: 131 at 40 up, ...}")


class Move(Entry):
    """Where the middle of the lever's knob is in one gear."""

    gear: str = key("gear", "The gear, or neutral.", "first")
    behind: MeasuredLength = key("behind datum", "How far behind the datum the knob is.", "150")
    above: MeasuredLength = key("above tunnel", "How high above the datum the knob is.", "268")
    off_middle: MeasuredAcross = key("off middle", "How far off the car's middle.", "62 left")


class ShaftPlace(Entry):
    """Where the middle of the lever's shaft passes, well below the knob, in one gear."""

    gear: str = key("gear", "The gear, or neutral.", "neutral")
    behind: MeasuredLength = key("behind datum", "How far behind the datum it passes.", "165")
    above: MeasuredLength = key("above tunnel", "How high above the datum that is.", "60")
    off_middle: MeasuredAcross = key("off middle", "How far off the car's middle.", "4 left")


class Lever(Entry):
    """The gear lever: its knob, its shaft, and where the knob goes."""

    knob: MeasuredLength = key("knob", "How wide the knob is, across.", "48")
    shaft: MeasuredLength = otherwise("shaft", "How thick the shaft is.", "14 mm ± 2")
    moves: tuple[Move, ...] = key(
        "moves", "The knob's middle in every gear, neutral first.", "{gear: neutral, ...}"
    )
    shaft_passes: tuple[ShaftPlace, ...] = several(
        "shaft passes",
        "Where the shaft's middle passes low down, in one gear or more: tells a bent lever.",
        "{gear: neutral, ...}",
    )
    boot_height: MeasuredLength | None = maybe(
        "boot height", "How high the boot stands above the tunnel.", "60"
    )


class KnobPlace(Entry):
    """One place of the knob's middle."""

    behind: MeasuredLength = key("behind datum", "How far behind the datum it is.", "150")
    above: MeasuredLength = key("above tunnel", "How high above the datum it is.", "268")
    off_middle: MeasuredAcross = otherwise(
        "off middle", "How far off the car's middle it is.", "0 mm ± 2"
    )


class LeverKnob(Entry):
    """The gear lever in a quarter of an hour: the ends of the knob's travel."""

    across: MeasuredLength = key("across", "How wide the knob is.", "48")
    shaft: MeasuredLength = otherwise("shaft", "How thick the shaft is.", "14 mm ± 2")
    neutral: KnobPlace = key(
        "neutral", "The knob in neutral.", "{behind datum: 150, above tunnel: 268}"
    )
    left: MeasuredLength = key(
        "furthest left", "How far left of the car's middle the knob's middle goes.", "62"
    )
    right: MeasuredLength = key(
        "furthest right", "How far right of the car's middle the knob's middle goes.", "58"
    )
    rear: KnobPlace = key(
        "furthest rear", "The knob furthest back.", "{behind datum: 236, above tunnel: 250}"
    )
    front: KnobPlace | None = maybe(
        "furthest front", "The knob furthest forward.", "{behind datum: 70, above tunnel: 262}"
    )


class EnginePlay(Entry):
    """How far engine and gearbox, and all that moves with them, shift either way."""

    across: MeasuredLength = otherwise("across", "Shift either way, across.", "12 mm ± 4")
    along: MeasuredLength = otherwise("along", "Shift either way, along.", "8 mm ± 3")


class Pivot(Entry):
    """A pivot's place."""

    behind: MeasuredLength = key("behind datum", "How far behind the datum it is.", "520")
    up: MeasuredUp = key("up", "Its height above the datum.", "60")
    off_middle: MeasuredAcross = key("off middle", "How far off the car's middle.", "40 right")


class Handbrake(Entry):
    """The handbrake: a bar that swings up."""

    pivot: Pivot = key("pivot", "Where it turns.", "{behind datum: 520, up: 60, ...}")
    long: MeasuredLength = key("long", "Length from pivot to tip.", "260")
    thick: MeasuredLength = key("thick", "Thickness of the grip.", "32")
    down: MeasuredAngle = key("down", "Angle above level when released.", "5 deg")
    up: MeasuredAngle = key("up", "Angle above level when pulled.", "35 deg")


class Box(Entry):
    """A box along the car's axes."""

    start: MeasuredAlong = key("from", "Its front face.", "140 ahead")
    end: MeasuredAlong = key("to", "Its rear face.", "20 behind")
    left: MeasuredLeft = key("left", "Its left face, left of the car's middle.", "90")
    right: MeasuredRight = key("right", "Its right face, right of the car's middle.", "110")
    bottom: MeasuredUp = key("bottom", "Its lower face, above the datum.", "120")
    top: MeasuredUp = key("top", "Its upper face, above the datum.", "260")


class Place(Entry):
    """A place in the car."""

    at: MeasuredAlong = key("at", "Along the car.", "140 ahead")
    across: MeasuredAcross = key("across", "Across the car.", "90 left")
    up: MeasuredUp = key("up", "Height above the datum.", "120")


class Cylinder(Entry):
    """A round body between two places."""

    start: Place = key("from", "Middle of one end.", "{at: 140 ahead, across: 0, up: 120}")
    end: Place = key("to", "Middle of the other end.", "{at: 20 behind, across: 0, up: 120}")
    thick: MeasuredLength = key("thick", "Its diameter.", "60")


class OutlinePoint(Entry):
    """A corner of an outline across the car."""

    across: MeasuredAcross
    up: MeasuredUp
    WHOLE: ClassVar[Split | None] = Split(
        re.compile(r"(?P<across>[^,]+), *(?P<up>.+)"), "a corner of the outline", "88 left, 30 up"
    )


class Outline(Entry):
    """An outline across the car, drawn out along it."""

    points: tuple[OutlinePoint, ...] = key("points", "Its corners, in order.", "88 left, 30 up")
    start: MeasuredAlong = key("from", "Its front end.", "140 ahead")
    end: MeasuredAlong = key("to", "Its rear end.", "20 behind")


class Body(Entry):
    """Anything else that is fixed to the car: one of a box, a cylinder, an outline."""

    name: str = key("name", "What it is.", "heater box")
    box: Box | None = maybe("box", "Its shape, if a box.", "{from: 140 ahead, ...}")
    cylinder: Cylinder | None = maybe("cylinder", "Its shape, if round.", "{from: ..., to: ...}")
    outline: Outline | None = maybe("outline", "Its shape, if neither.", "{points: [...]}")


BODY_SHAPES = ("box", "cylinder", "outline")
