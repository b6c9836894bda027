"""One page of a wiring diagram: parts and joins set out, as high as they are let."""

from typing import Literal

from msgspec.structs import replace

from trimwright.wiring.diagram.across import EARTH_MM, NUMBER_MM, RAIL_NAME_MM, Across, across
from trimwright.wiring.diagram.column import Columns, columns
from trimwright.wiring.diagram.down import Down, down
from trimwright.wiring.diagram.drawn import Bar, DiagramPage, Head, Stroke, Symbol, Type, Words
from trimwright.wiring.diagram.extent import FRAMED, Extent, extent, numbers, words
from trimwright.wiring.diagram.part import Joint, Part
from trimwright.wiring.diagram.route import Line, Route, Router
from trimwright.wiring.diagram.row import LOADS, rows
from trimwright.wiring.diagram.stroke import Strokes, dots

LINE_MM = 3.4
NEAR_MM = 1e-6
UNDER_MM = 6.6  # from a foot to the baseline of its name
RAIL_PAST_MM, FOOT_PAST_MM = 2.5, 3.4


def page(
    parts: tuple[Part, ...],
    joints: tuple[Joint, ...],
    kind: Type,
    rails: tuple[str, ...],
    size: tuple[float, float],
) -> tuple[DiagramPage, dict[tuple[str, str], int]] | None:
    """Return a page, and by part and terminal the number of its path on the page, from 1.

    It is None where there is no room for all of it.

    Parameters
    ----------
    parts : tuple of Part
        All that stand on it.
    joints : tuple of Joint
        All between them, rails and feet.
    kind : Type
        How words are set.
    rails : tuple of str
        Every rail of the wiring, in order; those in use are drawn.
    size : tuple of float
        How wide and high it may be [mm]: height that is left goes between the rows.
    """
    made = columns(parts, joints)
    router = Router(made, rows(made, joints))
    routes = router.routes(joints)
    room = {name: extent(part, kind) for name, part in made.parts.items()}
    on = {at.name for joint in joints for at in joint.ends if at.what == "rail"}
    on |= {one.lead_up for one in parts if one.lead_up}
    used = tuple(one for one in rails if one in on)
    heads = _heads(made, joints, routes)
    wide = across(made, router, routes, room, (heads, used, kind))
    if wide.right > size[0]:
        return None
    strip = _strip(made, heads, wide, kind)
    lines = max((len(one.words) for one in strip), default=1)
    deep = down(made, router, routes, (wide, room, used, kind), size[1], lines)
    if deep.high > size[1] + NEAR_MM:
        return None
    symbols = {name: _symbol(made, router, name, room, (wide, deep, kind)) for name in made.parts}
    drawing = Strokes(made, router, routes, (wide, deep, symbols))
    strokes = drawing.drawn()
    bars = (
        *_rails(used, routes, made, (wide, deep, kind)),
        *_feet(made, routes, (wide, deep, kind)),
    )
    number = {column: n for n, column in enumerate(made.order, start=1)}
    found = DiagramPage(
        wide.right,
        deep.high,
        tuple(symbols.values()),
        strokes,
        dots((*strokes, *(Stroke(one.points) for one in bars))),
        drawing.labels(),
        bars,
        strip,
        deep.strip,
    )
    places = {
        (name, port.terminal): number[made.place[name][port.slot]]
        for name, part in made.parts.items()
        for port in part.ports
    }
    return found, places


def _heads(made: Columns, joints: tuple[Joint, ...], routes: tuple[Route, ...]) -> dict[int, str]:
    """Return what each column is for: its load, else its coil, else what the path is called."""
    found: dict[int, str] = {}
    for name, part in made.parts.items():
        if part.kind in LOADS:
            found[made.place[name][0]] = name
    for name, part in made.parts.items():
        coil = next((p for p in part.ports if p.terminal in ("85", "86")), None)
        if part.kind == "relay" and coil:
            found.setdefault(made.place[name][coil.slot], f"{name} coil")
    _called(made, joints, routes, found)
    for name, places in made.place.items():
        for column in places:
            found.setdefault(column, name)
    return found


def _called(
    made: Columns, joints: tuple[Joint, ...], routes: tuple[Route, ...], found: dict[int, str]
) -> None:
    """Add what a path is called to columns that nothing is known of yet."""
    for way in routes:
        if way.line and way.line.lane < 0 and way.joint.is_wire:
            found.setdefault(way.line.column, way.joint.name.rpartition(" ")[0])
    for joint in joints:
        for at in joint.ends:
            if at.what == "port" and joint.is_wire:
                found.setdefault(made.column(at), joint.name.rpartition(" ")[0])


def _strip(made: Columns, heads: dict[int, str], wide: Across, kind: Type) -> tuple[Head, ...]:
    """Return the strip's numbers and words, none wider than up to the next path."""
    xs = [wide.xs[Line(column)] for column in made.order] + [wide.right + 3.0]
    return tuple(
        Head(n + 1, xs[n], kind.wrapped(heads.get(column, ""), xs[n + 1] - xs[n] - 2.0))
        for n, column in enumerate(made.order)
    )


def _symbol(
    made: Columns,
    router: Router,
    name: str,
    room: dict[str, Extent],
    told: tuple[Across, Down, Type],
) -> Symbol:
    """Return a part where it stands, with its words."""
    wide, deep, kind = told
    part = made.parts[name]
    xs = tuple(wide.xs[Line(column)] for column in made.place[name])
    top, bottom = deep.rows[router.row[name]]
    middle, half = (top + bottom) / 2, room[name].high / 2
    framed = 1.5 if part.kind in FRAMED else 0.0
    made_of = Symbol(
        part,
        xs,
        top,
        bottom,
        middle - half,
        middle + half,
        min(xs) - room[name].left[0] + framed,
        max(xs) + room[name].right[-1] - framed,
    )
    said = words(part, max(xs), middle, kind)
    return replace(made_of, words=(*said, *numbers(made_of)))


def _rails(
    used: tuple[str, ...],
    routes: tuple[Route, ...],
    made: Columns,
    told: tuple[Across, Down, Type],
) -> list[Bar]:
    """Return the rails, each as long as it is used."""
    wide, deep, kind = told
    ends: dict[str, list[float]] = {name: [wide.rails_from + 6.0] for name in used}
    for way in routes:
        for at in way.joint.ends:
            if at.what == "rail" and way.line:
                ends[at.name].append(wide.xs[way.line])
    for name, part in made.parts.items():
        if part.lead_up:
            ends[part.lead_up].append(wide.xs[Line(made.place[name][0])])
    found = []
    for name, xs in ends.items():
        y, lines = deep.rails[name], kind.wrapped(name, RAIL_NAME_MM)
        first = y + 0.9 - (len(lines) - 1) * LINE_MM / 2
        said = tuple(
            Words((wide.rails_from - NUMBER_MM, first + n * LINE_MM), line, anchor="end")
            for n, line in enumerate(lines)
        )
        found.append(Bar(name, "rail", wide.rails_from, max(xs) + RAIL_PAST_MM, y, said))
    return found


def _feet(made: Columns, routes: tuple[Route, ...], told: tuple[Across, Down, Type]) -> list[Bar]:
    """Return the feet: neighbours of one name share a bar, a mark and the name."""
    wide, deep, kind = told
    stands: list[tuple[float, str, str]] = []
    for way in routes:
        stands += [
            (wide.xs[way.line], at.name, "ground")
            for at in way.joint.ends
            if at.what == "foot" and way.line
        ]
    for name, part in made.parts.items():
        if part.lead_down:
            stands.append((wide.xs[Line(made.place[name][0])], part.lead_down, "feed"))
    groups: list[list[tuple[float, str, str]]] = []
    for one in sorted(stands):
        if groups and groups[-1][-1][1:] == one[1:]:
            groups[-1].append(one)
        else:
            groups.append([one])
    return [_foot(group, group_room(groups, n, wide), deep, kind) for n, group in enumerate(groups)]


def group_room(groups: list[list[tuple[float, str, str]]], number: int, wide: Across) -> float:
    """Return how wide the name of a foot may be [mm]."""
    later = groups[number + 1][0][0] if number + 1 < len(groups) else wide.right + 4.0
    return later - 4.0 - groups[number][0][0] - EARTH_MM - 0.5


def _foot(group: list[tuple[float, str, str]], room: float, deep: Down, kind: Type) -> Bar:
    """Return one foot with its name."""
    (first, name, what), last = group[0], group[-1][0]
    lines = kind.wrapped(name, room)
    said = tuple(
        Words((first + EARTH_MM, deep.feet + UNDER_MM - 2.2 + n * LINE_MM), line)
        for n, line in enumerate(lines)
    )
    bar: Literal["ground", "feed"] = "ground" if what == "ground" else "feed"
    return Bar(name, bar, first - FOOT_PAST_MM, last + FOOT_PAST_MM, deep.feet, said)
