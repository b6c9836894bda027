"""Drawing: one vector model in millimetres, and the writers that put it on paper or screen.

In: lines, fills, words and pages made by `papers`. Out: PDF, SVG and DXF bytes, all of the same
lines. Nothing here knows what a console is.
"""

from trimwright.drawing.arrow import bevel_arrow, dimension, grain_arrow
from trimwright.drawing.check_square import check_rule, check_squares
from trimwright.drawing.curve import points_of
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
from trimwright.drawing.extent import Extent, Overlap, overlaps, text_extents
from trimwright.drawing.face import (
    folder_of_fonts,
    fonts_used,
    printed,
    text_corners,
    text_width,
    unprintable,
)
from trimwright.drawing.flat import flat, named, outline
from trimwright.drawing.frame_line import frame, frame_box
from trimwright.drawing.gap_tag import GapReading, Grade, feeler, gap_tag, shoulder_mm
from trimwright.drawing.joint import joints, page_map
from trimwright.drawing.mark import (
    GradeName,
    datum_tick,
    drill_cross,
    face_mark,
    grade_mark,
    nail_cross,
    registration_mark,
)
from trimwright.drawing.pdf_writer import pdf, pdfs
from trimwright.drawing.pen import PENS, TONES, HatchName, Pen, PenName, ToneName
from trimwright.drawing.photograph import Photo, PhotoError, photo, picture_kind
from trimwright.drawing.sheet import SIZES_MM, Document, Drawing, Page, Size, size_mm
from trimwright.drawing.svg_writer import svg
from trimwright.drawing.table import Column, Row, head_height, row_height, shared_out, table
from trimwright.drawing.tiling import OVERLAP_MM, Tile, reassembled, tile_name, tiles, windows
from trimwright.drawing.title_block import (
    TITLE_WIDE_MM,
    Title,
    first_angle_symbol,
    fits_last_change,
    title_block,
)
from trimwright.drawing.type_size import (
    LABEL_MM,
    LEAD_MM,
    NAME_MM,
    PART_MM,
    SIZES_OF_TYPE_MM,
    WORD_MM,
)
from trimwright.drawing.words import Setting, text_box, wrapped

__all__ = [
    "LABEL_MM",
    "LEAD_MM",
    "NAME_MM",
    "OVERLAP_MM",
    "PART_MM",
    "PENS",
    "SIZES_MM",
    "SIZES_OF_TYPE_MM",
    "TITLE_WIDE_MM",
    "TONES",
    "WORD_MM",
    "Anchor",
    "ArcTo",
    "Box",
    "Circle",
    "Column",
    "CurveTo",
    "Document",
    "Drawing",
    "Element",
    "Extent",
    "FaceName",
    "Fill",
    "GapReading",
    "Grade",
    "GradeName",
    "Group",
    "HatchName",
    "Line",
    "LineTo",
    "Overlap",
    "Page",
    "Path",
    "Pen",
    "PenName",
    "Photo",
    "PhotoError",
    "Point",
    "Row",
    "Setting",
    "Size",
    "Step",
    "Text",
    "Tile",
    "Title",
    "ToneName",
    "bevel_arrow",
    "check_rule",
    "check_squares",
    "datum_tick",
    "dimension",
    "drill_cross",
    "dxf",
    "face_mark",
    "feeler",
    "first_angle_symbol",
    "fits_last_change",
    "flat",
    "folder_of_fonts",
    "fonts_used",
    "frame",
    "frame_box",
    "gap_tag",
    "grade_mark",
    "grain_arrow",
    "head_height",
    "joints",
    "nail_cross",
    "named",
    "outline",
    "overlaps",
    "page_map",
    "pdf",
    "pdfs",
    "photo",
    "picture_kind",
    "points_of",
    "printed",
    "reassembled",
    "registration_mark",
    "row_height",
    "shared_out",
    "shoulder_mm",
    "size_mm",
    "svg",
    "table",
    "text_box",
    "text_corners",
    "text_extents",
    "text_width",
    "tile_name",
    "tiles",
    "title_block",
    "unprintable",
    "windows",
    "wrapped",
]
