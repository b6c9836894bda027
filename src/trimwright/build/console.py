"""The console as the builder wants it."""

import re
from typing import ClassVar, Literal

from trimwright.build.entry import Entry
from trimwright.build.field import key, maybe, otherwise, part, several
from trimwright.build.form import Split
from trimwright.build.kind import (
    ChosenAcross,
    ChosenAlong,
    ChosenAngle,
    ChosenLength,
    MeasuredLength,
    MeasuredTorque,
)

Joint = Literal["butt", "rebate", "housing"]


class Sheet(Entry):
    """The sheet everything is cut from."""

    WAY: ClassVar[str] = "caliper"

    material: str
    thickness: MeasuredLength
    WHOLE: ClassVar[Split | None] = Split(
        re.compile(r"(?P<material>[^\W\d].*?) +(?P<thickness>\d.*)"),
        "a sheet and its thickness",
        "birch plywood 12 mm",
        main="thickness",
    )


class DeckPoint(Entry):
    """The bare deck's top face at one place."""

    at: ChosenAlong = key("at", "Where, along the car.", "70 ahead")
    height: ChosenLength = key("height", "Height of the bare deck above the datum.", "196")


class Width(Entry):
    """The bare console's outside at deck level, at one place."""

    at: ChosenAlong = key("at", "Where, along the car.", "70 ahead")
    left: ChosenLength = key("left", "From the middle to the left outside.", "112")
    right: ChosenLength = key("right", "From the middle to the right outside.", "112")


class Walls(Entry):
    """The two walls, and how they meet the deck."""

    deck_joint: Joint = otherwise("deck joint", "How walls and deck meet.", "butt")
    runs_through: Literal["walls", "deck"] = otherwise(
        "runs through", "Which of the two runs through at the joint.", "walls"
    )
    joint_depth: ChosenLength = otherwise("joint depth", "Depth of a rebate or housing.", "6 mm")
    lean: ChosenAngle = otherwise("lean", "How far the walls lean, wider at the bottom.", "0 deg")


class Scribe(Entry):
    """The walls' lower edge."""

    over: str = otherwise("over", "What the edge rests on.", "carpet")
    deeper_by: ChosenLength = otherwise("deeper by", "Extra depth cut on purpose.", "0 mm")
    edge: Literal["bevelled", "square", "as suits"] = otherwise(
        "edge", "Form of the lower edge.", "bevelled"
    )


class Bulkhead(Entry):
    """A panel across the console."""

    name: str = key("name", "What it is called.", "gear")
    at: ChosenAlong = key("at", "Where its front face is.", "250 behind")
    joint: Joint = otherwise("joint", "How it meets walls and deck.", "butt")


class Opening(Entry):
    """A hole for a lever or a device."""

    name: str = key("name", "What goes through it.", "gear lever")
    at: ChosenAlong = key("at", "Where its middle is, along the car.", "190 behind")
    off_middle: ChosenAcross = otherwise("off middle", "Where its middle is, across.", "0")
    long: ChosenLength = key("long", "Its length along the car, in bare wood.", "130")
    wide: ChosenLength = key("wide", "Its width across the car, in bare wood.", "110")
    corner: ChosenLength = otherwise("corner", "Radius of its corners.", "0 mm")
    lies: Literal["deck"] = otherwise("lies", "The panel it is in.", "deck")


class Fixing(Entry):
    """A bolt that holds the console down."""

    bolt: str = key("bolt", "The bolt's thread.", "M6")
    at: ChosenAlong = key("at", "Where, along the car.", "610 behind")
    off_middle: ChosenAcross = otherwise("off middle", "Where, across the car.", "0")
    torque: MeasuredTorque = otherwise("torque", "How hard it is done up.", "4 N m ± 2")


class AsBuilt(Entry):
    """Something measured on a finished panel, which overrules its design."""

    WAY: ClassVar[str] = "caliper"

    panel: str = key("panel", "The panel.", "left wall")
    what: Literal["height", "thickness"] = key("what", "What was measured.", "height")
    at: ChosenAlong | None = maybe("at", "Where, along the car.", "60 ahead")
    reads: MeasuredLength = key("reads", "What it measures.", "187 ± 0.5")


class Trims(Entry):
    """Wood taken off the design before it is covered; the design itself stays as written."""

    nose_lower_by: ChosenLength = otherwise(
        "nose lower by", "How much lower the deck's front end is cut.", "0 mm"
    )
    front_shorter_by: ChosenLength = otherwise(
        "front shorter by", "How much is cut off the front end.", "0 mm"
    )
    left_in_by: ChosenLength = otherwise(
        "left wall in by", "How much further in the whole left wall goes.", "0 mm"
    )
    right_in_by: ChosenLength = otherwise(
        "right wall in by", "How much further in the whole right wall goes.", "0 mm"
    )


class Console(Entry):
    """The console: carcass, scribe, openings, fixings."""

    sheet: Sheet = otherwise("sheet", "The sheet and its thickness.", "birch plywood 12 mm ± 0.3")
    deck_height: ChosenLength | None = maybe(
        "deck height", "Height of a level bare deck above the datum.", "205"
    )
    deck: tuple[DeckPoint, ...] = several(
        "deck", "The bare deck's profile, front to rear.", "{at: 70 ahead, height: 196}"
    )
    width: ChosenLength | None = maybe("width", "Bare outside width at deck level.", "236")
    widths: tuple[Width, ...] = several(
        "widths", "Bare half widths, front to rear.", "{at: 70 ahead, left: 112, right: 112}"
    )
    start: ChosenAlong = key("from", "The front end.", "70 ahead")
    end: ChosenAlong = key("to", "The rear end.", "690 behind")
    walls: Walls = part("walls", "The walls.")
    scribe: Scribe = part("scribe", "The lower edge.")
    bulkheads: tuple[Bulkhead, ...] = several(
        "bulkheads", "Panels across, front to rear.", "{name: gear, at: 250 behind}"
    )
    openings: tuple[Opening, ...] = several(
        "openings", "Holes in the deck.", "{name: gear lever, at: 190 behind, ...}"
    )
    held_by: tuple[Fixing, ...] = several(
        "held by", "Bolts that hold it down.", "{bolt: M6, at: 610 behind}"
    )
    as_built: tuple[AsBuilt, ...] = several(
        "as built", "What the finished panels measure.", "{panel: left wall, ...}"
    )
    trims: Trims = part("trims", "Wood taken off before covering.")
    revision: str = otherwise("revision", "Letter of this state of the design.", "A")
