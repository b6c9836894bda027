"""A wiring diagram in millimetres, y down from its top left corner: what is to be drawn where."""

from collections.abc import Callable
from typing import Literal

from msgspec import Struct

from trimwright.wiring.diagram.part import Part

Point = tuple[float, float]
Size = Literal["label", "word", "name"]
Face = Literal["count", "count-bold", "say"]


class Type(Struct, frozen=True):
    """How words are set: sizes [mm], and how wide and in which lines they print."""

    sizes_mm: dict[Size, float]
    width: Callable[[str, float, Face], float]
    lines: Callable[[str, float, float, Face], tuple[str, ...]]

    def wide(self, words: str, size: Size = "label", face: Face = "count") -> float:
        """Return how wide words print [mm]."""
        return self.width(words, self.sizes_mm[size], face)

    def wrapped(
        self, words: str, room_mm: float, size: Size = "label", face: Face = "count"
    ) -> tuple[str, ...]:
        """Return words in lines no wider than a room, or than the longest of the words."""
        longest = max((self.wide(one, size, face) for one in words.split(" ")), default=0.0)
        return self.lines(words, max(room_mm, longest + 0.1), self.sizes_mm[size], face)


class Words(Struct, frozen=True):
    """One line of words: where its baseline begins, ends or has its middle; upright along a line."""

    at: Point
    text: str
    size: Size = "label"
    face: Face = "count"
    anchor: Literal["start", "middle", "end"] = "start"
    upright: bool = False


class Stroke(Struct, frozen=True):
    """A join's line, or a part's own lead: `wire` names the wire, `part` the part it is of."""

    points: tuple[Point, ...]
    wire: str = ""
    part: str = ""
    half: int = 0


class Symbol(Struct, frozen=True):
    """A part where it stands.

    `xs` is where each slot's line is, `top` and `bottom` are of its row, where wires come to it,
    `box_top` and `box_bottom` of its own, `left` and `right` of its frame [mm].
    """

    part: Part
    xs: tuple[float, ...]
    top: float
    bottom: float
    box_top: float
    box_bottom: float
    left: float
    right: float
    words: tuple[Words, ...] = ()

    def port_point(self, terminal: str) -> Point:
        """Return where wires come to a terminal."""
        port = self.part.port(terminal)
        return self.xs[port.slot], self.top if port.side == "top" else self.bottom


class Bar(Struct, frozen=True):
    """A rail or a piece of one: what it is called, from where to where, how far down."""

    name: str
    kind: Literal["rail", "ground", "feed"]
    left: float
    right: float
    y: float
    words: tuple[Words, ...]

    @property
    def points(self) -> tuple[Point, Point]:
        """Its two ends."""
        return (self.left, self.y), (self.right, self.y)


class Head(Struct, frozen=True):
    """A current path's number and name in the strip."""

    number: int
    x: float
    words: tuple[str, ...]


class DiagramPage(Struct, frozen=True):
    """One page of a diagram.

    Attributes
    ----------
    width_mm, height_mm : float
        What it takes, down to the lower rule of the strip.
    strokes : tuple of Stroke
        Wires, links and leads.
    dots : tuple of Point
        Where lines that meet are joined.
    labels : tuple of Words
        Size and colour along the wires.
    strip_y : float
        The upper rule of the strip of path numbers [mm].
    """

    width_mm: float
    height_mm: float
    symbols: tuple[Symbol, ...]
    strokes: tuple[Stroke, ...]
    dots: tuple[Point, ...]
    labels: tuple[Words, ...]
    bars: tuple[Bar, ...]
    heads: tuple[Head, ...]
    strip_y: float


class Diagram(Struct, frozen=True):
    """A whole wiring diagram: its pages, what stands on none of them, and on which sheet it fits."""

    pages: tuple[DiagramPage, ...]
    left_out: tuple[str, ...]
    sheet: int
