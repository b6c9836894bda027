"""Moving, turning, mirroring and scaling elements."""

import math

from msgspec import Struct
from msgspec.structs import replace

from trimwright.drawing.element import (
    Anchor,
    ArcTo,
    Circle,
    CurveTo,
    Fill,
    Group,
    Line,
    LineTo,
    Path,
    Point,
    Step,
    Text,
)
from trimwright.drawing.face import ASCENT, DESCENT

OTHER_END: dict[Anchor, Anchor] = {"start": "end", "middle": "middle", "end": "start"}
LEVEL = 1e-9  # the cosine of a direction that counts as upright

Placed = Line | Path | Fill | Circle | Text


class Placement(Struct, frozen=True):
    """Where a group's millimetres lie: x' = a x + c y + e, y' = b x + d y + f."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    @property
    def mirrored(self) -> bool:
        """Return whether left and right are exchanged."""
        return self.a * self.d - self.b * self.c < 0

    @property
    def scale(self) -> float:
        """Return by how much lengths grow."""
        return math.hypot(self.a, self.b)

    def point(self, point: Point) -> Point:
        """Return where a point comes to lie."""
        x, y = point
        return (self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f)

    def points(self, points: tuple[Point, ...]) -> tuple[Point, ...]:
        """Return where points come to lie."""
        a, b, c, d, e, f = self.a, self.b, self.c, self.d, self.e, self.f
        return tuple([(a * x + c * y + e, b * x + d * y + f) for x, y in points])

    def after(self, group: Group) -> "Placement":
        """Return the placement of what stands in a group that is itself so placed."""
        # exact for quarter turns, so that level lines stay level to the last bit
        quarter = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}
        angle = math.radians(group.turn_deg)
        cos, sin = quarter.get(group.turn_deg % 360.0, (math.cos(angle), math.sin(angle)))
        sx = -group.scale if group.mirror == "across" else group.scale
        sy = -group.scale if group.mirror == "down" else group.scale
        inner = (cos * sx, sin * sx, -sin * sy, cos * sy)
        e, f = self.point(group.move)
        return Placement(
            self.a * inner[0] + self.c * inner[1],
            self.b * inner[0] + self.d * inner[1],
            self.a * inner[2] + self.c * inner[3],
            self.b * inner[2] + self.d * inner[3],
            e,
            f,
        )


HERE = Placement()


def _step(step: Step, at: Placement) -> Step:
    if isinstance(step, LineTo):
        return LineTo(at.point(step.to))
    if isinstance(step, CurveTo):
        return CurveTo(at.point(step.first), at.point(step.second), at.point(step.to))
    way = step.way
    if at.mirrored:
        way = "anticlockwise" if way == "clockwise" else "clockwise"
    return ArcTo(at.point(step.to), step.radius * at.scale, way, step.longer)


def _text(text: Text, at: Placement) -> Text:
    angle = math.radians(text.turn_deg)
    along = (math.cos(angle), math.sin(angle))
    x, y = (
        (at.a * along[0] + at.c * along[1]) / at.scale,
        (at.b * along[0] + at.d * along[1]) / at.scale,
    )
    anchor, place = text.anchor, at.point(text.at)
    if at.mirrored:
        # words are never mirrored: they are written the other way along their own box
        x, y, anchor = -x, -y, OTHER_END[anchor]
        if x < -LEVEL or (x <= LEVEL and y > 0):
            # upside down: turned over within its own box
            lift = (ASCENT - DESCENT) * text.size_mm
            place = (place[0] + y * lift, place[1] - x * lift)
            x, y, anchor = -x, -y, OTHER_END[anchor]
    turn = round(math.degrees(math.atan2(y, x)), 9) + 0.0
    clip = at.points(text.clip)
    return replace(text, at=place, anchor=anchor, turn_deg=turn, clip=clip)


def placed(element: Placed, at: Placement) -> Placed:
    """Return an element where a placement puts it; words keep their size and stay readable.

    Examples
    --------
    >>> placed(Line(((0.0, 0.0), (1.0, 2.0))), Placement(a=2.0, d=2.0, e=5.0)).points
    ((5.0, 0.0), (7.0, 4.0))
    """
    if at == HERE:
        return element
    if isinstance(element, Line):
        # made anew, not replaced: most of a drawing is lines
        points, phase = at.points(element.points), element.phase_mm * at.scale
        return Line(points, element.pen, element.closed, element.layer, phase)
    if isinstance(element, Path):
        steps = tuple(_step(step, at) for step in element.steps)
        return replace(element, start=at.point(element.start), steps=steps)
    if isinstance(element, Fill):
        holes = tuple(at.points(hole) for hole in element.holes)
        return replace(element, points=at.points(element.points), holes=holes)
    if isinstance(element, Circle):
        radius = element.radius * at.scale
        return replace(element, centre=at.point(element.centre), radius=radius)
    return _text(element, at)
