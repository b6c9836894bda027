"""What a drawing is made of. Millimetres on the page, x to the right, y DOWN, angles clockwise."""

from typing import Literal

from msgspec import Struct

from trimwright.drawing.pen import HatchName, PenName, ToneName
from trimwright.drawing.type_size import WORD_MM

Point = tuple[float, float]
FaceName = Literal["say", "count", "count-bold"]
Anchor = Literal["start", "middle", "end"]
Mirror = Literal["none", "across", "down"]


class Box(Struct, frozen=True):
    """A level rectangle [mm]: its left, top, width and height."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Return the x of the right edge [mm]."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """Return the y of the bottom edge [mm]."""
        return self.y + self.height

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Return the corners, clockwise on the page from the top left."""
        return (
            (self.x, self.y),
            (self.right, self.y),
            (self.right, self.bottom),
            (self.x, self.bottom),
        )


class Line(Struct, frozen=True):
    """A straight line or a polyline through two or more points."""

    points: tuple[Point, ...]
    pen: PenName = "visible"
    closed: bool = False
    layer: str = "0"
    phase_mm: float = 0.0  # how far into its dash pattern the line begins


class LineTo(Struct, frozen=True):
    """Go straight to a point."""

    to: Point


class ArcTo(Struct, frozen=True):
    """Go to a point round an arc: radius [mm], the way round on the page, the longer way or not."""

    to: Point
    radius: float
    way: Literal["clockwise", "anticlockwise"] = "clockwise"
    longer: bool = False


class CurveTo(Struct, frozen=True):
    """Go to a point along a cubic Bezier curve with two control points."""

    first: Point
    second: Point
    to: Point


Step = LineTo | ArcTo | CurveTo


class Path(Struct, frozen=True):
    """A line of straight pieces, arcs and curves from a start."""

    start: Point
    steps: tuple[Step, ...]
    pen: PenName = "visible"
    closed: bool = False
    layer: str = "0"


class Fill(Struct, frozen=True):
    """An area without an outline: even-odd, so holes may wind either way; a tone or a hatch."""

    points: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...] = ()
    tone: ToneName | None = None
    hatch: HatchName | None = None
    layer: str = "0"


class Circle(Struct, frozen=True):
    """A circle: drawn with a pen, filled with a tone, or both."""

    centre: Point
    radius: float
    pen: PenName | None = "thin"
    tone: ToneName | None = None
    layer: str = "0"


class Text(Struct, frozen=True):
    """One line of words with its baseline at `at`; `turn_deg` clockwise, only along a line.

    `box_mm` is the width the words have to fit in; `clip` a convex outline they are seen through.
    Neither size nor words are changed by the groups the text stands in.
    """

    at: Point
    words: str
    size_mm: float = WORD_MM
    face: FaceName = "count"
    anchor: Anchor = "start"
    turn_deg: float = 0.0
    tone: ToneName = "ink"
    box_mm: float | None = None
    layer: str = "text"
    clip: tuple[Point, ...] = ()


class Group(Struct, frozen=True):
    """Elements placed together: clipped, scaled, mirrored, turned clockwise, moved; in that order.

    `clip` is in the group's own millimetres. `mirror` is `across` (left becomes right) or `down`.
    Pens, hatches and the size of words are those of the page whatever the scale. `name` says what
    it shows, where something may be shown of it alone; that of the innermost group counts.
    """

    elements: tuple["Element", ...]
    move: Point = (0.0, 0.0)
    turn_deg: float = 0.0
    mirror: Mirror = "none"
    scale: float = 1.0
    clip: Box | None = None
    name: str = ""


Element = Line | Path | Fill | Circle | Text | Group
