"""Lines, tones and hatches as they leave the printer."""

from typing import Literal

from msgspec import Struct

PenName = Literal[
    "cut",
    "visible",
    "thin",
    "hidden",
    "centre",
    "other-body",
    "saw",
    "pencil",
    "break",
    "frame",
    "hatch",
    "rail",
    "wire",
]
HatchName = Literal["ply", "waste", "foam", "carpet", "metal"]
ToneName = Literal["ink", "half", "quarter", "light", "paper"]


class Pen(Struct, frozen=True):
    """A line: its width [mm] and its dashes and gaps [mm], none for a continuous line."""

    width_mm: float
    dashes_mm: tuple[float, ...] = ()


# ISO 128-2 line types 01, 02, 04, 05; wide to thin is 2 to 1, dashes in units of the thin line
PENS: dict[PenName, Pen] = {
    "cut": Pen(0.5),
    "visible": Pen(0.5),
    "thin": Pen(0.25),
    "hidden": Pen(0.25, (2.0, 1.0)),
    "centre": Pen(0.25, (5.5, 1.0, 0.5, 1.0)),
    "other-body": Pen(0.25, (5.0, 1.0, 0.5, 1.0, 0.5, 1.0)),
    "saw": Pen(0.35),
    "pencil": Pen(0.5),
    "break": Pen(0.25),
    "frame": Pen(0.5),
    "hatch": Pen(0.18),
    "rail": Pen(0.9),
    "wire": Pen(0.35),
}

# how light a tone prints: 0 is black ink, 1 is bare paper
TONES: dict[ToneName, float] = {
    "ink": 0.0,
    "half": 0.5,
    "quarter": 0.75,
    "light": 0.9,
    "paper": 1.0,
}
