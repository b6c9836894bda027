"""What a drawn element is in DXF: its group codes and values, as text."""

import math
from collections.abc import Callable, Iterable

from trimwright.drawing.clip import inside
from trimwright.drawing.curve import arc_centre, points_of
from trimwright.drawing.element import (
    Anchor,
    ArcTo,
    Circle,
    Fill,
    Line,
    LineTo,
    Path,
    Point,
    Text,
)
from trimwright.drawing.pen import PENS, PenName
from trimwright.drawing.placement import Placed

CAP_HEIGHT = 0.7  # of the size: DXF measures words by their capitals
ALIGNED: dict[Anchor, int] = {"start": 0, "middle": 1, "end": 2}  # TEXT, group 72
Corner = tuple[float, float, float]  # x, y up [mm], bulge to the next corner
Tags = list[str]


def tag(code: int, value: float | str) -> str:
    r"""Return one group: code and value, a line each; lengths to a millionth of a millimetre.

    Examples
    --------
    >>> tag(10, 0.5), tag(90, 2), tag(8, "saw")
    (' 10\n0.500000\n', ' 90\n2\n', '  8\nsaw\n')
    """
    shown = f"{value + 0.0:.6f}" if isinstance(value, float) else value
    return f"{code:3d}\n{shown}\n"


class Entities:
    """Entities of a model space that takes page millimetres, y down.

    `handle` gives each its number in the file; `owner` is that of the model space. Everything
    lies in the plane, in the colour of its layer.

    References
    ----------
    Autodesk DXF reference, R2010: common group codes, LWPOLYLINE, CIRCLE, HATCH, TEXT
    """

    def __init__(self, handle: Callable[[], str], owner: str, height_mm: float) -> None:
        self.handle = handle
        self.owner = owner
        self.height_mm = height_mm

    def of(self, element: Placed) -> str:
        """Return an element's entities; none for what is not drawn."""
        if isinstance(element, Line):
            corners = [(*self._at(point), 0.0) for point in element.points]
            return self._polyline(element, corners)
        if isinstance(element, Path):
            return self._polyline(element, self._corners(element))
        if isinstance(element, Fill):
            return self._fill(element)
        if isinstance(element, Circle):
            return self._circle(element)
        return self._text(element)

    def _at(self, point: Point) -> Point:
        return (point[0], self.height_mm - point[1])

    def _head(self, kind: str, layer: str, pen: PenName | None = None) -> str:
        """Return what every entity begins with; a pen gives line type and weight."""
        look = ""
        if pen is not None:
            dashed = pen.upper() if PENS[pen].dashes_mm else "CONTINUOUS"
            look = tag(6, dashed) + tag(370, round(PENS[pen].width_mm * 100))
        common = f"330\n{self.owner}\n100\nAcDbEntity\n  8\n{layer}\n"
        return f"  0\n{kind}\n  5\n{self.handle()}\n{common}{look}"

    def _polyline(self, element: Line | Path, corners: list[Corner]) -> str:
        head = self._head("LWPOLYLINE", element.layer, element.pen)
        parts = [
            f"{head}100\nAcDbPolyline\n{tag(90, len(corners))}{tag(70, int(element.closed))}",
            *(
                f" 10\n{x:.6f}\n 20\n{y:.6f}\n" + (f" 42\n{bulge:.9f}\n" if bulge else "")
                for x, y, bulge in corners
            ),
        ]
        return "".join(parts)

    def _corners(self, path: Path) -> list[Corner]:
        """Return a path's corners; arcs stay arcs, curves become short straight pieces."""
        found: list[Corner] = []
        here = path.start
        for step in path.steps:
            if isinstance(step, ArcTo):
                sweep = arc_centre(here, step)[3]
                # a bulge is tan(sweep/4), positive anticlockwise with y up [DXF, LWPOLYLINE 42]
                found.extend(self._arc(here, step, sweep))
            elif isinstance(step, LineTo):
                found.append((*self._at(here), 0.0))
            else:
                points = points_of(Path(here, (step,)))[:-1]
                found.extend((*self._at(point), 0.0) for point in points)
            here = step.to
        return [*found, (*self._at(here), 0.0)]

    def _arc(self, start: Point, arc: ArcTo, sweep: float) -> list[Corner]:
        if abs(sweep) <= math.pi:
            return [(*self._at(start), -math.tan(sweep / 4))]
        # past half a turn a bulge loses figures: two arcs
        (cx, cy), radius, begin, _ = arc_centre(start, arc)
        half = begin + sweep / 2
        middle = (cx + radius * math.cos(half), cy + radius * math.sin(half))
        bulge = -math.tan(sweep / 8)
        return [(*self._at(start), bulge), (*self._at(middle), bulge)]

    def _fill(self, element: Fill) -> str:
        # white areas only hide what is under them on paper; a cutter has no use for them
        if element.tone in (None, "paper"):
            return ""
        rings = [element.points, *element.holes]
        return self._hatch(element.layer, [self._edge(ring) for ring in rings])

    def _edge(self, ring: tuple[Point, ...]) -> str:
        """Return a closed polyline as the edge of an area: external, without bulges."""
        places = (self._at(point) for point in ring)
        corners = "".join(f" 10\n{x:.6f}\n 20\n{y:.6f}\n" for x, y in places)
        return f"{_flags(((92, 3), (72, 0), (73, 1), (93, len(ring))))}{corners}{tag(97, 0)}"

    def _hatch(self, layer: str, edges: list[str]) -> str:
        """Return an area filled all over, by its edges."""
        plane = "".join(tag(code, value) for code, value in zip(PLANE, LEVEL, strict=True))
        solid = tag(2, "SOLID") + _flags(((70, 1), (71, 0), (91, len(edges))))
        head = self._head("HATCH", layer) + tag(100, "AcDbHatch")
        return "".join((head, plane, solid, *edges, _flags(((75, 0), (76, 1), (98, 0)))))

    def _circle(self, element: Circle) -> str:
        (x, y), radius = self._at(element.centre), element.radius
        place = tag(10, x) + tag(20, y)
        said = ""
        if element.tone not in (None, "paper"):
            begin = _flags(((92, 1), (93, 1), (72, 2)))
            round_ = f"{tag(40, radius)}{tag(50, 0.0)}{tag(51, 360.0)}"
            said += self._hatch(
                element.layer, [f"{begin}{place}{round_}{_flags(((73, 1), (97, 0)))}"]
            )
        if element.pen is not None:
            head = self._head("CIRCLE", element.layer, element.pen) + tag(100, "AcDbCircle")
            said += f"{head}{place}{tag(30, 0.0)}{tag(40, radius)}"
        return said

    def _text(self, element: Text) -> str:
        if element.clip and not inside((element.at,), element.clip):
            return ""
        x, y = self._at(element.at)
        aligned = ALIGNED[element.anchor]
        parts = [
            self._head("TEXT", element.layer),
            tag(100, "AcDbText"),
            *(tag(code, value) for code, value in ((10, x), (20, y), (30, 0.0))),
            tag(40, float(CAP_HEIGHT * element.size_mm)),
            tag(1, element.words),
            tag(50, float(-element.turn_deg)),
            tag(7, element.face.upper()),
            tag(72, aligned),
            # where the alignment is not left, this is the place that counts [DXF, TEXT 11]
            *(tag(code, value) for code, value in ((11, x), (21, y), (31, 0.0))),
            tag(100, "AcDbText"),
        ]
        return "".join(parts)


PLANE, LEVEL = (10, 20, 30, 210, 220, 230), (0.0, 0.0, 0.0, 0.0, 0.0, 1.0)


def _flags(pairs: Iterable[tuple[int, int]]) -> str:
    return "".join(tag(code, value) for code, value in pairs)
