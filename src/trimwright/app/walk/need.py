"""What a first reading is needed for: the gaps that cannot be evaluated where it is not written."""

from functools import lru_cache

from msgspec import Struct

from trimwright.build import Build, First, beginning, edited, filled_in, first_readings, parse
from trimwright.cabin import cabin
from trimwright.findings import Edit
from trimwright.quantities import Unit

Path = tuple[str | int, ...]


class Need(Struct, frozen=True):
    """The gaps that go without a reading, and those that only rest on it."""

    lost: tuple[str, ...]
    rests: tuple[str, ...]
    every: bool


@lru_cache(maxsize=2)
def needs(unit: Unit) -> dict[Path, Need]:
    """Return what each first reading is needed for, by its path.

    Found out by leaving each of them out of a build that has them all.
    """
    text = filled_in(beginning("all of it", unit, "right"), unit)
    whole = parse(text).build
    names, rests = _gaps(whole), _rests(whole)
    found: dict[Path, Need] = {}
    kept: dict[Path, tuple[str, ...]] = {}
    first = first_readings(unit)
    for one in first:
        gone = _goes_with(one, first)
        if gone not in kept:
            kept[gone] = _gaps(parse(edited(text, [Edit(gone, None)])).build)
        lost = tuple(name for name in names if name not in kept[gone])
        key = ".".join(str(step) for step in one.path)
        rest = tuple(name for name, keys in rests if any(_below(key, k) for k in keys))
        found[one.path] = Need(lost, rest, every=len(lost) == len(names))
    return found


def _goes_with(one: First, first: tuple[First, ...]) -> Path:
    """Return what has to be taken out for a file without one reading to be read."""
    if not any(one.path in other.needs for other in first):
        return one.path
    return one.path[:1] if one.path[0] == "console" else one.path[:2]


def _gaps(build: Build) -> tuple[str, ...]:
    """Return the gaps of a build that can be evaluated, each whole."""
    return tuple(name for name, _ in _rests(build))


def _rests(build: Build) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return the gaps with the keys of what they rest on."""
    model = cabin(build).model
    return () if model is None else tuple((g.name, g.keys) for g in model.gaps if not g.part_of)


def _below(key: str, other: str) -> bool:
    """Return whether a key is another or below it."""
    return key == other or key.startswith(f"{other}.")
