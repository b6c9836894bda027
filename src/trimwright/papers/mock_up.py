"""The mock-up: the console in card, 1:1, with fold lines and tabs, before any wood is bought."""

import math
from collections.abc import Callable

from msgspec import Struct

from trimwright.build import Build
from trimwright.cabin import Cabin, cabin
from trimwright.drawing import LABEL_MM, LEAD_MM, PART_MM, Line, PenName, Point, Setting, Size
from trimwright.papers import one_to_one
from trimwright.papers.clear_place import clear_place
from trimwright.papers.leaf import Leaf
from trimwright.papers.note import Note, note
from trimwright.papers.panel_drawing import turned
from trimwright.papers.piece import Piece, Shape
from trimwright.papers.shared_page import Paper
from trimwright.parts import Panel, PanelEdge
from trimwright.quantities import Quantity

CARD_MM = 1.0  # thick mounting card; common practice, no source
TAB_MM, SLANT_MM, MARGIN_MM = 14.0, 8.0, 0.5
LEAST_SHARE = 0.5  # of the usual width of name and words, on a narrow panel
FOLD: tuple[PenName, str] = ("centre", "fold")
CUT: tuple[PenName, str] = ("cut", "cut")
SAYS = (
    "Glue the pages on card, score and fold at the chain lines, cut along the cut lines. Glue tabs"
    " behind the next panel. Stand it in the car with the carpet down, go through every gear."
)


class _Tab(Struct, frozen=True):
    """A tab on one edge, corners in the panel's axes, and the panel it goes behind."""

    corners: tuple[tuple[float, float], ...]
    behind: str


def leaves(found: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return the panels of the same console in card, over as many pages as it takes."""
    carcass = None if found.build.console is None else cabin(in_card(found.build)).carcass
    if carcass is None or not carcass.panels:
        return ()
    pieces = tuple(_piece(panel) for panel in carcass.panels)
    return one_to_one.leaves(pieces, Paper("mock-up", size, found.build, SAYS))


def in_card(build: Build) -> Build:
    """Return a build with its console of card: butt joints, square edges, the same outside.

    Raises
    ------
    ValueError
        If there is no console.
    """
    console = build.console
    if console is None:
        raise ValueError("build must have a console, got none")
    sheet = console.sheet.model_copy(update={"thickness": Quantity(CARD_MM)})
    walls = console.walls.model_copy(update={"deck_joint": "butt", "runs_through": "walls"})
    scribe = console.scribe.model_copy(update={"edge": "square"})
    across = tuple(one.model_copy(update={"joint": "butt"}) for one in console.bulkheads)
    made = {"sheet": sheet, "walls": walls, "scribe": scribe, "bulkheads": across, "as_built": ()}
    return build.model_copy(update={"console": console.model_copy(update=made)})


def _piece(panel: Panel) -> Piece:
    """Return one panel in card with its tabs."""
    tabs = tuple(_tab(panel, edge) for edge in panel.edges if _has_tab(panel, edge))
    corners = (*panel.outer, *(corner for tab in tabs for corner in tab.corners))
    left, top = min(u for u, _ in corners), max(v for _, v in corners)

    def at(point: tuple[float, float]) -> Point:
        return point[0] - left + MARGIN_MM, top - point[1] + MARGIN_MM

    lines: list[Shape] = []
    notes = _name(panel, at)
    for edge in panel.edges:
        ring = tuple(at(point) for point in _run(panel, edge))
        folded = _has_tab(panel, edge)
        pen, layer = FOLD if folded else CUT
        lines.append(Line(ring, pen, layer=layer))
    for tab in tabs:
        lines.append(Line(tuple(at(corner) for corner in tab.corners), "thin", layer="tab"))
        u = sum(corner[0] for corner in tab.corners) / len(tab.corners)
        v = sum(corner[1] for corner in tab.corners) / len(tab.corners)
        x, y = at((u, v))
        (u0, v0), (u1, v1) = tab.corners[0], tab.corners[-1]
        # in an upright tab the words stand below each other
        at_mm, wide = ((-8.0, -1.5), 40.0) if abs(u1 - u0) > abs(v1 - v0) else ((-5.0, -3.5), 11.0)
        notes.append(note((x + at_mm[0], y + at_mm[1]), tab.behind, wide, Setting(LABEL_MM)))
    for hole in panel.holes:
        ring = tuple(at(point) for point in hole.outline)
        lines.append(Line(ring, "cut", closed=True, layer="cut"))
    wide = max(u for u, _ in corners) - left + 2 * MARGIN_MM
    high = top - min(v for _, v in corners) + 2 * MARGIN_MM
    return Piece(panel.name, "", wide, high, tuple(lines), tuple(notes))


def _name(panel: Panel, at: Callable[[tuple[float, float]], Point]) -> list[Note]:
    """Return a panel's name and which way it lies, where there is room."""
    rings = (panel.outer, *(hole.outline for hole in panel.holes))
    place, share = clear_place(rings, (36.0, 14.0))
    (x, y), share = at(place), min(max(share, LEAST_SHARE), 1.0)
    name = panel.name[:1].upper() + panel.name[1:]
    head = note((x - 30.0 * share, y - 9.0), name, 80.0 * share, Setting(PART_MM, "say"))
    below = head.area[3] + 1.5
    said = note(
        (x - 30.0 * share, below), f"{turned(panel)} · card, 1:1", 70.0 * share, Setting(LEAD_MM)
    )
    return [Note((*head.texts, *said.texts))]


def _has_tab(panel: Panel, edge: PanelEdge) -> bool:
    """Return whether an edge has a tab: of two panels that meet, one has.

    Deck and bulkheads have them on every joint, walls and decks on the mitre to the next panel.
    """
    if not edge.meets or edge.kind == "scribe":
        return False
    return edge.kind == "joint" or panel.name < edge.meets


def _run(panel: Panel, edge: PanelEdge) -> tuple[tuple[float, float], ...]:
    """Return the corners of one edge, both ends included."""
    count = len(panel.outer)
    return tuple(panel.outer[k % count] for k in range(edge.start, (edge.end or count) + 1))


def _tab(panel: Panel, edge: PanelEdge) -> _Tab:
    """Return a tab outside an edge, slanted at its ends so that neighbours do not touch."""
    run = _run(panel, edge)
    a, b = run[0], run[-1]
    length = math.dist(a, b) or 1.0
    way = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    out = (way[1], -way[0])
    slant = min(SLANT_MM, length / 3)

    def corner(start: tuple[float, float], along: float) -> tuple[float, float]:
        return (
            start[0] + way[0] * along + out[0] * TAB_MM,
            start[1] + way[1] * along + out[1] * TAB_MM,
        )

    return _Tab((a, corner(a, slant), corner(b, -slant), b), f"behind {edge.meets}")
