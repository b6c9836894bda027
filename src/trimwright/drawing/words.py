"""Words set into a width."""

import re

from msgspec import Struct

from trimwright.drawing.element import Element, FaceName, Point, Text
from trimwright.drawing.face import ASCENT, text_width
from trimwright.drawing.type_size import WORD_MM

LEADING = 1.32  # line to line, of the size
BREAKS = re.compile(r"(?<=[-_/.,;:+·)])|(?<=[a-z])(?=[A-Z0-9])|(?<=[0-9])(?=[A-Za-z])")


class Setting(Struct, frozen=True):
    """How words are set: size [mm], face, line spacing as a share of the size."""

    size_mm: float = WORD_MM
    face: FaceName = "count"
    leading: float = LEADING


PLAIN = Setting()


def _pieces(word: str, width_mm: float, setting: Setting) -> list[str]:
    """Return a word too long for a line cut at joints in it, else where the line is full."""
    lines, line = [], ""
    for part in (part for part in BREAKS.split(word) if part):
        if text_width(line + part, setting.size_mm, setting.face) <= width_mm:
            line += part
            continue
        if line:
            lines.append(line)
        line = ""
        for char in part:
            if line and text_width(line + char, setting.size_mm, setting.face) > width_mm:
                lines.append(line)
                line = ""
            line += char
    return [*lines, line]


def wrapped(words: str, width_mm: float, setting: Setting = PLAIN) -> tuple[str, ...]:
    """Return words broken into lines no wider than a width; no word is lost or shortened.

    A word wider than the line is broken after a hyphen, slash, point or the like, between small
    and capital letters or letters and figures, else where the line is full. A line feed is kept.

    Raises
    ------
    ValueError
        If the width is not above 0.

    Examples
    --------
    >>> wrapped("the nose hits the dash", 15.0)
    ('the nose', 'hits the', 'dash')
    """
    if width_mm <= 0:
        raise ValueError(f"width_mm must be above 0, got {width_mm:g}")
    lines: list[str] = []
    for paragraph in words.split("\n"):
        line = ""
        # only the plain space parts words: a figure stays with its unit and its fraction
        for word in paragraph.split(" "):
            joined = f"{line} {word}" if line else word
            if text_width(joined, setting.size_mm, setting.face) <= width_mm:
                line = joined
                continue
            if line:
                lines.append(line)
            *full, line = _pieces(word, width_mm, setting)
            lines.extend(full)
        lines.append(line)
    return tuple(lines)


def text_box(
    at: Point, words: str, width_mm: float, setting: Setting = PLAIN
) -> tuple[tuple[Element, ...], float]:
    """Return words set into a column from its top left corner, and the height they take [mm].

    Nothing is shrunk and nothing left out: the height grows instead.
    """
    lines = wrapped(words, width_mm, setting)
    step = setting.size_mm * setting.leading
    first = at[1] + ASCENT * setting.size_mm
    drawn = tuple(
        Text((at[0], first + index * step), line, setting.size_mm, setting.face, box_mm=width_mm)
        for index, line in enumerate(lines)
        if line
    )
    return drawn, step * len(lines)
