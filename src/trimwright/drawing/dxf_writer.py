"""Drawings as DXF, for machines that cut."""

from io import StringIO
from typing import Any

from trimwright.drawing.dxf_entity import Entities
from trimwright.drawing.flat import flat
from trimwright.drawing.pen import PENS
from trimwright.drawing.sheet import Drawing

MILLIMETRES = 4  # $INSUNITS [DXF reference, header variables]
FONTS = {
    "say": "Bitter-SemiBold.ttf",
    "count": "SofiaSans-Regular.ttf",
    "count-bold": "SofiaSans-SemiBold.ttf",
}
HERE = "  0\nSECTION\n  2\nENTITIES\n"  # what the section with the drawing begins with


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
    >>> from trimwright.drawing.element import Line
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
        owner = document.modelspace().layout_key
        entities = Entities(document.entitydb.next_handle, owner, drawing.height_mm)
        drawn = "".join(map(entities.of, elements))
        # the library would list the kinds in use in the order of a set, which is another each time
        for kind in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(kind)
        out = StringIO()
        document.write(out)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = keep
    # the library writes what is round the drawing; for thousands of lines it is slow
    before, here, after = out.getvalue().partition(HERE)
    if not here:
        raise ValueError("the library's blank file must have a section for entities, found none")
    # from R2007 on in UTF-8, whatever $DWGCODEPAGE says
    return f"{before}{here}{drawn}{after}".encode()
