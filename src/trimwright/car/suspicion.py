"""A reading that may be wrong: what the file says there, and what to write instead."""

import re
from collections.abc import Iterator, Sequence
from typing import Final

from msgspec import Struct

from trimwright.build import BitePoint, Build, Entry, NailPoint, Row, Section, TunnelPoint, said
from trimwright.car.wording import point_words, section_words, words_of
from trimwright.quantities import Quantity, shown_with_unit

_SIDE = re.compile(r"left|right")
OTHER: Final = {"left": "right", "right": "left"}
Point = TunnelPoint | BitePoint | NailPoint
FIELDS: Final = {
    TunnelPoint: ("off_middle", "down"),
    BitePoint: ("off_middle", "down"),
    NailPoint: ("left", "right"),
}
CALLED: Final = {
    "floor_below_string": "depth of the floor below the string",
    "string": "height of the string above the tunnel",
}


class Source(Struct, frozen=True):
    """Where a reading stands in the file: its entry and field, its section if it has one."""

    entry: Entry
    field: str
    section: Section | None = None

    @property
    def key(self) -> str:
        """The reading's dotted key."""
        return said(self.entry, self.field).key

    @property
    def figure(self) -> Quantity:
        """The reading."""
        figure: Quantity = getattr(self.entry, self.field)
        return figure


def sources(build: Build) -> dict[str, Source]:
    """Return where each reading of the tunnel stands, by its key."""
    return {one.key: one for one in _all(build)}


def _all(build: Build) -> Iterator[Source]:
    car = build.car
    yield from _there(car, ("floor_below_string",))
    yield from _there(car.datum, ("string",))
    for section in car.tunnel:
        yield from _there(section, ("top", "height_above_floor"), section)
        for row in section.rows:
            yield from _there(row, ("left", "right"), section)
        yield from _there(section.nails, ("apart",), section)
        for point in points_of(section):
            yield from _there(point, FIELDS[type(point)], section)


def _there(
    entry: Entry | None, names: tuple[str, ...], section: Section | None = None
) -> Iterator[Source]:
    """Yield the readings of an entry that were written."""
    if entry is None:
        return
    written_down = (name for name in names if getattr(entry, name) is not None)
    yield from (Source(entry, name, section) for name in written_down)


def points_of(section: Section) -> tuple[Point, ...]:
    """Return the points of a section, the middle mark of two nails first."""
    nails = section.nails
    if nails is not None:
        return (nails.middle, *nails.points)
    return (*section.points, *(point for bite in section.bites for point in bite.points))


def outermost(section: Section) -> tuple[Source, Source]:
    """Return a reading of a section's left and one of its right, which name it as a whole."""
    if section.rows:
        row = next(one for one in section.rows if one.left is not None and one.right is not None)
        return Source(row, "left", section), Source(row, "right", section)
    points = section.nails.points if section.nails is not None else points_of(section)
    left, right = points[0], points[-1]
    first = FIELDS[type(left)][0]
    return Source(left, first, section), Source(right, first, section)


def called(build: Build, one: Source) -> str:
    """Return what a reading is called, without what it reads."""
    if isinstance(one.entry, Row) and one.section is not None:
        down = shown_with_unit(one.entry.down.value, build.unit)
        return f"{one.field} half width at {section_words(build, one.section)}, {down} down"
    named = isinstance(one.entry, Point) and one.entry.key.rpartition(".")[2].isdigit()
    if named and one.section is not None:
        rest = one.entry.key.removeprefix(f"{one.section.key}.")
        return f"{point_words(rest)} at {section_words(build, one.section)}"
    return words_of(build, one.key) or CALLED[one.field]


def both_called(build: Build, one: Source, other: Source) -> str:
    """Return what two readings of one row are called together."""
    if isinstance(one.entry, Row):
        return called(build, one).partition(" at ")[2]
    return f"{called(build, one)} and {called(build, other)}"


def written(build: Build, one: Source, value_mm: float | None = None) -> tuple[str, str]:
    """Return the key and text of the value that holds a reading, with another figure if given."""
    entry = one.entry
    if isinstance(entry, Point):
        texts = {name: getattr(entry, name).text for name in FIELDS[type(entry)]}
        if value_mm is not None:
            sideways = one.field == "off_middle"
            texts[one.field] = _across(value_mm, build) if sideways else fine(value_mm, build)
        return entry.key, _point(entry, *texts.values())
    text = one.figure.text if value_mm is None else fine(value_mm, build)
    return one.key, text + _from(one)


def instead(one: Source, other: Source) -> tuple[str, str]:
    """Return the key and text of a value with the reading across from it in its place."""
    entry = one.entry
    if isinstance(entry, TunnelPoint | BitePoint):
        return entry.key, _point(entry, _mirrored(other.figure.text), entry.down.text)
    return one.key, other.figure.text


def turned(section: Section) -> tuple[tuple[str, str], ...]:
    """Return the keys and texts of a section with its left and right exchanged.

    None for bites: turned round, they would have to be joined from their other end.
    """
    edits: list[tuple[str, str]] = []
    for row in section.rows:
        if row.left is not None and row.right is not None:
            left, right = Source(row, "left"), Source(row, "right")
            edits += [instead(left, right), instead(right, left)]
    lists: list[Sequence[Point]] = [section.points]
    if section.nails is not None:
        lists += [(section.nails.middle,), section.nails.points]
    for points in lists:
        for one, across in zip(points, reversed(points), strict=True):
            first, second = (getattr(across, name).text for name in FIELDS[type(across)])
            nailed = isinstance(across, NailPoint)
            texts = (second, first) if nailed else (_mirrored(first), second)
            edits.append((one.key, _point(across, *texts)))
    return tuple(edits)


def _point(point: Point, first: str, second: str) -> str:
    """Return a point as it is written in a file."""
    if isinstance(point, NailPoint):
        return f"from left {first}, from right {second}"
    letter = f"{point.letter} at " if isinstance(point, BitePoint) and point.letter else ""
    return f"{letter}{first}, {second} down"


def _mirrored(text: str) -> str:
    """Return a place across with left for right and right for left."""
    return _SIDE.sub(lambda found: OTHER[found[0]], text)


def shown(build: Build, one: Source, value_mm: float | None = None) -> str:
    """Return what a reading reads, or another figure for it, as it is said."""
    if isinstance(one.entry, Point):
        return written(build, one, value_mm)[1]
    figure = one.figure.value if value_mm is None else value_mm
    return shown_with_unit(figure, build.unit) + _from(one)


def _from(one: Source) -> str:
    """Return from where a height counts, where the file says it with the figure."""
    if isinstance(one.entry, Section) and one.field == "top":
        return " below string" if one.entry.top_from == "string" else " above floor"
    return ""


def fine(value_mm: float, build: Build) -> str:
    """Return a length as it is typed in a file."""
    return shown_with_unit(value_mm, build.unit, step="fine").replace("\u2009", " ")


def _across(value_mm: float, build: Build) -> str:
    side = "left" if value_mm < 0 else "right"
    return f"{fine(abs(value_mm), build)} {side}"
