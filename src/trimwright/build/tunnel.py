"""The tunnel as measured: the datum, layers on the metal, carpet, and sections."""

import re
from typing import Any, ClassVar, Literal

from trimwright.build.entry import Entry
from trimwright.build.field import key, maybe, otherwise, several
from trimwright.build.form import FreeKeys, Split
from trimwright.build.kind import (
    ChosenAlong,
    ChosenLength,
    MeasuredAcross,
    MeasuredAlong,
    MeasuredLength,
    MeasuredMass,
)
from trimwright.stock import way

Side = Literal["left", "right"]


class Datum(Entry):
    """The place from which everything is measured."""

    marks: str = key("marks", "What marks the datum for good.", "two scribed lines on the sills")
    top_here: str = key(
        "top of tunnel here", "What one touches on top of the tunnel at the datum.", "bare metal"
    )
    string: MeasuredLength | None = maybe(
        "string above tunnel",
        "Height of the string above the bare tunnel top at the datum.",
        "210 ± 1",
    )


class Layer(Entry):
    """A layer that stays on the metal, under the carpet."""

    WAY: ClassVar[str] = "caliper"

    name: str = key("name", "What the layer is.", "deadener")
    thick: MeasuredLength = key("thick", "Its thickness, as it lies.", "2 ± 0.5")
    start: MeasuredAlong = key("from", "Its front end.", "100 ahead")
    end: MeasuredAlong = key("to", "Its rear end.", "800 behind")


class Pressing(Entry):
    """The carpet's thickness under a lath with a known weight on it."""

    weight: MeasuredMass = key("weight", "All the weight on the lath.", "5 kg")
    lath_width: ChosenLength
    lath_length: ChosenLength
    thick: MeasuredLength = key("thick", "Thickness of the carpet under the lath.", "9 ± 0.5")
    SPLITS: ClassVar[dict[str, Split]] = {
        "lath": Split(
            re.compile("(?P<lath_width>.+?) *[x\u00d7] *(?P<lath_length>.+)"),
            "width and length of the lath",
            "12 x 200",
        )
    }


class Carpet(Entry):
    """The carpet on top of everything else: how thick, and how it gives."""

    loose: MeasuredLength | None = maybe("loose", "Thickness with nothing on it.", "15 ± 1")
    by_hand: MeasuredLength | None = maybe(
        "squeezed by hand", "Thickness squeezed as hard as a hand can.", "6 ± 1"
    )
    pressed: tuple[Pressing, ...] = several(
        "pressed", "Thickness under a narrow lath with weights on it.", "{weight: 5 kg, ...}"
    )

    @property
    def lath_doubt_mm(self) -> float:
        """How far the width of the lath may be off, the same under all weights, 19 to 1 [mm]."""
        return way("steel rule").doubt_mm


class Row(Entry):
    """The tunnel's half widths at one depth below its top."""

    down: ChosenLength
    left: MeasuredLength | None = maybe("left", "Half width to the left.", "88")
    right: MeasuredLength | None = maybe("right", "Half width to the right.", "90")


class TunnelPoint(Entry):
    """One point of a section: how far from the middle, how far below the top."""

    off_middle: MeasuredAcross
    down: MeasuredLength
    WHOLE: ClassVar[Split | None] = Split(
        re.compile(r"(?P<off_middle>[^,]+), *(?P<down>.+?) +down"),
        "a point of the section",
        "88 left, 30 down",
    )


class BitePoint(Entry):
    """One point of a gauge bite in the gauge's own place; a letter names a shared point."""

    letter: str = ""
    off_middle: MeasuredAcross
    down: MeasuredLength
    WHOLE: ClassVar[Split | None] = Split(
        re.compile(r"(?:(?P<letter>[A-Z]) at +)?(?P<off_middle>[^,]+), *(?P<down>.+?) +down"),
        "a point of the bite, with a letter if another bite has it too",
        "A at 12 right, 30 down",
    )


class Bite(Entry):
    """One bite of the contour gauge, in the gauge's own place."""

    points: tuple[BitePoint, ...] = key(
        "points", "The points of this bite, left to right.", "A at 12 right, 30 down"
    )


class NailPoint(Entry):
    """One point by its distances from two nails."""

    left: MeasuredLength
    right: MeasuredLength
    WHOLE: ClassVar[Split | None] = Split(
        re.compile(r"from left +(?P<left>.+?), *from right +(?P<right>.+)"),
        "a point by its distances from the left nail and from the right nail",
        "from left 312, from right 287",
    )


class Nails(Entry):
    """Points taken from two nails in a level board above the tunnel, square across the car."""

    apart: MeasuredLength = key("apart", "How far the two nails are apart.", "400")
    middle: NailPoint = key(
        "middle", "The mark on the middle of the tunnel's top.", "from left 212, from right 208"
    )
    points: tuple[NailPoint, ...] = key(
        "points",
        "The points touched, left to right, all below the nails.",
        "from left 312, from right 287",
    )


class Corner(Entry):
    """A marked corner of a section, where the surface folds."""

    down: ChosenLength
    side: Side
    WHOLE: ClassVar[Split | None] = Split(
        re.compile(r"down +(?P<down>.+?) +(?P<side>left|right)"),
        "a reading of this section",
        "down 30 left",
    )


def _rows(name: str, found: re.Match[str]) -> dict[str, Any]:
    """Return what the key 'down 30' itself says about its row."""
    del name
    return {"down": found["down"]}


class Section(Entry):
    """One cross-section of the tunnel, as measured."""

    at: MeasuredAlong = key("at", "Where the section is, along the car.", "300 behind")
    by: str | None = maybe("by", "How it was measured.", "contour gauge")
    over: str = otherwise("over", "What it was measured over.", "bare metal")
    top: MeasuredLength | None = None
    top_from: Literal["string", "floor"] | None = None
    rows: tuple[Row, ...] = ()
    points: tuple[TunnelPoint, ...] = several(
        "points", "Points of the section, left to right.", "88 left, 30 down"
    )
    bites: tuple[Bite, ...] = several(
        "bites", "Bites of a contour gauge that overlap.", "{points: [...]}"
    )
    nails: Nails | None = maybe(
        "nails", "Points by their distances from two nails in a board.", "{apart: 400, ...}"
    )
    depths_within: ChosenLength | None = maybe(
        "depths within", "How far the depths of its rows may be off, all alike, 19 to 1.", "1"
    )
    corners: tuple[Corner, ...] = several(
        "corners", "Readings where the surface folds.", "down 30 left"
    )
    girth: MeasuredLength | None = maybe(
        "girth floor to floor", "Tape over the tunnel, from floor to floor.", "604"
    )
    width_at_shoulder: MeasuredLength | None = maybe(
        "width at shoulder", "Whole width where the top turns into the sides.", "190"
    )
    width_at_floor: MeasuredLength | None = maybe(
        "width at floor", "Whole width where the sides meet the floor.", "330"
    )
    height_above_floor: MeasuredLength | None = maybe(
        "height above floor", "Height of the tunnel's top above the floor.", "180"
    )
    SPLITS: ClassVar[dict[str, Split]] = {
        "top": Split(
            re.compile(
                r"(?P<top>.+?) +(?:below +(?=s)|above +(?=f))(?P<top_from>string|floor)(?P<top_more>.*)"
            ),
            "a height above the floor or a depth below the string",
            "149 below string",
        )
    }
    FREE: ClassVar[FreeKeys | None] = FreeKeys(
        re.compile(r"down +(?P<down>\S.*)"), "rows", _rows, "down 30: {left: 88, right: 90}"
    )

    @property
    def depth_doubt_mm(self) -> float:
        """How far the depths of its rows may be off, all alike, at 19 to 1 [mm].

        They are set on one gauge from one top, as well as one reading by its way is taken;
        common practice, no source.
        """
        return self.depths_within.value if self.depths_within else way(self.by or "tape").doubt_mm

    @property
    def touched(self) -> bool:
        """Whether points of it were read, not its widths alone."""
        return bool(self.rows or self.points or self.bites or self.nails)


class Mark(Entry):
    """A reading of a section, named by its place: one end of a diagonal."""

    at: ChosenAlong
    down: ChosenLength
    side: Side
    WHOLE: ClassVar[Split | None] = Split(
        re.compile(r"down +(?P<down>.+?) +(?P<side>left|right) +at +(?P<at>.+)"),
        "a reading of a section and where that section is",
        "down 30 left at 300 behind",
    )


class Diagonal(Entry):
    """A straight distance between two readings: a second way to the same thing."""

    start: Mark = key("from", "One end.", "down 30 left at 300 behind")
    end: Mark = key("to", "The other end.", "down 30 right at 600 behind")
    length: MeasuredLength = key("length", "The straight distance between them.", "352")
