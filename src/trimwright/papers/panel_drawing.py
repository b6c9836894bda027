"""One panel at 1:1, seen on the face it is marked out on: the outer one."""

import math
from functools import lru_cache

from trimwright.cabin import Cabin
from trimwright.drawing import (
    LABEL_MM,
    LEAD_MM,
    PART_MM,
    WORD_MM,
    Circle,
    Drawing,
    Element,
    Fill,
    Line,
    PenName,
    Point,
    Setting,
    Text,
    bevel_arrow,
    datum_tick,
    drill_cross,
    face_mark,
    grain_arrow,
)
from trimwright.papers.bolt_place import bolt_places, passed
from trimwright.papers.clear_place import clear_place
from trimwright.papers.note import Note, note
from trimwright.papers.panel_waste import Outline, Taken, taken
from trimwright.papers.piece import Piece, Shape, layered
from trimwright.papers.relief import reliefs
from trimwright.parts import Hole, LowerEdge, Panel, PanelEdge, Recess
from trimwright.quantities import Unit, shown, shown_with_unit

MARGIN_MM, ARROW_MM, RULE_MM = 2.0, 10.5, 9.0  # round the panel; with bevels outside; below it
ANGLE_MM = 10.0  # what an angle takes behind its arrow
SQUARE_DEG = 0.5  # what a saw set to square is trusted to; common practice, no source
ARROW_EVERY_MM, ARROW_END_MM = 80.0, 14.0
TICK_EVERY: dict[Unit, float] = {"mm": 100.0, "in": 101.6}
BLOCK_MM = (40.0, 24.0)  # half of what name, grain and face mark take
LEAST_SHARE = 0.55  # of that width, below which words stand better across a line
SMALL, BOLD, NAME = Setting(LABEL_MM), Setting(WORD_MM, "count-bold"), Setting(PART_MM, "say")


def panel_drawing(cabin: Cabin, panel: Panel) -> Drawing:
    """Return one panel at 1:1 with all its marks.

    The outline of the outer face is drawn as the saw line, the other face's dashed. Layers are
    named for what is on them: saw, other face, recess, centre, bevel, grain, face mark, datum,
    waste, open.
    """
    return panel_piece(cabin, panel).whole


def corner(panel: Panel) -> Point:
    """Return where the panel's own zero lies in its drawing [mm], v up there and y down here."""
    points = (*panel.outer, *panel.inner)
    left, top, _, _ = margins_mm(panel)
    return left - min(u for u, _ in points), top + max(v for _, v in points)


def margins_mm(panel: Panel) -> tuple[float, float, float, float]:
    """Return how much paper is left of, above, right of and below a panel [mm].

    There is more where bevel arrows come from outside, and below for the places along the car.
    """
    reach = [*panel.outer, *panel.inner]
    for edge in panel.edges:
        if edge.longer == "outer" and edge.bevel_deg > SQUARE_DEG:
            a, b = panel.outer[edge.start], panel.outer[edge.end]
            inward = _inward((b[0] - a[0], b[1] - a[1]))
            along = panel.outer[edge.start : (edge.end or len(panel.outer)) + 1]
            # its words stand behind the arrow, and are level
            out = ((ARROW_MM + ANGLE_MM) * inward[0], ARROW_MM * inward[1])
            reach += [(u - out[0], v - out[1]) for u, v in along]
    far, near = _bounds(tuple(reach)), _bounds((*panel.outer, *panel.inner))
    left, low, right, high = (max(MARGIN_MM, abs(a - b)) for a, b in zip(far, near, strict=True))
    return left, high, right, low + RULE_MM


def _bounds(points: tuple[Point, ...]) -> tuple[float, float, float, float]:
    """Return the least u and v and the largest u and v of points."""
    us, vs = zip(*points, strict=True)
    return min(us), min(vs), max(us), max(vs)


@lru_cache(maxsize=64)  # template, plotter and the panel's own file draw the same piece
def panel_piece(cabin: Cabin, panel: Panel) -> Piece:
    """Return one panel at 1:1, its words not yet settled."""
    u0, v0, u1, v1 = _bounds((*panel.outer, *panel.inner))
    left, above, right, below = margins_mm(panel)
    wide, high = u1 - u0 + left + right, v1 - v0 + above + below
    cut_off = taken(cabin, panel)
    made = _Marking(panel, cabin.build.unit, cut_off)
    made.name(cabin)
    for one in cut_off:
        made.waste(one)
    made.outlines()
    for hole in panel.holes:
        made.hole(hole)
    for recess in panel.recesses:
        made.recess(recess)
    made.bolts(cabin)
    for outline in reliefs(cabin, panel):
        made.relief(outline)
    edges = () if cabin.carcass is None else cabin.carcass.lower_edges
    lower = next((edge for edge in edges if edge.panel == panel.name), None)
    for edge in panel.edges:
        made.edge(edge, lower)
    made.grain()
    made.along(high)
    made.bolts_along(cabin, high)
    return Piece(panel.name, made.says, wide, high, tuple(made.lines), tuple(made.notes))


def turned(panel: Panel) -> str:
    """Return which face is up, and which way round the panel lies, in words."""
    way = panel.frame.u[0]
    if abs(way) > math.sqrt(0.5):
        return f"outside face up, nose to the {'left' if way > 0 else 'right'}"
    return "face that looks rearward up, right of the car at the right"


class _Marking:
    """A panel's drawing as it grows."""

    def __init__(self, panel: Panel, unit: Unit, cut_off: tuple[Taken, ...]) -> None:
        self.panel, self.unit = panel, unit
        self.zero = corner(panel)
        self.lines: list[Shape] = []
        self.notes: list[Note] = []
        self.says = ""
        asked = [area for one in cut_off if one.state == "open" for area in one.areas]
        rings = (
            panel.outer,
            *(hole.outline for hole in panel.holes),
            *self.datum_ring(),
            *(ring for area in asked for ring in (area[0], *area[1])),
        )
        place, share = clear_place(rings, BLOCK_MM)
        self.clear = self.at(place)
        self.share = min(max(share, LEAST_SHARE), 1.0)  # of the block's width: a narrow panel

    def datum_ring(self) -> tuple[Outline, ...]:
        """Return the datum's line, there and back: nothing is written across it."""
        panel = self.panel
        axis = 0 if abs(panel.frame.u[0]) > math.sqrt(0.5) else 1
        u = -panel.frame.origin[axis] / panel.frame.u[axis]
        us, vs = [p[0] for p in panel.outer], [p[1] for p in panel.outer]
        inside = min(us) < u < max(us)
        return (((u, min(vs)), (u, max(vs))),) if inside else ()

    def at(self, point: tuple[float, float]) -> Point:
        return (self.zero[0] + point[0], self.zero[1] - point[1])

    def ring(self, outline: Outline) -> tuple[Point, ...]:
        return tuple(self.at(point) for point in outline)

    def draw(self, elements: tuple[Element, ...], layer: str) -> None:
        """Add elements to a layer, each of their words as a note."""
        lines, words = layered(elements, layer)
        self.lines += lines
        self.notes += [Note((text,)) for text in words]

    def name(self, cabin: Cabin) -> None:
        """Say what it is, of what, which face is up and of which revision."""
        panel, console = self.panel, cabin.build.console
        middle = self.clear
        thick = shown_with_unit(panel.thickness, self.unit, step="fine")
        revision = "" if console is None else f" · revision {console.revision}"
        self.says = f"{turned(panel)} · {panel.material} {thick}{revision}"
        name = panel.name[:1].upper() + panel.name[1:]
        top = (middle[0] - 34.0 * self.share, middle[1] - 21.0)
        head = note(top, name, 90.0 * self.share, NAME)
        said = note((top[0], head.area[3] + 1.5), self.says, 75.0 * self.share, Setting(LEAD_MM))
        self.notes.append(Note((*head.texts, *said.texts)))

    def waste(self, one: Taken) -> None:
        """Hatch what is cut off, and say when or why."""
        for ring, holes in one.areas:
            inside = tuple(self.ring(hole) for hole in holes)
            self.lines.append(Fill(self.ring(ring), inside, hatch="waste", layer=one.state))
            self.lines.append(Line(self.ring(ring), "other-body", closed=True, layer=one.state))
        ring, holes = max(one.areas, key=lambda area: _area(area[0]))
        near = self.at(clear_place((ring, *holes), (1.0, 1.0))[0])
        self.notes.append(note((near[0] + 6.0, near[1] + 9.0), one.words, 52.0, BOLD, near))

    def outlines(self) -> None:
        """Draw the saw line, and the other face where the saw leans."""
        panel = self.panel
        self.lines.append(Line(self.ring(panel.outer), "saw", closed=True, layer="saw"))
        if any(edge.bevel_deg > SQUARE_DEG for edge in panel.edges):
            inner = Line(self.ring(panel.inner), "hidden", closed=True, layer="other face")
            self.lines.append(inner)

    def relief(self, outline: Outline) -> None:
        """Draw a relief over a loom under the carpet, open below, and name it."""
        points = self.ring(outline)
        self.lines.append(Line(points, "saw", layer="saw"))
        (x0, y0), (x1, _) = points[1], points[2]
        self.notes.append(
            note((x0, y0 - 6.0), "relief over the loom", 40.0, SMALL, ((x0 + x1) / 2, y0))
        )

    def hole(self, hole: Hole) -> None:
        """Draw a hole with its centre, and say its size."""
        x, y = self.at(hole.centre)
        self.lines.append(Line(self.ring(hole.outline), "saw", closed=True, layer="saw"))
        for arm in ((8.0, 0.0), (0.0, 8.0)):
            ends = ((x - arm[0], y - arm[1]), (x + arm[0], y + arm[1]))
            self.lines.append(Line(ends, "thin", layer="centre"))
        self.lines.append(Circle((x, y), 0.35, None, "ink", layer="centre"))
        long, wide = shown(hole.long, self.unit), shown(hole.wide, self.unit)
        words = f"{hole.name}: {long} x {wide}, corners {shown(hole.corner, self.unit)},"
        self.notes.append(note((x + 3.0, y + 2.0), f"{words} square through", 46.0))

    def bolts(self, cabin: Cabin) -> None:
        """Draw the holes of the bolts that pass the panel."""
        for one in passed(cabin, self.panel):
            near = self.at(one.spot)
            self.lines += drill_cross(near, one.bolt.hole_mm)
            self.notes.append(note((near[0] + 7.0, near[1] + 2.0), one.words, 46.0, SMALL, near))

    def recess(self, recess: Recess) -> None:
        """Draw a rebate or housing, and say how deep and on which face."""
        side = "on the other face" if recess.face == "inner" else "on this face"
        pen: PenName = "hidden" if recess.face == "inner" else "thin"
        ring = self.ring(recess.surface)
        self.lines.append(Line(ring, pen, closed=True, layer="recess"))
        near = self.at(_middle(recess.surface))
        deep = shown_with_unit(recess.depth, self.unit, step="fine")
        words = f"{recess.kind} for {recess.meets}\n{deep} deep, {side}"
        self.notes.append(note((near[0] + 8.0, near[1] + 5.0), words, 60.0, SMALL, near))

    def edge(self, edge: PanelEdge, lower: LowerEdge | None) -> None:
        """Draw an edge's bevel, and say what it meets."""
        ends = (edge.start, edge.end or len(self.panel.outer))
        points = [self.panel.outer[k % len(self.panel.outer)] for k in range(ends[0], ends[1] + 1)]
        if edge.kind == "scribe":
            self.scribe(edge, points, lower)
            return
        a, b = points[0], points[-1]
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        if edge.bevel_deg > SQUARE_DEG:
            self.bevel(middle, (b[0] - a[0], b[1] - a[1]), (edge.bevel_deg, edge.longer))
        if edge.meets:
            inward = _inward((b[0] - a[0], b[1] - a[1]))
            x, y = self.at((middle[0] + 9.0 * inward[0], middle[1] + 9.0 * inward[1]))
            self.notes.append(note((x + 5.0, y + 6.0), f"{edge.kind}: {edge.meets}", 45.0, SMALL))

    def scribe(
        self, edge: PanelEdge, points: list[tuple[float, float]], lower: LowerEdge | None
    ) -> None:
        """Say how the lower edge is cut; draw its bevel every so often where it has one."""
        leans = lower is not None and lower.form == "bevelled"
        place = self.at(points[len(points) // 3])
        says = "bevel as arrowed" if leans else "cut square"
        words = f"scribe: {says}, saw outside the line"
        self.notes.append(note((place[0] + 4.0, place[1] + 2.0), words, 70.0))
        if lower is None or not leans:
            return
        flat = self.panel.frame.flat(lower.outer)
        for place_u in _spread(flat[:, 0].min(), flat[:, 0].max()):
            k = int(abs(flat[:, 0] - place_u).argmin())
            at = (float(flat[k, 0]), float(flat[k, 1]))
            a, b = flat[max(k - 1, 0)], flat[min(k + 1, len(flat) - 1)]
            way = (abs(float(b[0] - a[0])), float((b[1] - a[1]) * (1 if b[0] > a[0] else -1)))
            self.bevel(at, way, (float(lower.slope_deg[k]), edge.longer))

    def bevel(self, at: Point, way: Point, lean: tuple[float, str]) -> None:
        """Draw the arrow of a bevel: its head on the short edge, on whichever face that is."""
        degrees, longer = lean
        inward = _inward(way)
        from_way, short, length = inward, at, 15.0
        if longer == "outer":
            deep = self.panel.thickness * math.tan(math.radians(degrees))
            short = (at[0] + inward[0] * deep, at[1] + inward[1] * deep)
            from_way, length = (-inward[0], -inward[1]), 10.0
        turn = math.degrees(math.atan2(-from_way[1], from_way[0]))
        words = f"{degrees:.1f}".removesuffix(".0") + "°"
        lines, texts = layered(bevel_arrow(self.at(short), turn, words, length), "bevel")
        self.lines += lines
        # first and firm: an angle belongs to its arrow
        self.notes[:0] = [Note((text,), firm=True) for text in texts]

    def grain(self) -> None:
        """Draw the grain, the face mark and what it means."""
        (x, y), share = self.clear, self.share
        self.draw(grain_arrow((x + 16.0 * share, y + 13.0), 36.0 * share), "grain")
        self.draw(face_mark((x - 28.0 * share, y + 19.0)), "face mark")
        self.notes.append(note((x - 27.0 * share, y + 10.0), self.panel.face_marks[0], 30.0, SMALL))

    def along(self, high_mm: float) -> None:
        """Draw the places along the car (across, on a bulkhead) below the panel."""
        panel, every = self.panel, TICK_EVERY[self.unit]
        us = [u for u, _ in (*panel.outer, *panel.inner)]
        low = min(v for _, v in (*panel.outer, *panel.inner))
        axis = 0 if abs(panel.frame.u[0]) > math.sqrt(0.5) else 1
        rate = panel.frame.u[axis]
        start = panel.frame.origin[axis] + low * panel.frame.v[axis] * (axis == 0)
        ends = sorted(start + rate * u for u in (min(us), max(us)))
        foot = high_mm - RULE_MM + 2.0
        rule = (self.at((min(us), 0.0))[0], self.at((max(us), 0.0))[0])
        self.lines.append(Line(((rule[0], foot), (rule[1], foot)), "thin", layer="datum"))
        for k in range(math.ceil(ends[0] / every), math.floor(ends[1] / every) + 1):
            x = self.at(((k * every - start) / rate, 0.0))[0]
            self.tick((x, foot), k * every, axis)

    def bolts_along(self, cabin: Cabin, high_mm: float) -> None:
        """Mark on a wall's places along the car the bolts that stand on its side."""
        panel = self.panel
        if abs(panel.frame.n[1]) < math.sqrt(0.5):
            return
        us = [u for u, _ in (*panel.outer, *panel.inner)]
        for place in bolt_places(cabin.build):
            u = (place.at[0] - panel.frame.origin[0]) / panel.frame.u[0]
            if place.at[1] * panel.frame.n[1] < 0 or not min(us) <= u <= max(us):
                continue
            x, foot = self.at((u, 0.0))[0], high_mm - RULE_MM + 2.0
            ends = ((x, foot - 3.0), (x, foot))
            self.lines.append(Line(ends, "visible", layer="datum"))
            words = f"{place.name}: {place.where(self.unit)}"
            self.notes.append(note((x + 1.0, foot - 4.0), words, 60.0, SMALL, (x, foot - 3.0)))

    def tick(self, at: Point, place_mm: float, axis: int) -> None:
        """Draw one place along or across the car."""
        words = ("ahead", "behind") if axis == 0 else ("left", "right")
        if abs(place_mm) < 1e-9:  # noqa: PLR2004  the datum itself
            name = "datum" if axis == 0 else "middle"
            self.draw(datum_tick(at, name), "datum")
            top = margins_mm(self.panel)[1]
            self.lines.append(Line(((at[0], at[1]), (at[0], top)), "centre", layer="datum"))
            return
        self.lines.append(Line(((at[0], at[1] - 1.5), (at[0], at[1] + 1.5)), "thin", layer="datum"))
        said = f"{shown(abs(place_mm), self.unit)} {words[place_mm > 0]}"
        self.notes.append(Note((Text((at[0], at[1] + 4.4), said, LABEL_MM, anchor="middle"),)))


def _middle(outline: Outline) -> tuple[float, float]:
    """Return the middle of an outline's extent."""
    us, vs = [u for u, _ in outline], [v for _, v in outline]
    return (min(us) + max(us)) / 2, (min(vs) + max(vs)) / 2


def _area(outline: Outline) -> float:
    """Return the area inside an outline [mm2]."""
    pairs = zip(outline, (*outline[1:], outline[0]), strict=True)
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)) / 2


def _inward(way: tuple[float, float]) -> tuple[float, float]:
    """Return the unit vector to the left of a direction: into a counter-clockwise outline."""
    length = math.hypot(*way) or 1.0
    return -way[1] / length, way[0] / length


def _spread(low: float, high: float) -> list[float]:
    """Return places along an edge for its arrows: near both ends and evenly between."""
    room = high - low - 2 * ARROW_END_MM
    if room <= 0:
        return [(low + high) / 2]
    count = max(1, math.ceil(room / ARROW_EVERY_MM))
    return [low + ARROW_END_MM + room * k / count for k in range(count + 1)]
