"""Card gauges: sections, dash and lever opening at 1:1, to offer up in the car before wood is cut."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Section
from trimwright.cabin import Cabin
from trimwright.car import DashUnderside, Tunnel, Unmeasured, World, dash
from trimwright.drawing import (
    LABEL_MM,
    LEAD_MM,
    NAME_MM,
    WORD_MM,
    Fill,
    Line,
    Point,
    Setting,
    Size,
    datum_tick,
)
from trimwright.papers import one_to_one
from trimwright.papers.leaf import Leaf
from trimwright.papers.lever_gauge import lever_piece
from trimwright.papers.note import Note, note
from trimwright.papers.piece import Piece, Shape, layered
from trimwright.papers.shared_page import Paper
from trimwright.papers.wording import place_along
from trimwright.parts import Carcass
from trimwright.quantities import Unit, shown, shown_with_unit

Floats = NDArray[np.float64]
PAST_MM = 15.0  # past the console's lower edge that a gauge reaches down and out
RIM_MM, CARD_MM = 6.0, 42.0  # round the drawing; card above the highest point
LEAST_MM = 60.0  # of a dash gauge's length worth cutting
LEAST_ROOM_MM = 50.0  # for words, on a card however short
NAME, SMALL, BOLD = Setting(NAME_MM, "say"), Setting(LABEL_MM), Setting(WORD_MM, "count-bold")
SAYS = (
    "Glue the pages on card, cut along the cut line, offer it up level. Write down the daylight and"
    " enter it: 'card at 220 behind, 90 left: 2'. Keep fingers behind the blade."
)
TICKS_MM: dict[Unit, float] = {"mm": 50.0, "in": 50.8}
MOST_TICKS = 6


class _Card(Struct, frozen=True):
    """Where a card's own zero lies in its drawing [mm]: first axis right, second up."""

    zero: Point

    def at(self, across: float, up: float) -> Point:
        return self.zero[0] + across, self.zero[1] - up

    def line(self, points: Floats) -> tuple[Point, ...]:
        return tuple(self.at(float(a), float(b)) for a, b in points)


def leaves(cabin: Cabin, size: Size) -> tuple[Leaf, ...]:
    """Return a gauge for every section of the tunnel, for the dash and for the lever's opening.

    What was not measured is left out; what it misses stands on the last page.
    """
    found, missing = [], []
    skin = cabin.tunnel
    if isinstance(skin, Unmeasured):
        missing.append("sections of the tunnel")
    else:
        sections = sorted(cabin.build.car.tunnel, key=lambda one: one.at.value)
        found += [_section(cabin, skin, one) for one in sections]
        under = dash(World.nominal(cabin.build, cabin.ledger))
        if under is None:
            missing.append("the dash's underside")
        else:
            found += _dashes(cabin, skin, under)
    lever = lever_piece(cabin)
    if lever is None:
        missing.append("the gear lever's knob in neutral and at its furthest")
    else:
        found.append(lever)
    if missing:
        found.append(_missing(tuple(missing)))
    paper = Paper("card gauge", size, cabin.build, SAYS)
    return one_to_one.leaves(tuple(found), paper)


def _missing(what: tuple[str, ...]) -> Piece:
    """Return a piece that only says what was not measured."""
    words = "Not measured, so without a gauge: " + "; ".join(what) + "."
    said = note((2.0, 2.0), words, 120.0, Setting(LEAD_MM))
    return Piece("not measured", "", 124.0, said.area[3] + 4.0, (), (said,))


def _lowest(carcass: Carcass | None, x: float) -> tuple[float, float] | None:
    """Return how far out and how far down the console's edges reach near a place [mm]."""
    if carcass is None or not carcass.lower_edges:
        return None
    points = np.concatenate([np.concatenate([e.outer, e.inner]) for e in carcass.lower_edges])
    near = points[np.abs(points[:, 0] - x) < 60.0]  # noqa: PLR2004  mm: a step of the grid and more
    points = near if len(near) else points
    return float(np.abs(points[:, 1]).max()) + PAST_MM, float(points[:, 2].min()) - PAST_MM


def _skin_line(skin: Tunnel, x: float, off_mm: float, reach: tuple[float, float] | None) -> Floats:
    """Return the skin at a place, offset outward, no farther than the console reaches, (n, 2)."""
    section = skin.section(x)
    way = np.gradient(section, axis=0)
    normal = np.stack([-way[:, 1], way[:, 0]], axis=-1)
    normal /= np.linalg.norm(normal, axis=-1, keepdims=True)
    line = section + off_mm * normal
    if reach is None:
        return line
    kept = (np.abs(line[:, 0]) <= reach[0]) & (line[:, 1] >= reach[1])
    return line[kept] if kept.any() else line


def _section(cabin: Cabin, skin: Tunnel, one: Section) -> Piece:
    """Return the gauge of one section, seen from behind: right is right."""
    x, unit = one.at.value, cabin.build.unit
    reach = _lowest(cabin.carcass, x)
    bare = _skin_line(skin, x, 0.0, reach)
    carpet = cabin.build.car.carpet
    loose = carpet.loose.value if carpet is not None and carpet.loose is not None else 0.0
    covered = _skin_line(skin, x, float(skin.layered(x)[0]) + loose, reach)
    both = np.concatenate([bare, covered])
    left, right = float(both[:, 0].min()), float(both[:, 0].max())
    low, high = float(both[:, 1].min()), float(both[:, 1].max())
    card = _Card((RIM_MM - left, RIM_MM + high + CARD_MM))
    lines: list[Shape] = [
        Line(card.line(bare), "cut", layer="cut"),
        Line(card.line(covered), "hidden", layer="covered"),
        *_card_rim(card, bare, high + CARD_MM),
    ]
    # left of the middle's chain line, from the card's edge
    side, room = float(bare[0, 0]) + 5.0, max(-float(bare[0, 0]) - 9.0, 60.0)
    says = _taken(one, loose)
    notes = [
        note(card.at(side, high + CARD_MM - 3.0), f"Section {place_along(x, unit)}", room, NAME),
        note(card.at(side, high + 30.0), _offer(place_along(x, unit)), room, BOLD),
        note(card.at(side, high + 20.0), says, room, SMALL),
        *_ticks(card, lines, bare, unit),
        note(card.at(left + 2.0, low + 8.0), "left", 20.0, BOLD),
        note(card.at(right - 12.0, low + 8.0), "right", 20.0, BOLD),
    ]
    ends = (card.at(0.0, high + 2.0), card.at(0.0, high + CARD_MM - 2.0))
    lines.append(Line(ends, "centre", layer="datum"))
    wide, tall = right - left + 2 * RIM_MM, high - low + CARD_MM + 2 * RIM_MM
    return Piece(f"section {place_along(x, unit)}", says, wide, tall, tuple(lines), tuple(notes))


def _card_rim(card: _Card, edge: Floats, top: float) -> list[Shape]:
    """Return the card's other sides: up from both ends of the cut edge and over the top."""
    a, b = edge[0], edge[-1]
    ring = np.array([a, (a[0], top), (b[0], top), b])
    return [Line(card.line(ring), "thin", layer="rim")]


def _offer(place: str) -> str:
    """Return what to write on a gauge in the car."""
    return f"offer up in the car {place}; daylight seen: ________ at ________"


def _taken(one: Section, loose_mm: float) -> str:
    """Return what the section was read over and from, in words."""
    words = f"Seen from behind. Cut edge: bare metal, read over {one.over}"
    if one.by:
        words += f" with {one.by}"
    if one.top is not None and one.top.text:
        words += f"; top {one.top.text} {'below' if one.top_from == 'string' else 'above'} "
        words += one.top_from or ""
    return words + ("." if loose_mm else "; the carpet's thickness is not known.")


def _ticks(card: _Card, lines: list[Shape], edge: Floats, unit: Unit) -> list[Note]:
    """Draw places across on the cut edge; return their words."""
    found = []
    step = TICKS_MM[unit]
    for count in (k for k in range(-MOST_TICKS, MOST_TICKS + 1) if k):
        place = count * step
        k = int(np.abs(edge[:, 0] - place).argmin())
        if abs(edge[k, 0] - place) > 3.0:  # noqa: PLR2004  mm: no edge there
            continue
        x, y = card.at(place, float(edge[k, 1]))
        lines.append(Line(((x, y - 1.0), (x, y - 5.0)), "thin", layer="datum"))
        words = f"{shown(abs(place), unit)} {'left' if count < 0 else 'right'}"
        found.append(note((x - 6.0, y - 9.0), words, 24.0, SMALL))
    return found


def _dashes(cabin: Cabin, skin: Tunnel, under: DashUnderside) -> list[Piece]:
    """Return a gauge for each place across at which the dash was read."""
    asked = sorted({float(y) for y in under.places[:, 1].round(3)})
    made = [_dash(cabin, skin, under, y) for y in asked]
    return [one for one in made if one is not None]


def _dash(cabin: Cabin, skin: Tunnel, under: DashUnderside, y: float) -> Piece | None:
    """Return the gauge that stands on the tunnel's bare top and touches the dash from below."""
    unit = cabin.build.unit
    read = under.places[np.abs(under.places[:, 1] - y) < 1e-3, 0]  # noqa: PLR2004  same place
    end = float(read.max())
    start = float(read.min())
    if end - start < LEAST_MM:
        start = max(under.span[0], end - LEAST_MM)
    x = np.linspace(start, end, 41)
    top = under.height(x, np.full_like(x, y))[0]
    foot = skin.under(x, np.full_like(x, y)).z[0]
    known = np.isfinite(top) & np.isfinite(foot)
    if known.sum() < 2:  # noqa: PLR2004  no edge to cut
        return None
    x, top, foot = x[known], top[known], foot[known]
    wide = max(float(x[-1] - x[0]), 96.0)
    card = _Card((RIM_MM - float(x[0]), RIM_MM + float(top.max())))
    ring = np.concatenate([np.stack([x, top], -1), np.stack([x, foot], -1)[::-1]])
    lines: list[Shape] = [Line(card.line(ring), "cut", closed=True, layer="cut")]
    side = "in the middle" if abs(y) < 1.0 else _off(y, cabin)
    name = f"Dash, {side}"
    left, high = float(x[0]), float(top.min())
    room = max(float(x[-1]) - left - 10.0, LEAST_ROOM_MM)
    notes = [
        note(card.at(left + 5.0, high - 6.0), name, room, NAME),
        note(
            card.at(left + 5.0, high - 22.0),
            "Top edge: underside of the dash. Foot: bare tunnel. Front of the car at the left.",
            room,
        ),
        note(card.at(left + 5.0, high - 40.0), _offer(side), room, BOLD),
    ]
    marks, words = _dash_marks(card, np.stack([x, top, foot]), read, unit)
    tall = float(top.max() - foot.min()) + 2 * RIM_MM + 4.0
    return Piece(name, "", wide + 2 * RIM_MM, tall, (*lines, *marks), (*notes, *words))


def _dash_marks(
    card: _Card, curve: Floats, read: Floats, unit: Unit
) -> tuple[list[Shape], list[Note]]:
    """Return the datum and the places read on a dash gauge; `curve` is x, top and foot, (3, n)."""
    lines, notes = list[Shape](), list[Note]()
    x, top, foot = curve
    if x[0] <= 0.0 <= x[-1]:
        zero = float(np.interp(0.0, x, foot))
        marks, words = layered(datum_tick(card.at(0.0, zero)), "datum")
        ends = (card.at(0.0, zero), card.at(0.0, float(np.interp(0.0, x, top))))
        lines += [*marks, Line(ends, "centre", layer="datum")]
        notes += [Note((word,)) for word in words]
    for place in sorted({float(value) for value in read}):
        if x[0] <= place <= x[-1]:
            px, py = card.at(place, float(np.interp(place, x, top)))
            lines.append(Fill(((px, py), (px - 1.5, py + 3.0), (px + 1.5, py + 3.0)), tone="ink"))
            notes.append(note((px + 2.0, py + 1.0), place_along(place, unit), 40.0, SMALL))
    return lines, notes


def _off(y: float, cabin: Cabin) -> str:
    """Return a place across in words."""
    return f"{shown_with_unit(abs(y), cabin.build.unit)} {'left' if y < 0 else 'right'}"
