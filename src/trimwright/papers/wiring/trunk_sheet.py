"""Trunks in plan and in section, to scale: every wire in its true outside, the wrap, the hole, the room."""

from functools import partial
from math import floor

from trimwright.cabin import Cabin
from trimwright.drawing import (
    LABEL_MM,
    Circle,
    Column,
    Element,
    Line,
    Row,
    Size,
    Text,
    text_width,
)
from trimwright.papers.leaf import Leaf
from trimwright.papers.tabled import tabled
from trimwright.papers.wiring import hinge_figure
from trimwright.papers.wiring.fitting_row import fitting_row
from trimwright.papers.wiring.trunk_plan import plan_leaves
from trimwright.papers.wiring.wire_list import wire_number
from trimwright.papers.wiring.wording import colour_words, named
from trimwright.quantities import Unit, shown_sure, shown_with_unit
from trimwright.wiring import WRAP_MM, Bundling, Crossing, bundlings, crossings

PICTURE_MM = 70.0  # that the widest section may take
MOST_SCALE, LEAST_SCALE = 4, 1
MARGIN_MM, FREE_MM = 3.0, 0.4
COLUMNS = (
    (Column("section", 76.0, "picture"), 76),
    (Column("trunk", 46.0), 46),
    (Column("wires", 62.0), 62),
)


def leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return the trunks in plan, then every one that wires lie in; none without a wiring."""
    found = cabin.wiring
    if found is None:
        return ()
    trunks = bundlings(found)
    if not trunks:
        return plan_leaves(cabin, size)
    unit = cabin.build.unit
    over = {one.own.number: one for one in crossings(found)}
    rows: list[Row] = []
    for one in trunks:
        rows.append(fitting_row(COLUMNS, partial(_row, one, unit)))
        if one.number in over:
            rows.append(_hinge(over[one.number], unit))
    wrap = shown_with_unit(WRAP_MM, unit, step="fine")
    words = (
        f"To scale, each by its own. Wires in their true outside diameter, packed as closely as was"
        f" found; round two or more a wrap of {wrap}. Dashed: the hole. Chain lines: the room there"
        " is for it. Figures in the circles are those beside them."
    )
    names = ("Trunks in section", "wiring", "trunks")
    sections = tabled(size, cabin.build, names, words, COLUMNS, tuple(rows))
    return (*plan_leaves(cabin, size), *sections)


def _hinge(one: Crossing, unit: Unit) -> Row:
    """Return a trunk's loom over its hinge."""
    drawn, size = hinge_figure.picture(one)
    words = "seen along the hinge axis (the cross), in proportion; dashed: open"
    return Row(("", "\n".join(hinge_figure.told(one, unit)), words), drawn, size)


def scale_of(one: Bundling) -> float:
    """Return how many times larger than true a section is drawn: whole, as long as it fits."""
    across = _across(one)
    if across <= 0:
        return MOST_SCALE
    whole = floor(PICTURE_MM / across)
    return min(MOST_SCALE, whole) if whole >= LEAST_SCALE else PICTURE_MM / across


def _times(scale: float) -> str:
    """Return a scale in words."""
    return f"drawn {scale:.3g} times full size" if scale != 1 else "drawn full size"


def _across(one: Bundling) -> float:
    """Return how wide the section of a trunk is drawn, at full size [mm]."""
    bundle = 0.0 if one.bundle is None else one.bundle.diameter_mm
    hole = 0.0 if one.trunk.hole is None else one.trunk.hole.value
    room = 0.0 if one.trunk.room is None else one.trunk.room.value
    return max(bundle, hole, room)


def _row(one: Bundling, unit: Unit, most: int) -> Row:
    """Return one trunk: its section, its figures, its wires by the numbers in the circles."""
    scale = scale_of(one)
    picture, side = section(one, scale)
    wires = [
        f"{number} = {wire_number(wire)} {wire.name} {colour_words(wire.colour)}"
        for number, wire in enumerate(one.wires, start=1)
    ]
    told = [named(wires, most, between="\n")]
    if one.unknown:
        unknown = named([wire.name for wire in one.unknown], most)
        told.append(f"not drawn, as their outside is not known: {unknown}")
    figures = [*trunk_figures(one, unit), _times(scale)]
    if sum(isinstance(part, Text) for part in picture) < len(one.wires):
        figures.append("some circles too small for their number")
    return Row(("", "\n".join(figures), "\n".join(told)), picture, (side, side))


def section(one: Bundling, scale: float) -> tuple[tuple[Element, ...], float]:
    """Return a trunk in section at a scale, and the side of the square it takes [mm]."""
    side = _across(one) * scale + 2 * MARGIN_MM
    middle = (side / 2, side / 2)
    drawn: list[Element] = []
    if one.trunk.hole is not None:
        drawn.append(Circle(middle, one.trunk.hole.value / 2 * scale, "hidden", layer="hole"))
    if one.trunk.room is not None:
        half = one.trunk.room.value / 2 * scale
        drawn += [
            Line(((0.0, side / 2 + y), (side, side / 2 + y)), "centre", layer="room")
            for y in (-half, half)
        ]
    if one.bundle is None:
        return tuple(drawn), side
    if one.bundle.wrap_mm:
        for across in (one.bundle.diameter_mm, one.bundle.bare_mm):
            drawn.append(Circle(middle, across / 2 * scale, "thin", layer="wrap"))
    widths = one.bundle.diameters_mm
    for number, (width, (x, y)) in enumerate(
        zip(widths, one.bundle.centres_mm.tolist(), strict=True), start=1
    ):
        at = (middle[0] + x * scale, middle[1] + y * scale)
        drawn.append(Circle(at, width / 2 * scale, "thin", layer="wire"))
        if text_width(str(number), LABEL_MM) + FREE_MM < width * scale:
            text = Text((at[0], at[1] + 0.35 * LABEL_MM), str(number), LABEL_MM, anchor="middle")
            drawn.append(text)
    return tuple(drawn), side


def trunk_figures(one: Bundling, unit: Unit) -> list[str]:
    """Return what is known of a trunk, a line each."""
    told = [f"{one.trunk.start} to {one.trunk.end}, {shown_with_unit(one.long_mm, unit)} long"]
    count = len(one.wires) + len(one.unknown)
    told.append(f"{count} wire{'s' if count > 1 else ''}")
    if one.bundle is None:
        return [*told, "thickness not known"]
    thick = shown_with_unit(one.bundle.diameter_mm, unit, "up", step="fine")
    told.append(f"bundle {thick} thick" + (" and more" if one.unknown else ""))
    if one.trunk.laid == "flat":
        flat = (max(one.bundle.diameters_mm), sum(one.bundle.diameters_mm))
        high, wide = (shown_with_unit(mm, unit, "up", step="fine") for mm in flat)
        told.append(f"laid flat it is {high} thick and {wide} wide, not as drawn")
    if one.passage is not None and one.trunk.hole is not None:
        hole = shown_with_unit(one.trunk.hole.value, unit, step="fine")
        told.append(f"hole {hole}, {shown_sure(min(one.passage.by_area, 1.0))} of its area filled")
    if one.trunk.room is not None:
        told.append(f"room {shown_with_unit(one.trunk.room.value, unit, step='fine')}")
    if one.bend is not None:
        told.append(
            f"bend no tighter than {shown_with_unit(one.bend.radius_mm, unit, 'up')} radius"
        )
    if one.trunk.bends is not None:
        told.append(f"its bend: {shown_with_unit(one.trunk.bends.value, unit)}")
    return told
