"""A wiring diagram read back from its drawing: its lines, what they join, what is written."""

from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass, field
from itertools import pairwise

from trimwright.drawing import Circle, Line, Page, Path, Text, named, points_of, text_corners
from trimwright.wiring.loom import Link, Loom, Wire

Point = tuple[float, float]
NEAR_MM = 0.02
JOINING = ("wire ", "lead ", "rail ", "ground ", "feed ")


class Sets:
    """Things that are joined to one another."""

    def __init__(self) -> None:
        """Begin with nothing."""
        self.over: dict[Hashable, Hashable] = {}

    def root(self, one: Hashable) -> Hashable:
        """Return what stands for all that a thing is joined to."""
        self.over.setdefault(one, one)
        while self.over[one] != one:
            one = self.over[one]
        return one

    def join(self, one: Hashable, other: Hashable) -> None:
        """Join two things."""
        self.over[self.root(one)] = self.root(other)

    def of(self, wanted: Iterable[Hashable]) -> set[frozenset[Hashable]]:
        """Return the sets that some things fall into."""
        found: dict[Hashable, set[Hashable]] = {}
        for one in wanted:
            found.setdefault(self.root(one), set()).add(one)
        return {frozenset(some) for some in found.values()}


@dataclass(frozen=True, slots=True)
class Drawn:
    """A line of a group, with its corners."""

    page: int
    group: str
    points: tuple[Point, ...]
    number: int


@dataclass(slots=True)
class Readback:
    """Lines by what their groups are called, the dots, and the words."""

    lines: list[Drawn] = field(default_factory=list)
    dots: list[tuple[int, Point]] = field(default_factory=list)

    def joining(self) -> list[Drawn]:
        """Return the lines that join terminals."""
        return [one for one in self.lines if one.group.startswith(JOINING)]


def read_back(pages: Iterable[Page]) -> Readback:
    """Return what is drawn on pages of a diagram."""
    found = Readback()
    for number, page in enumerate(pages):
        for group, shape in named(page.drawing.elements):
            if isinstance(shape, Line) and group and shape.pen in ("wire", "rail"):
                found.lines.append(Drawn(number, group, shape.points, len(found.lines)))
            if isinstance(shape, Circle) and shape.pen is None and not group:
                found.dots.append((number, shape.centre))
    return found


def on_line(point: Point, points: tuple[Point, ...]) -> bool:
    """Return whether a point lies on a level or upright polyline."""
    x, y = point
    return any(
        min(ax, bx) - NEAR_MM <= x <= max(ax, bx) + NEAR_MM
        and min(ay, by) - NEAR_MM <= y <= max(ay, by) + NEAR_MM
        for (ax, ay), (bx, by) in pairwise(points)
    )


def meet(one: Drawn, other: Drawn) -> bool:
    """Return whether an end of one line lies on the other; lines that only cross do not meet."""
    if one.page != other.page:
        return False
    ends = (one.points[0], one.points[-1])
    others = (other.points[0], other.points[-1])
    return any(on_line(p, other.points) for p in ends) or any(
        on_line(p, one.points) for p in others
    )


def nets_of(laid: Loom) -> set[frozenset[Hashable]]:
    """Return the terminals that the wires of a loom join to one another."""
    sets = Sets()
    joined: tuple[Wire | Link, ...] = (*laid.wires, *laid.links)
    for one in joined:
        sets.join(one.start.node, one.end.node)
    return sets.of(list(sets.over))


def strokes_of(page: Page) -> Iterator[tuple[Point, Point]]:
    """Yield every straight piece that is drawn in a named group or by itself in the diagram."""
    for group, shape in named(page.drawing.elements):
        if not group:
            continue
        if isinstance(shape, Line):
            yield from pairwise((*shape.points, shape.points[0]) if shape.closed else shape.points)
        elif isinstance(shape, Path):
            yield from pairwise(points_of(shape))
        elif isinstance(shape, Circle):
            (x, y), r = shape.centre, shape.radius
            corners = ((x + r, y), (x, y + r), (x - r, y), (x, y - r), (x + r, y))
            yield from pairwise(corners)


def struck(page: Page) -> list[str]:
    """Return the words that a line of the diagram runs through; a letter in its ring is none."""
    pieces = list(strokes_of(page))
    found = []
    for _, shape in named(page.drawing.elements):
        if isinstance(shape, Text) and shape.words not in ("M", "G"):
            corners = text_corners(shape)
            xs, ys = zip(*corners, strict=True)
            box = (min(xs) + 0.1, min(ys) + 0.35, max(xs) - 0.1, max(ys) - 0.35)
            if any(_through(a, b, box) for a, b in pieces):
                found.append(shape.words)
    return found


def _through(a: Point, b: Point, box: tuple[float, float, float, float]) -> bool:
    """Return whether a straight piece enters a level rectangle [Liang and Barsky 1984]."""
    low, high = 0.0, 1.0
    for k in (0, 1):
        way = b[k] - a[k]
        for sign, edge in ((-1.0, box[k]), (1.0, box[k + 2])):
            p, q = sign * way, sign * (edge - a[k])
            if p == 0.0:
                if q < 0.0:
                    return False
            elif p < 0.0:
                low = max(low, q / p)
            else:
                high = min(high, q / p)
    return low < high
