"""Where the current paths of a page stand: every column as wide as what is written in it."""

from msgspec import Struct

from trimwright.wiring.diagram.column import Columns
from trimwright.wiring.diagram.drawn import Type
from trimwright.wiring.diagram.extent import Extent
from trimwright.wiring.diagram.part import At
from trimwright.wiring.diagram.route import Line, Route, Router

CLEAR_MM = 1.2  # from a line to the words beside it
APART_MM = 1.6  # from words to what is beside them
BARE_MM = 1.4  # from a line that nothing is written at to what is beside it
LANE_MM = 4.0  # ahead of a lane, where its words stand
EARTH_MM = 4.5  # from a foot's line to its name
FOOT_LEFT_MM = 4.0  # what a ground mark reaches to the left of its line
RAIL_NAME_MM = 22.0  # where a rail's name is wrapped
NUMBER_MM = 9.5  # left of a rail, for its number
Zone = tuple[str, int]  # a row, the words between two rows, runs on the level, feet or strip
FEET: Zone = ("feet", 0)


class Across(Struct, frozen=True):
    """Where upright lines are [mm], where the rails begin, and where the page's drawing ends."""

    xs: dict[Line, float]
    rails_from: float
    right: float

    def column(self, made: Columns, at: At) -> float:
        """Return the x of the port that an end is at."""
        return self.xs[Line(made.column(at))]


def across(
    made: Columns,
    router: Router,
    routes: tuple[Route, ...],
    room: dict[str, Extent],
    said: tuple[dict[int, str], tuple[str, ...], Type],
) -> Across:
    """Return where columns and lanes stand: each as far left as what is beside it lets.

    Parameters
    ----------
    made, router, routes
        The page's columns, lanes and ways.
    room : dict of str to Extent
        What each part takes.
    said : tuple
        What the strip says of each column, the names of the rails on the page, the type.
    """
    heads, rails, kind = said
    needs = _needs(made, router, routes, room, (heads, kind))
    names = max(
        (kind.wide(line) for one in rails for line in kind.wrapped(one, RAIL_NAME_MM)), default=2.0
    )
    rails_from = names + NUMBER_MM if rails else 0.0
    start = rails_from + 4.0
    reached: dict[Zone, float] = {}
    xs: dict[Line, float] = {}
    bare = start
    for line in _in_order(made, router):
        own = needs.get(line, {})
        x = max(
            bare + BARE_MM,
            *(reached.get(zone, start) + left for zone, (left, _) in own.items()),
            *(far + BARE_MM for zone, far in reached.items() if zone not in own),
        )
        xs[line], bare = x, x
        for zone, (_, right) in own.items():
            reached[zone] = x + right
    return Across(xs, rails_from, max((bare + BARE_MM, *reached.values())))


def _in_order(made: Columns, router: Router) -> list[Line]:
    """Return columns and lanes from left to right."""
    found = []
    for column in (-1, *made.order):
        found += [Line(column)] if column >= 0 else []
        count = sum(1 for line in router.lanes.held if line.column == column)
        found += [Line(column, number) for number in range(count)]
    return found


def _needs(
    made: Columns,
    router: Router,
    routes: tuple[Route, ...],
    room: dict[str, Extent],
    told: tuple[dict[int, str], Type],
) -> dict[Line, dict[Zone, tuple[float, float]]]:
    """Return what stands left and right of each line, zone by zone down the page [mm]."""
    heads, kind = told
    found: dict[Line, dict[Zone, tuple[float, float]]] = {}

    def need(line: Line, zone: Zone, left: float, right: float) -> None:
        old = found.setdefault(line, {}).get(zone, (0.0, 0.0))
        found[line][zone] = (max(old[0], left), max(old[1], right))

    for name, places in made.place.items():
        order = sorted(range(len(places)), key=lambda slot: made.order.index(places[slot]))
        for number, slot in enumerate(order):
            own = room[name]
            line = Line(places[slot])
            need(line, ("row", router.row[name]), own.left[number], own.right[number])
        down = made.parts[name].lead_down
        if down:
            need(Line(places[0]), FEET, FOOT_LEFT_MM, EARTH_MM + 1.0 + longest(down, kind))
    for way in routes:
        for line, zone, left, right in _along(way, made, router, kind):
            need(line, zone, left, right)
    for column, head in heads.items():
        need(Line(column), ("strip", 0), 2.0, longest(head, kind) + 1.0)
    return found


def _along(
    way: Route, made: Columns, router: Router, kind: Type
) -> list[tuple[Line, Zone, float, float]]:
    """Return what a wire's words and its foot need: at which line, in which zone, left and right."""
    label = CLEAR_MM + kind.wide(way.joint.label) + APART_MM
    if way.line is None:
        first = min(map(made.column, way.joint.ends), key=made.order.index)
        return [(Line(first), ("level", way.top), BARE_MM, label)]
    if way.line.lane >= 0 and way.line not in router.lanes.wide:
        rows = range(1, router.foot // 2)
        return [
            (way.line, ("row", r), LANE_MM, BARE_MM)
            for r in rows
            if way.top <= 2 * r - 1 and 2 * r <= way.bottom
        ]
    channels = [c for c in range(router.foot // 2) if way.top <= 2 * c < way.bottom]
    found = [(way.line, ("words", c), BARE_MM, label) for c in channels]
    return found + [
        (way.line, FEET, FOOT_LEFT_MM, EARTH_MM + 1.0 + longest(at.name, kind))
        for at in way.joint.ends
        if at.what == "foot"
    ]


def longest(words: str, kind: Type) -> float:
    """Return the width of the longest word of some [mm]."""
    return max((kind.wide(one) for one in words.split(" ")), default=0.0)
