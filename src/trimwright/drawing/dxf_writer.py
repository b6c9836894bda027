"""Drawings as DXF, for machines that cut."""

import math
from io import StringIO
from typing import Any

from trimwright.drawing.clip import inside
from trimwright.drawing.curve import arc_centre, points_of
from trimwright.drawing.element import ArcTo, Circle, Fill, Line, LineTo, Path, Point, Text
from trimwright.drawing.flat import flat
from trimwright.drawing.pen import PENS, PenName
from trimwright.drawing.placement import Placed
from trimwright.drawing.sheet import Drawing

MILLIMETRES = 4  # $INSUNITS [DXF reference, header variables]
CAP_HEIGHT = 0.7  # of the size: DXF measures words by their capitals
FONTS = {
    "say": "Bitter-SemiBold.ttf",
    "count": "SofiaSans-Regular.ttf",
    "count-bold": "SofiaSans-SemiBold.ttf",
}
Corner = tuple[float, float, float]  # x, y up [mm], bulge to the next corner


class _Plot:
    """A DXF model space that takes page millimetres, y down."""

    def __init__(self, space: Any, height_mm: float) -> None:  # noqa: ANN401  ezdxf has no public type for it
        self.space = space
        self.height_mm = height_mm

    def at(self, point: Point) -> Point:
        return (point[0], self.height_mm - point[1])

    def look(self, pen: PenName, layer: str) -> dict[str, Any]:
        kind = PENS[pen]
        return {
            "layer": layer,
            "lineweight": round(kind.width_mm * 100),
            "linetype": pen.upper() if kind.dashes_mm else "CONTINUOUS",
        }

    def corners(self, path: Path) -> list[Corner]:
        """Return a path's corners; arcs stay arcs, curves become short straight pieces."""
        found: list[Corner] = []
        here = path.start
        for step in path.steps:
            if isinstance(step, ArcTo):
                sweep = arc_centre(here, step)[3]
                # a bulge is tan(sweep/4), positive anticlockwise with y up [DXF, LWPOLYLINE 42]
                found.extend(self._arc(here, step, sweep))
            elif isinstance(step, LineTo):
                found.append((*self.at(here), 0.0))
            else:
                points = points_of(Path(here, (step,)))[:-1]
                found.extend((*self.at(point), 0.0) for point in points)
            here = step.to
        return [*found, (*self.at(here), 0.0)]

    def _arc(self, start: Point, arc: ArcTo, sweep: float) -> list[Corner]:
        if abs(sweep) <= math.pi:
            return [(*self.at(start), -math.tan(sweep / 4))]
        # past half a turn a bulge loses figures: two arcs
        (cx, cy), radius, begin, _ = arc_centre(start, arc)
        half = begin + sweep / 2
        middle = (cx + radius * math.cos(half), cy + radius * math.sin(half))
        bulge = -math.tan(sweep / 8)
        return [(*self.at(start), bulge), (*self.at(middle), bulge)]

    def draw(self, element: Placed) -> None:
        if isinstance(element, Line):
            look = self.look(element.pen, element.layer)
            points = [self.at(point) for point in element.points]
            self.space.add_lwpolyline(points, close=element.closed, dxfattribs=look)
        elif isinstance(element, Path):
            look = self.look(element.pen, element.layer)
            corners = self.corners(element)
            self.space.add_lwpolyline(corners, "xyb", close=element.closed, dxfattribs=look)
        elif isinstance(element, Fill):
            self.fill(element)
        elif isinstance(element, Circle):
            self.circle(element)
        else:
            self.text(element)

    def fill(self, element: Fill) -> None:
        # white areas only hide what is under them on paper; a cutter has no use for them
        if element.tone in (None, "paper"):
            return
        hatch = self.space.add_hatch(dxfattribs={"layer": element.layer})
        for ring in (element.points, *element.holes):
            hatch.paths.add_polyline_path([self.at(point) for point in ring], is_closed=True)

    def circle(self, element: Circle) -> None:
        centre = self.at(element.centre)
        if element.tone not in (None, "paper"):
            hatch = self.space.add_hatch(dxfattribs={"layer": element.layer})
            edges = hatch.paths.add_edge_path()
            edges.add_arc(centre, element.radius, 0.0, 360.0)
        if element.pen is not None:
            look = self.look(element.pen, element.layer)
            self.space.add_circle(centre, element.radius, dxfattribs=look)

    def text(self, element: Text) -> None:
        from ezdxf.enums import TextEntityAlignment  # noqa: PLC0415  lazy: costs 0.3 s

        if element.clip and not inside((element.at,), element.clip):
            return
        place = {
            "start": TextEntityAlignment.LEFT,
            "middle": TextEntityAlignment.CENTER,
            "end": TextEntityAlignment.RIGHT,
        }[element.anchor]
        look = {"layer": element.layer, "style": element.face.upper()}
        words = self.space.add_text(
            element.words,
            height=CAP_HEIGHT * element.size_mm,
            rotation=-element.turn_deg + 0.0,
            dxfattribs=look,
        )
        words.set_placement(self.at(element.at), align=place)


def _blank() -> Any:  # noqa: ANN401  ezdxf comes without types here
    import ezdxf  # noqa: PLC0415  lazy: costs 0.3 s

    document = ezdxf.new("R2010", units=MILLIMETRES)
    document.header["$MEASUREMENT"] = 1
    for name, pen in PENS.items():
        if pen.dashes_mm:
            # DXF: dashes positive, gaps negative, the whole length first
            signed = [dash * (-1) ** index for index, dash in enumerate(pen.dashes_mm)]
            pattern = [sum(pen.dashes_mm), *signed]
            document.linetypes.add(name.upper(), pattern, description=name)
    for face, font in FONTS.items():
        document.styles.add(face.upper(), font=font)
    return document


def dxf(drawing: Drawing) -> bytes:
    """Return a drawing as DXF R2010: millimetres, y up from the drawing's foot, layers by element.

    Raises
    ------
    ValueError
        If the drawing's height is not above 0, since y is counted from there.

    References
    ----------
    Autodesk DXF reference, R2010: $INSUNITS, LWPOLYLINE, HATCH, TEXT

    Examples
    --------
    >>> square = Line(((0.0, 0.0), (10.0, 0.0), (10.0, 10.0)), "saw", closed=True, layer="saw")
    >>> b"LWPOLYLINE" in dxf(Drawing(10.0, 10.0, (square,)))
    True
    """
    import ezdxf  # noqa: PLC0415  lazy: costs 0.3 s

    if drawing.height_mm <= 0:
        raise ValueError(f"height_mm must be above 0, got {drawing.height_mm:g}")
    keep = ezdxf.options.write_fixed_meta_data_for_testing
    # the library stamps time and chance into the file unless told not to
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        document = _blank()
        elements = flat(drawing.elements)
        for layer in sorted({element.layer for element in elements} - {"0"}):
            document.layers.add(layer)
        plot = _Plot(document.modelspace(), drawing.height_mm)
        for element in elements:
            plot.draw(element)
        # the library would list the kinds in use in the order of a set, which is another each time
        for kind in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(kind)
        out = StringIO()
        document.write(out)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = keep
    return out.getvalue().encode("utf-8")  # from R2007 on whatever $DWGCODEPAGE says
