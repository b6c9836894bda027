"""What the walk knows of a build: what its file says, its first readings, its sections."""

import re

from msgspec import Struct

from trimwright.app.walk.need import Path
from trimwright.build import Build, Document, First, Loaded, Section, first_readings, written
from trimwright.quantities import Unit

# a longer form of the same thing: where it is written, the short one is not asked for
LONG_FORMS: dict[Path, tuple[Path, ...]] = {
    ("car", "between seats"): (("car", "seats"),),
    ("car", "lever knob"): (("car", "lever"),),
    ("console", "deck height"): (("console", "deck"),),
    ("console", "width"): (("console", "widths"),),
    ("car", "dash above tunnel"): (("car", "dash"),),
    ("car", "carpet", "squeezed by hand"): (("car", "carpet", "pressed"),),
}
TUNNEL: Path = ("car", "tunnel")
WIDTHS = ("width at shoulder", "width at floor")
_SIDED = re.compile(r"(?P<before>.*?)\s*\b(?P<side>ahead|behind|left|right)\b(?P<after>.*)")
_TAILED = re.compile(r"(?P<figure>.*?)(?P<tail>\s+(?:(?:at|below|above)\b.*|deg\w*|up|down)|\s*°)?")


class Known(Struct, frozen=True):
    """A build, what its file says by path, and its first readings."""

    build: Build
    said: dict[Path, str]
    first: tuple[First, ...]
    document: Document

    def left(self) -> set[Path]:
        """Return the first readings that are not written."""
        return {one.path for one in self.first} - set(self.said)

    def path(self, key: str) -> Path | None:
        """Return the path of a dotted key that the file holds, None for any other."""
        return next((path for path in self.said if key_of(path) == key), None)

    def holds(self, path: Path) -> bool:
        """Return whether the file says anything at a path or below it."""
        return _holds(self.said, path)


def known(loaded: Loaded) -> Known:
    """Return what is known of a build on the walk."""
    said = written(loaded.text)
    return Known(loaded.build, said, _first(loaded.build, said, loaded.build.unit), loaded.document)


def key_of(path: Path) -> str:
    """Return a path as a dotted key."""
    return ".".join(str(step) for step in path)


def taken_apart(text: str, sides: tuple[str, ...]) -> tuple[str, str, str]:
    """Return the figure of a text with its doubt, its side, and what stands after it.

    Examples
    --------
    >>> taken_apart("12 behind ± 1/8", ("ahead", "behind")), taken_apart("131 ± 3 at 40 up", ())
    (('12 ± 1/8', 'behind', ''), ('131 ± 3', '', ' at 40 up'))
    """
    if sides:
        found = _SIDED.fullmatch(text)
        if found is None:
            return ("0" if text else "", "", "")
        return f"{found['before']}{found['after']}".strip(), found["side"], ""
    parts = _TAILED.fullmatch(text)
    return (text, "", "") if parts is None else (parts["figure"], "", parts["tail"] or "")


def wide_section(sections: tuple[Section, ...]) -> int | None:
    """Return the number of the section that is read, or to be read, by its widths.

    None where every section is read point by point.
    """
    for number, one in enumerate(sections):
        if one.width_at_shoulder or one.width_at_floor or not one.touched:
            return number
    return None if sections else 0


def _first(build: Build, said: dict[Path, str], unit: Unit) -> tuple[First, ...]:
    """Return the first readings that this file asks for: none that a longer form replaces."""
    long = {short for short, forms in LONG_FORMS.items() if any(_holds(said, f) for f in forms)}
    number = wide_section(build.car.tunnel)
    found: list[First] = []
    for one in first_readings(unit):
        if any(one.path[: len(short)] == short for short in long):
            continue
        if one.path[:2] == TUNNEL:
            found += [] if number is None else [_in_section(one, number)]
        else:
            found += _as_written(said, one)
    return tuple(found)


def _in_section(one: First, number: int) -> First:
    """Return a first reading of the tunnel as one of another section."""

    def moved(path: Path) -> Path:
        return (*path[:2], number, *path[3:])

    return First(moved(one.path), one.mm, one.inch, tuple(moved(path) for path in one.needs))


def _as_written(said: dict[Path, str], one: First) -> list[First]:
    """Return a reading, or those that the file has in its stead at places of its own."""
    name = str(one.path[-1])
    if one.path[1] != "dash above tunnel" or not name.endswith("ahead"):
        return [one]
    own = [p for p in said if p[:2] == one.path[:2] and str(p[-1]).endswith(("ahead", "behind"))]
    return [First(path, one.mm, one.inch) for path in own] or [one]


def _holds(said: dict[Path, str], path: Path) -> bool:
    """Return whether a file says anything at a path or below it."""
    return any(one[: len(path)] == path for one in said)
