"""Sections and readings as a builder would say them."""

import re

from trimwright.build import Build, Reading, Section
from trimwright.quantities import Quantity, shown

_ROW = re.compile(r"down (?P<down>.+)\.(?P<what>left|right|down)")
_PLAIN = {
    "top": "top of the tunnel at",
    "girth floor to floor": "girth at",
    "width at shoulder": "width at the shoulder of",
    "width at floor": "width at the floor of",
    "height above floor": "height above the floor of",
    "at": "place along of",
}


def place_words(build: Build, along: Quantity) -> str:
    """Return a place along the car in words: '300 behind', '60 ahead', 'at the datum'."""
    if along.value == 0:
        return "at the datum"
    way = "behind" if along.value > 0 else "ahead"
    return f"{shown(abs(along.value), build.unit)} {way}"


def section_words(build: Build, section: Section) -> str:
    """Return what a section is called: 'section 300 behind'."""
    return f"section {place_words(build, section.at)}"


def reading_words(build: Build, reading: Reading) -> str:
    """Return what a reading is called: 'left half width 100 down at section 300 behind'."""
    for section in build.car.tunnel:
        if not reading.key.startswith(f"{section.key}."):
            continue
        rest = reading.key[len(section.key) + 1 :]
        words = section_words(build, section)
        row = _ROW.fullmatch(rest)
        if row:
            return _row_words(row["down"], row["what"], words)
        if rest in _PLAIN:
            return f"{_PLAIN[rest]} {words}"
    return reading.says


def _row_words(down: str, what: str, words: str) -> str:
    if what == "down":
        return f"depth of the row {down} down at {words}"
    return f"{what} half width {down} down at {words}"


__all__ = ["place_words", "reading_words", "section_words"]
