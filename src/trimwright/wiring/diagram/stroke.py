"""The lines of a page: wires, what of a terminal several wires share, and the dots between them."""

from collections import Counter

from trimwright.wiring.diagram.across import CLEAR_MM, Across
from trimwright.wiring.diagram.column import Columns, Key
from trimwright.wiring.diagram.down import Down, label_row
from trimwright.wiring.diagram.drawn import Point, Stroke, Symbol, Words
from trimwright.wiring.diagram.part import At
from trimwright.wiring.diagram.route import Route, Router, level_runs

NEAR_MM = 1e-6
UNDER_MM = 0.9  # from words to the line below them, or beside them
RISE_MM = 0.9  # half the height of words


class Strokes:
    """Draws the ways of a page."""

    def __init__(
        self,
        made: Columns,
        router: Router,
        routes: tuple[Route, ...],
        at: tuple[Across, Down, dict[str, Symbol]],
    ) -> None:
        """Take what is placed."""
        self.made, self.router, self.routes = made, router, routes
        self.wide, self.down, self.symbols = at
        self.level = level_runs(routes, made)
        self.count = Counter(
            (end.name, end.terminal)
            for way in routes
            for end in way.joint.ends
            if end.what == "port"
        )

    def drawn(self) -> tuple[Stroke, ...]:
        """Return every lead and wire."""
        leads = [stroke for key in self.count for stroke in self._leads(key)]
        return (*leads, *self._rail_leads(), *(self._wire(way) for way in self.routes))

    def _point(self, key: Key) -> Point:
        """Return where wires come to a port."""
        return self.symbols[key[0]].port_point(key[1])

    def _heights(self, key: Key) -> list[float]:
        """Return how far up or down each run on the level leaves a port."""
        place = self._place(key)
        found = [self.down.runs[place, key]] if key in self.level else []
        found += [
            self.down.runs[place, way.joint]
            for way in self.routes
            if way.line is None and any((a.name, a.terminal) == key for a in way.joint.ends)
        ]
        return found

    def _place(self, key: Key) -> int:
        return self.router.place(At("port", *key))

    def _leads(self, key: Key) -> list[Stroke]:
        """Return what several wires share of a terminal: its stub, and the run they hang from."""
        if self.count[key] < 2:  # noqa: PLR2004  a wire on its own shares nothing
            return []
        x, y = self._point(key)
        found = []
        heights = self._heights(key)
        if heights:
            far = max(heights, key=lambda one: abs(one - y))
            found.append(Stroke(((x, y), (x, far)), part=key[0]))
        if len(self.level.get(key, ())) > 1:
            run = self.down.runs[self._place(key), key]
            xs = [x, *(self.wide.xs[way.line] for way in self.level[key] if way.line)]
            found.append(Stroke(((min(xs), run), (max(xs), run)), part=key[0]))
        return found

    def _rail_leads(self) -> list[Stroke]:
        """Return what joins parts to their rail or foot without a wire."""
        found = []
        for name, symbol in self.symbols.items():
            x, part = symbol.xs[0], symbol.part
            if part.lead_up:
                found.append(
                    Stroke(((x, self.down.rails[part.lead_up]), (x, symbol.top)), part=name)
                )
            if part.lead_down:
                found.append(Stroke(((x, symbol.bottom), (x, self.down.feet)), part=name))
        return found

    def _wire(self, way: Route) -> Stroke:
        """Return a wire from end to end."""
        start, end = (self._end(way, at) for at in way.joint.ends)
        points = [*start, *end[::-1]]
        kept = [
            point for n, point in enumerate(points) if n == 0 or not _same(point, points[n - 1])
        ]
        own = way.joint
        name = own.name if own.is_wire else ""
        part = "" if own.is_wire else own.end.name
        return Stroke(tuple(_straightened(kept)), name, part, own.half)

    def _end(self, way: Route, at: At) -> list[Point]:
        """Return a wire's points from an end to its upright line, or to the run it lies on."""
        if at.what != "port":
            y = self.down.rails[at.name] if at.what == "rail" else self.down.feet
            return [(self.wide.xs[way.line], y)] if way.line else []
        key, place = (at.name, at.terminal), self.router.place(at)
        x, y = self._point(key)
        shared = self.count[key] > 1
        if way.line is None:
            run = self.down.runs[place, way.joint]
            return [(x, run)] if shared else [(x, y), (x, run)]
        line = self.wide.xs[way.line]
        if way not in self.level.get(key, ()):
            heights = self._heights(key)
            return [(x, max(heights, key=lambda one: abs(one - y)) if heights else y)]
        run = self.down.runs[place, key]
        if len(self.level[key]) > 1:
            return [(line, run)]
        return [(x, run), (line, run)] if shared else [(x, y), (x, run), (line, run)]

    def labels(self) -> tuple[Words, ...]:
        """Return size and colour along every wire."""
        tall = {row: bottom - top for row, (top, bottom) in self.down.rows.items()}
        return tuple(self._label(way, tall) for way in self.routes if way.joint.label)

    def _label(self, way: Route, tall: dict[int, float]) -> Words:
        """Return the words along one wire."""
        words = way.joint.label
        if way.line is None:
            xs = [self.wide.column(self.made, at) for at in way.joint.ends]
            y = self.down.runs[way.top, way.joint]
            return Words((min(xs) + CLEAR_MM, y - UNDER_MM), words)
        x = self.wide.xs[way.line]
        row = label_row(way, tall)
        if row:
            top, bottom = self.down.rows[row]
            return Words((x - UNDER_MM, (top + bottom) / 2), words, anchor="middle", upright=True)
        channels = [c for c in self.down.words if way.top <= 2 * c and 2 * c + 1 <= way.bottom]
        foot = any(at.what == "foot" for at in way.joint.ends)
        top, bottom = self.down.words[channels[-1 if foot else 0]]
        return Words((x + CLEAR_MM, (top + bottom) / 2 + RISE_MM), words)


def _same(a: Point, b: Point) -> bool:
    """Return whether two points are one."""
    return abs(a[0] - b[0]) < NEAR_MM and abs(a[1] - b[1]) < NEAR_MM


def _straightened(points: list[Point]) -> list[Point]:
    """Return a line's corners without points on a straight piece."""
    found: list[Point] = []
    for n, point in enumerate(points):
        inner = 0 < n < len(points) - 1
        if inner and any(
            abs(points[n - 1][k] - point[k]) < NEAR_MM
            and abs(points[n + 1][k] - point[k]) < NEAR_MM
            for k in (0, 1)
        ):
            continue
        found.append(point)
    return found


def dots(strokes: tuple[Stroke, ...]) -> tuple[Point, ...]:
    """Return where three lines or more meet, each once, from the top left."""
    corners = {
        (round(x, 4), round(y, 4))
        for stroke in strokes
        for x, y in (stroke.points[0], stroke.points[-1])
    }
    found = [point for point in corners if len(_ways_from(point, strokes)) > 2]  # noqa: PLR2004  a corner, no joint
    return tuple(sorted(found))


def _ways_from(point: Point, strokes: tuple[Stroke, ...]) -> set[tuple[int, int]]:
    """Return the directions in which lines leave a point."""
    found: set[tuple[int, int]] = set()
    x, y = point
    for stroke in strokes:
        for (ax, ay), (bx, by) in zip(stroke.points, stroke.points[1:], strict=False):
            near = 1e-3
            if abs(ax - bx) < near and abs(ax - x) < near:
                found |= {(0, 1)} if min(ay, by) <= y + near and max(ay, by) > y + near else set()
                found |= {(0, -1)} if max(ay, by) >= y - near and min(ay, by) < y - near else set()
            if abs(ay - by) < near and abs(ay - y) < near:
                found |= {(1, 0)} if min(ax, bx) <= x + near and max(ax, bx) > x + near else set()
                found |= {(-1, 0)} if max(ax, bx) >= x - near and min(ax, bx) < x - near else set()
    return found
