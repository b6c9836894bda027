"""The gauge of the lever's opening: the hole, and where shaft and knob are in every gear."""

import numpy as np
from numpy.typing import NDArray

from trimwright.cabin import Cabin
from trimwright.car import LeverPositions, World, lever
from trimwright.drawing import LABEL_MM, NAME_MM, WORD_MM, Circle, Line, Point, Setting
from trimwright.papers.note import Note, note
from trimwright.papers.piece import Piece, Shape
from trimwright.papers.wording import place_along
from trimwright.parts import Carcass, Hole, Panel
from trimwright.quantities import shown

Floats = NDArray[np.float64]
RIM_MM, HEAD_MM = 2.0, 14.0
NAMED = ("lever", "gear", "shift")


def lever_piece(cabin: Cabin) -> Piece | None:
    """Return the gauge, seen from above with the front at the left; None where no lever was read."""
    stick = lever(World.nominal(cabin.build, cabin.ledger))
    if stick is None:
        return None
    spot = opening(cabin.carcass, stick)
    height = _deck_height(cabin.carcass, stick)
    shafts = stick.shaft_at(np.array([height]))[0, :, 0]
    knobs = stick.knobs[0, :, :2]
    rim = None if spot is None else _in_car(*spot)
    points = np.concatenate([shafts, knobs] + ([] if rim is None else [rim]))
    radius = float(stick.knob_radius[0])
    low, high = points.min(axis=0) - radius - RIM_MM, points.max(axis=0) + radius + RIM_MM

    def at(x: float, y: float) -> Point:
        return float(x - low[0]), float(HEAD_MM + high[1] - y)

    lines: list[Shape] = []
    if rim is not None:
        ring = tuple(at(float(x), float(y)) for x, y in rim)
        lines.append(Line(ring, "cut", closed=True, layer="cut"))
    shaft = float(stick.shaft_radius[0])
    lines += [Circle(at(*place), radius, "other-body", layer="knob") for place in knobs]
    lines += [Circle(at(*place), shaft, "visible", layer="gear") for place in shafts]
    middle = (at(low[0] + 4.0, 0.0), at(high[0] - 4.0, 0.0))
    lines.append(Line(middle, "centre", layer="datum"))
    notes = _notes(cabin, stick, spot)
    for gear, place in zip(stick.gears, knobs, strict=True):
        x, y = at(*place)
        notes.append(note((x - 5.0, y + radius - 7.0), gear, 30.0, Setting(LABEL_MM)))
    notes.append(note((1.0, middle[0][1] + 1.0), "middle", 20.0, Setting(LABEL_MM)))
    wide, tall = high - low
    size = (max(float(wide), 130.0), float(tall) + HEAD_MM)
    return Piece("lever opening", "", *size, tuple(lines), tuple(notes))


def _notes(cabin: Cabin, stick: LeverPositions, spot: tuple[Panel, Hole] | None) -> list[Note]:
    """Return the heading and what to do."""
    unit = cabin.build.unit
    words = "From above, front of the car at the left, right of the car upwards."
    if spot is None:
        words += " No opening is designed yet: lay it out round these places."
    else:
        hole = spot[1]
        long, wide = shown(hole.long, unit), shown(hole.wide, unit)
        words += f" Opening {long} x {wide} in bare wood, neutral {_neutral(cabin, stick)}."
    offer = "offer up round the lever in every gear; touches in: ________ by: ________"
    return [
        note((2.0, 1.0), "Lever opening", 50.0, Setting(NAME_MM, "say")),
        note((52.0, 1.0), offer, 76.0, Setting(WORD_MM, "count-bold")),
        note((2.0, 9.0), words, 126.0),
    ]


def _neutral(cabin: Cabin, stick: LeverPositions) -> str:
    """Return where the knob is in neutral, along the car."""
    k = stick.gears.index("neutral") if "neutral" in stick.gears else 0
    return place_along(float(stick.knobs[0, k, 0]), cabin.build.unit)


def opening(carcass: Carcass | None, stick: LeverPositions) -> tuple[Panel, Hole] | None:
    """Return the opening of the deck that is named after the lever, or nearest to it."""
    if carcass is None:
        return None
    holes = [(panel, hole) for panel in carcass.panels for hole in panel.holes]
    place = stick.knobs[0, 0, :2]

    def far(one: tuple[Panel, Hole]) -> tuple[bool, float]:
        panel, hole = one
        centre = panel.frame.placed(np.array([hole.centre]))[0, :2]
        named = any(word in hole.name.lower() for word in NAMED)
        return not named, float(np.linalg.norm(centre - place))

    return min(holes, key=far) if holes else None


def _deck_height(carcass: Carcass | None, stick: LeverPositions) -> float:
    """Return the height of the deck's top under neutral [mm]; of the tunnel without a console."""
    if carcass is None:
        return 0.0
    return float(carcass.deck_top(stick.knobs[0, :1, 0])[0])


def _in_car(panel: Panel, hole: Hole) -> Floats:
    """Return a hole's outline as seen from above, (n, 2) along and across [mm]."""
    return panel.frame.placed(np.array(hole.outline))[:, :2]
