"""Drawings, the pages they stand on, and documents of many pages."""

from typing import Literal

from msgspec import Struct

from trimwright.drawing.element import Element

SizeName = Literal["A4", "A3", "A2", "A1", "A0", "Letter", "Tabloid"]
Size = SizeName | tuple[float, float]

# ISO 216 and ANSI/ASME Y14.1 (8.5 x 11 in, 11 x 17 in), upright [mm]
SIZES_MM: dict[SizeName, tuple[float, float]] = {
    "A4": (210.0, 297.0),
    "A3": (297.0, 420.0),
    "A2": (420.0, 594.0),
    "A1": (594.0, 841.0),
    "A0": (841.0, 1189.0),
    "Letter": (215.9, 279.4),
    "Tabloid": (279.4, 431.8),
}


class Drawing(Struct, frozen=True):
    """A flat drawing [mm]; what lies outside its width and height is not its business."""

    width_mm: float
    height_mm: float
    elements: tuple[Element, ...] = ()


class Page(Struct, frozen=True):
    """One sheet of paper with one drawing, origin at its top left corner."""

    size: Size
    drawing: Drawing
    title: str = ""

    @property
    def width_mm(self) -> float:
        """Return the width of the paper [mm]."""
        return size_mm(self.size)[0]

    @property
    def height_mm(self) -> float:
        """Return the height of the paper [mm]."""
        return size_mm(self.size)[1]


class Document(Struct, frozen=True):
    """Pages in order, the name they are filed under, and the version of the program or build."""

    pages: tuple[Page, ...]
    name: str = ""
    version: str = ""


def size_mm(size: Size) -> tuple[float, float]:
    """Return width and height of a paper size [mm].

    Raises
    ------
    ValueError
        If a size of one's own is not above 0.

    References
    ----------
    ISO 216:2007; ANSI/ASME Y14.1

    Examples
    --------
    >>> size_mm("A4")
    (210.0, 297.0)
    """
    if isinstance(size, str):
        return SIZES_MM[size]
    if size[0] <= 0 or size[1] <= 0:
        raise ValueError(f"size must be above 0 both ways, got {size[0]:g} x {size[1]:g}")
    return size
