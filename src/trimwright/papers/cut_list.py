"""The cut list: one row a piece, its silhouette first."""

from trimwright.cabin import Cabin
from trimwright.drawing import Column, Element, Line, Row, Size
from trimwright.papers.leaf import Leaf
from trimwright.papers.tabled import tabled
from trimwright.parts import Panel
from trimwright.quantities import shown, shown_angle, shown_mass, shown_with_unit

PICTURE_MM = 30.0
SQUARE_DEG = 0.5  # what a saw set to square is trusted to; common practice, no source
COLUMNS = (
    (Column("", 34.0, "picture"), 34),
    (Column("piece", 36.0), 36),
    (Column("long x wide", 32.0), 32),
    (Column("sheet", 34.0), 32),
    (Column("edges", 40.0), 40),
    (Column("cut", 10.0, "tick"), 10),
)


def leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return every panel as a row, all silhouettes to one scale."""
    carcass = cabin.carcass
    if carcass is None or not carcass.panels:
        return ()
    longest = max(max(size_of(panel)) for panel in carcass.panels)
    rows = tuple(_row(cabin, panel, PICTURE_MM / longest) for panel in carcass.panels)
    words = (
        f"Sizes are over all, on the larger face, before any trim. Bare carcass"
        f" {shown_mass(carcass.mass_kg, cabin.build.unit)}. A saw takes its own width beside the"
        " line: cut outside it and leave the line. Guard on, push stick, eyes and ears covered;"
        " dust of plywood and its glue harms the lungs."
    )
    return tabled(size, cabin.build, ("Cut list", "console", "cut list"), words, COLUMNS, rows)


def size_of(panel: Panel) -> tuple[float, float]:
    """Return a panel's length and width over both faces [mm]."""
    points = (*panel.outer, *panel.inner)
    u, v = [p[0] for p in points], [p[1] for p in points]
    return max(u) - min(u), max(v) - min(v)


def edges_of(panel: Panel) -> str:
    """Return what a panel's edges are in words: square, or the bevels they have."""
    bevels = sorted({round(e.bevel_deg, 1) for e in panel.edges if e.bevel_deg > SQUARE_DEG})
    return "square" if not bevels else "bevels " + ", ".join(shown_angle(b) for b in bevels)


def _row(cabin: Cabin, panel: Panel, scale: float) -> Row:
    """Return one piece."""
    unit = cabin.build.unit
    long, wide = size_of(panel)
    picture, high = _silhouette(panel, scale)
    thick = shown_with_unit(panel.thickness, unit, step="fine")
    cells = (
        "",
        panel.name,
        f"{shown(long, unit, 'up')} x {shown_with_unit(wide, unit, 'up')}",
        f"{panel.material} {thick}, grain {panel.grain}",
        edges_of(panel),
        "",
    )
    return Row(cells, picture, (long * scale, high))


def _silhouette(panel: Panel, scale: float) -> tuple[tuple[Element, ...], float]:
    """Return a panel's outer face and holes to a scale, and its height on paper [mm]."""
    u0 = min(p[0] for p in panel.outer)
    v1 = max(p[1] for p in panel.outer)
    v0 = min(p[1] for p in panel.outer)

    def flat(points: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
        return tuple(((u - u0) * scale, (v1 - v) * scale) for u, v in points)

    drawn: list[Element] = [Line(flat(panel.outer), "visible", closed=True)]
    drawn += [Line(flat(hole.outline), "thin", closed=True) for hole in panel.holes]
    return tuple(drawn), (v1 - v0) * scale
