"""How work grows, as small charts in logarithmic scales, drawn with the program's own lines."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log10

from trimwright.drawing import Box, Circle, Drawing, Element, Line, Page, Point, Text, svg

PLOT = 62.0, 44.0  # mm, wide and high, of one chart
EDGE = 16.0, 12.0, 8.0, 16.0  # mm left, above, right and below it
ROOM = 0.04  # share of a scale left free at either end
STEPS = (1.0, 2.0, 5.0)  # figures of a decade that are written at the scale of times


@dataclass(frozen=True, slots=True)
class Series:
    """What was timed: sizes, rising, and the processor time at each [ms]."""

    name: str
    of: str
    sizes: tuple[int, ...]
    took_ms: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class _Scale:
    """A logarithmic scale from a place to another on the page [mm]."""

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Return where a value stands."""
        share = log10(value / self.low) / log10(self.high / self.low)
        return self.start + (ROOM + share * (1 - 2 * ROOM)) * (self.end - self.start)


def growth_chart(series: Sequence[Series]) -> str:
    """Return one chart a series, two beside each other, as SVG.

    A dashed line shows growth in step with the size, from the smallest one timed.
    """
    wide, high = EDGE[0] + PLOT[0] + EDGE[2], EDGE[1] + PLOT[1] + EDGE[3]
    elements = list[Element]()
    for k, one in enumerate(series):
        row, column = divmod(k, 2)
        left, top = column * wide + EDGE[0], row * high + EDGE[1]
        elements += _chart(one, Box(left, top, *PLOT))
    size = 2 * wide, (len(series) + 1) // 2 * high
    page = Page(size, Drawing(*size, tuple(elements)), "How the work grows")
    return svg(page, says="Processor time against size; dashed: growth in step with the size")


def _chart(one: Series, box: Box) -> list[Element]:
    """Return one chart in its box."""
    in_step = [one.took_ms[0] * size / one.sizes[0] for size in one.sizes]
    times = (*one.took_ms, *in_step)
    x = _Scale(one.sizes[0], one.sizes[-1], box.x, box.right)
    y = _Scale(min(times), max(times), box.bottom, box.y)
    made: list[Element] = [
        Text((box.x, box.y - 4.0), one.name, 3.4, "say"),
        Line(box.corners, "thin", closed=True),
        *_sizes(one, x, box),
        *_times(y, box),
        Line(_points(x, y, one.sizes, in_step), "hidden"),
        Line(_points(x, y, one.sizes, one.took_ms), "visible"),
    ]
    return made + [Circle(at, 0.9, None, "ink") for at in _points(x, y, one.sizes, one.took_ms)]


def _points(x: _Scale, y: _Scale, sizes: Sequence[int], took: Sequence[float]) -> tuple[Point, ...]:
    return tuple((x.at(size), y.at(ms)) for size, ms in zip(sizes, took, strict=True))


def _sizes(one: Series, x: _Scale, box: Box) -> list[Element]:
    """Return the scale of sizes, below."""
    middle = (box.x + box.right) / 2
    made: list[Element] = [Text((middle, box.bottom + 10.0), one.of, 2.9, anchor="middle")]
    for size in one.sizes:
        at = x.at(size)
        made.append(Line(((at, box.bottom), (at, box.bottom + 1.2)), "thin"))
        made.append(Text((at, box.bottom + 5.0), str(size), 2.9, anchor="middle"))
    return made


def _times(y: _Scale, box: Box) -> list[Element]:
    """Return the scale of times, at the left."""
    made: list[Element] = []
    decades = range(int(log10(y.low)) - 1, int(log10(y.high)) + 2)
    for ms in (step * 10.0**decade for decade in decades for step in STEPS):
        if y.low <= ms <= y.high:
            at = y.at(ms)
            made.append(Line(((box.x - 1.2, at), (box.x, at)), "thin"))
            made.append(Text((box.x - 2.2, at + 1.0), f"{ms:g} ms", 2.9, anchor="end"))
    return made
