"""Taking groups apart: what a writer has to draw, in page millimetres and in order."""

from collections.abc import Iterator

from msgspec.structs import replace

from trimwright.drawing.clip import Window, cut_area, cut_line, inside, outside
from trimwright.drawing.curve import points_of
from trimwright.drawing.element import ArcTo, Circle, Element, Fill, Group, Line, Path, Point, Text
from trimwright.drawing.face import text_corners
from trimwright.drawing.hatch import hatch_lines
from trimwright.drawing.placement import Placed, Placement, placed

FOUR_ARCS = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))


def outline(element: Placed) -> tuple[Point, ...]:
    """Return points on a drawn element, closed if it is, that no part of it lies 0.01 mm beyond."""
    if isinstance(element, Line):
        return (*element.points, element.points[0]) if element.closed else element.points
    if isinstance(element, Path):
        points = points_of(element)
        return (*points, points[0]) if element.closed else points
    if isinstance(element, Fill):
        return element.points
    if isinstance(element, Circle):
        return _circle_points(element)
    return text_corners(element)


def _circle_points(circle: Circle) -> tuple[Point, ...]:
    (x, y), r = circle.centre, circle.radius
    corners = [(x + r * dx, y + r * dy) for dx, dy in FOUR_ARCS]
    steps = tuple(ArcTo(corner, r) for corner in (*corners[1:], corners[0]))
    return points_of(Path(corners[0], steps))


def _cut(element: Placed, window: Window) -> Iterator[Placed]:
    points = outline(element)
    if inside(points, window):
        yield element
    elif outside(points, window):
        return
    elif isinstance(element, Text):
        yield replace(element, clip=cut_area(element.clip, window) if element.clip else window)
    elif isinstance(element, Fill):
        holes = tuple(cut_area(hole, window) for hole in element.holes)
        left = cut_area(element.points, window)
        if left:
            yield replace(element, points=left, holes=tuple(hole for hole in holes if hole))
    else:
        yield from _cut_stroke(element, points, window)


def _cut_stroke(
    element: Line | Path | Circle, points: tuple[Point, ...], window: Window
) -> Iterator[Placed]:
    if isinstance(element, Circle) and element.tone is not None:
        left = cut_area(points[:-1], window)
        if left:
            yield Fill(left, tone=element.tone, layer=element.layer)
    pen = element.pen
    if pen is None:
        return
    phase = element.phase_mm if isinstance(element, Line) else 0.0
    for run, start in cut_line(points, window):
        yield Line(run, pen, layer=element.layer, phase_mm=phase + start)


def _walk(
    elements: tuple[Element, ...], at: Placement, windows: tuple[Window, ...], name: str = ""
) -> Iterator[tuple[str, Placed]]:
    for element in elements:
        if isinstance(element, Group):
            below = at.after(element)
            inner = windows
            if element.clip is not None:
                inner = (*windows, below.points(element.clip.corners))
            yield from _walk(element.elements, below, inner, element.name or name)
            continue
        shapes: list[Placed] = [placed(element, at)]
        if isinstance(shapes[0], Fill) and shapes[0].hatch is not None:
            # hatched before it is cut, so that a hatch runs on from page to page
            toned = replace(shapes[0], hatch=None)
            shapes = [*([toned] if toned.tone else []), *hatch_lines(shapes[0])]
        for window in windows:
            shapes = [piece for shape in shapes for piece in _cut(shape, window)]
        yield from ((name, shape) for shape in shapes)


def flat(elements: tuple[Element, ...]) -> tuple[Placed, ...]:
    """Return the elements without groups, clips and hatches: placed, cut, hatches as lines.

    Examples
    --------
    >>> from trimwright.drawing.element import Box
    >>> line = Line(((0.0, 0.0), (10.0, 0.0)), "thin")
    >>> flat((Group((line,), move=(5.0, 1.0), clip=Box(2.0, -1.0, 4.0, 2.0)),))[0].points
    ((7.0, 1.0), (11.0, 1.0))
    """
    return tuple(shape for _, shape in _walk(elements, Placement(), ()))


def named(elements: tuple[Element, ...]) -> tuple[tuple[str, Placed], ...]:
    """Return the elements as `flat` does, each with the name of its group, '' where it has none.

    Examples
    --------
    >>> line = Line(((0.0, 0.0), (10.0, 0.0)), "wire")
    >>> named((Group((line,), name="wire of the lamp"), line))[0][0]
    'wire of the lamp'
    """
    return tuple(_walk(elements, Placement(), ()))


def seen(elements: tuple[Element, ...]) -> bool:
    """Return whether anything is left of elements when clips have cut them."""
    return any(True for _ in _walk(elements, Placement(), ()))
