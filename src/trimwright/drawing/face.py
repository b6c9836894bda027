"""The faces words are set in, and how wide words are."""

import math
import unicodedata
from functools import lru_cache
from importlib.resources import files
from pathlib import Path as FilePath

from trimwright.drawing.element import FaceName, Point, Text
from trimwright.drawing.fraction import runs

FOLDER = FilePath(str(files("trimwright.drawing") / "fonts"))
FILES: dict[FaceName, str] = {
    "say": "say.ttf",
    "count": "count.ttf",
    "count-bold": "count-bold.ttf",
}
# what stands in when the package was built without its fonts: two of the fourteen of PDF 1.7, 9.6.2.2
STAND_INS: dict[FaceName, str] = {
    "say": "Helvetica-Bold",
    "count": "Helvetica",
    "count-bold": "Helvetica-Bold",
}
ASCENT, DESCENT = 0.76, 0.22  # of the size: what words reach above and below their baseline
# characters that WinAnsi lacks and this trade uses, as it can print them
WIN_ANSI = {
    "\u2009": " ",
    "\u2212": "\u2013",
    "\u2032": "'",
    "\u2033": '"',
    "\u03a9": "ohm",
    "\u2126": "ohm",
    "\u2264": "<=",
    "\u2265": ">=",
    "\u2248": "~",
    "\u2192": "->",
    "\u2300": "\u00d8",
    "\u2044": "/",
}
FONT_ONLY = {
    "\u2126": "\u03a9",
    "\u2264": "<=",
    "\u2265": ">=",
    "\u2248": "~",
    "\u2192": "->",
    "\u2300": "\u00d8",
    "\u03bc": "\u00b5",
    "\u202f": "\u2009",
}
UNPRINTABLE = "?"


def folder_of_fonts() -> FilePath:
    """Return the folder of the package's font files; it may hold none."""
    return FOLDER


def fonts_used() -> dict[FaceName, str]:
    """Return by face the font that papers are set in: a file of the package or a PDF stand-in."""
    found = font_files()
    return {face: FILES[face] if face in found else STAND_INS[face] for face in FILES}


def font_files() -> dict[FaceName, FilePath]:
    """Return by face the font file of the package; a face with a stand-in is left out."""
    found = {face: _font_file(FOLDER, name) for face, name in FILES.items()}
    return {face: path for face, path in found.items() if path is not None}


@lru_cache(maxsize=8)
def _advances(path: FilePath) -> dict[str, float]:
    """Return the advance widths of a font file by character, in shares of the size."""
    from fontTools.ttLib import TTFont  # noqa: PLC0415  lazy: costs 0.1 s

    with TTFont(path, lazy=True) as font:
        unit = font["head"].unitsPerEm
        widths = font["hmtx"].metrics
        return {chr(code): widths[name][0] / unit for code, name in font.getBestCmap().items()}


@lru_cache(maxsize=8)
def _stand_in_advances(name: str) -> dict[str, float]:
    """Return the advance widths of a PDF stand-in by character, in shares of the size."""
    from reportlab.pdfbase.pdfmetrics import stringWidth  # noqa: PLC0415  lazy: costs 0.1 s

    printable = [bytes([code]).decode("cp1252", "ignore") for code in range(32, 256)]
    return {char: stringWidth(char, name, 1.0) for char in printable if char}


@lru_cache(maxsize=16)
def _font_file(folder: FilePath, name: str) -> FilePath | None:
    """Return a font file of the package, None where it was built without: asked for every word."""
    path = folder / name
    return path if path.is_file() else None


@lru_cache(maxsize=16)
def _advances_of(face: FaceName, folder: FilePath) -> dict[str, float]:
    path = _font_file(folder, FILES[face])
    return _stand_in_advances(STAND_INS[face]) if path is None else _advances(path)


def _printed_char(char: str, known: dict[str, float], swaps: dict[str, str]) -> str:
    if char in known:
        return char
    swap = swaps.get(char, "")
    if swap and all(part in known for part in swap):
        return swap
    plain = "".join(part for part in unicodedata.normalize("NFKD", char) if part in known)
    return plain or UNPRINTABLE


def printed(words: str, face: FaceName) -> str:
    r"""Return words as a face can print them; a character it has no form for becomes `?`.

    Examples
    --------
    >>> printed("12\u00a0V, \u22652", "count")
    '12\xa0V, >=2'
    """
    return _printed(words, face, FOLDER)


@lru_cache(maxsize=8192)  # the same words stand on many pages
def _printed(words: str, face: FaceName, folder: FilePath) -> str:
    known = _advances_of(face, folder)
    swaps = WIN_ANSI if _font_file(folder, FILES[face]) is None else FONT_ONLY
    return "".join(_printed_char(char, known, swaps) for char in words)


def unprintable(words: str, face: FaceName) -> str:
    """Return the characters of words that a face would print as `?`, each once, in order."""
    odd = [char for char in words if char != UNPRINTABLE and printed(char, face) == UNPRINTABLE]
    return "".join(dict.fromkeys(odd))


def text_width(words: str, size_mm: float, face: FaceName = "count") -> float:
    """Return how wide words print [mm]: the sum of the font's own advance widths, no kerning.

    Examples
    --------
    >>> text_width("1111", 3.0) == text_width("8888", 3.0)
    True
    """
    return _share(words, face, FOLDER) * size_mm


@lru_cache(maxsize=8192)  # asked of the same words again and again while they find their place
def _share(words: str, face: FaceName, folder: FilePath) -> float:
    """Return how wide words print, in shares of their size, in the fonts of a folder."""
    known = _advances_of(face, folder)
    shown = _printed(words, face, folder)
    return math.fsum(known[char] * run.scale for run in runs(shown) for char in run.words)


def text_corners(text: Text) -> tuple[Point, Point, Point, Point]:
    """Return the corners of the box that a text takes up [mm], from the top left of the words."""
    width = text_width(text.words, text.size_mm, text.face)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[text.anchor]
    top, bottom = -ASCENT * text.size_mm, DESCENT * text.size_mm
    angle = math.radians(text.turn_deg)
    cos, sin = math.cos(angle), math.sin(angle)
    x, y = text.at
    box = ((left, top), (left + width, top), (left + width, bottom), (left, bottom))
    a, b, c, d = ((x + u * cos - v * sin, y + u * sin + v * cos) for u, v in box)
    return (a, b, c, d)
