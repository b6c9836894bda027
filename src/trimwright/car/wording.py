"""Sections and readings as a builder would say them."""

import re

from trimwright.build import Build, Reading, Section
from trimwright.quantities import Quantity, shown

_ROW = re.compile(r"down (?P<down>.+)\.(?P<what>left|right|down)")
_POINT = re.compile(r"(?:nails\.|bites\.(?P<bite>\d+)\.)?points\.(?P<point>\d+)(?:\.(?P<what>.+))?")
_WHAT = {
    "off middle": "place across of",
    "down": "depth of",
    "left": "left nail to",
    "right": "right nail to",
}
_PLAIN = {
    "top": "top of the tunnel at",
    "girth floor to floor": "girth at",
    "width at shoulder": "width at the shoulder of",
    "width at floor": "width at the floor of",
    "height above floor": "height above the floor of",
    "at": "place along of",
    "nails.apart": "distance between the nails at",
    "nails.middle.left": "left nail to the middle mark at",
    "nails.middle.right": "right nail to the middle mark at",
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
    return words_of(build, reading.key) or reading.says


def words_of(build: Build, key: str) -> str:
    """Return what a reading of a section is called, nothing for any other key."""
    for section in build.car.tunnel:
        if not key.startswith(f"{section.key}."):
            continue
        rest = key[len(section.key) + 1 :]
        words = section_words(build, section)
        row, point = _ROW.fullmatch(rest), _POINT.fullmatch(rest)
        if row:
            return _row_words(row["down"], row["what"], words)
        if point:
            return f"{_WHAT[point['what']]} {point_words(rest)} at {words}"
        if rest in _PLAIN:
            return f"{_PLAIN[rest]} {words}"
    return ""


def point_words(rest: str) -> str:
    """Return what a point is called: 'point 3 of bite 2', from 'bites.1.points.2...'."""
    found = _POINT.match(rest)
    if found is None:
        raise ValueError(f"rest must name a point, got {rest!r}")
    of = f" of bite {int(found['bite']) + 1}" if found["bite"] else ""
    return f"point {int(found['point']) + 1}{of}"


def _row_words(down: str, what: str, words: str) -> str:
    if what == "down":
        return f"depth of the row {down} down at {words}"
    return f"{what} half width {down} down at {words}"


__all__ = ["place_words", "point_words", "reading_words", "section_words", "words_of"]
