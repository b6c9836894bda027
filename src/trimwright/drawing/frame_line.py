"""The frame of a page. It has no zones of its own: those that findings name are in the views."""

from trimwright.drawing.element import Box, Line
from trimwright.drawing.sheet import Size, size_mm

INSET_MM = 8.0


def frame_box(size: Size) -> Box:
    """Return the rectangle of the frame [mm].

    Examples
    --------
    >>> frame_box("A4").right, frame_box("A4").bottom
    (202.0, 289.0)
    """
    width, height = size_mm(size)
    return Box(INSET_MM, INSET_MM, width - 2 * INSET_MM, height - 2 * INSET_MM)


def frame(size: Size) -> Line:
    """Return a page's frame, 8 mm in."""
    return Line(frame_box(size).corners, "frame", closed=True, layer="frame")
