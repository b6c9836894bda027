"""Drawing: one vector model in millimetres, and the writers that put it on paper or screen.

In: lines, fills, words and pages made by `papers`. Out: PDF, SVG and DXF bytes, all of the same
lines. Nothing here knows what a console is.
"""

from trimwright.drawing.dxf_writer import dxf
from trimwright.drawing.element import (
    Anchor,
    ArcTo,
    Box,
    Circle,
    CurveTo,
    Element,
    FaceName,
    Fill,
    Group,
    Line,
    LineTo,
    Path,
    Point,
    Step,
    Text,
)
from trimwright.drawing.face import fonts_used, text_corners, text_width, unprintable
from trimwright.drawing.flat import flat
from trimwright.drawing.pdf_writer import pdf
from trimwright.drawing.pen import PENS, TONES, HatchName, Pen, PenName, ToneName
from trimwright.drawing.sheet import SIZES_MM, Document, Drawing, Page, Size, size_mm
from trimwright.drawing.svg_writer import svg

__all__ = [
    "PENS",
    "SIZES_MM",
    "TONES",
    "Anchor",
    "ArcTo",
    "Box",
    "Circle",
    "CurveTo",
    "Document",
    "Drawing",
    "Element",
    "FaceName",
    "Fill",
    "Group",
    "HatchName",
    "Line",
    "LineTo",
    "Page",
    "Path",
    "Pen",
    "PenName",
    "Point",
    "Size",
    "Step",
    "Text",
    "ToneName",
    "dxf",
    "flat",
    "fonts_used",
    "pdf",
    "size_mm",
    "svg",
    "text_corners",
    "text_width",
    "unprintable",
]
