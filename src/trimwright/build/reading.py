"""Every reading of a build, and every default it leans on."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from types import UnionType
from typing import Any, Union, get_args, get_origin

from trimwright.build.document import Document
from trimwright.build.entry import OWN_FIELDS, Entry, said
from trimwright.build.kind import Role
from trimwright.build.whole import Build
from trimwright.quantities import Quantity

BARE, WAY = "bare metal", "tape"
NAMING = ("name", "gear", "probe", "panel", "bolt", "at", "weight", "finding")


@dataclass(frozen=True, slots=True)
class Reading:
    """One measured figure: its key, its name in words, and how and over what it was taken.

    `line` is 0 where no document was at hand.
    """

    key: str
    says: str
    quantity: Quantity
    way: str
    over: str
    line: int = 0


@dataclass(frozen=True, slots=True)
class Assumed:
    """A default that was used because nothing was written: where to write it, what was taken."""

    key: str
    says: str
    text: str


@cache
def roles(model: type[Entry]) -> tuple[tuple[str, Role], ...]:
    """Return the fields of a model that hold a figure, each with its role."""
    found = []
    for name, info in model.model_fields.items():
        metadata = list(info.metadata)
        if get_origin(info.annotation) in (Union, UnionType):
            for one in get_args(info.annotation):
                metadata += getattr(one, "__metadata__", ())
        found += [(name, role) for role in metadata if isinstance(role, Role)]
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _Spot:
    """An entry on the walk, with what holds for all below it."""

    entry: Entry
    words: tuple[str, ...]
    way: str
    over: str


def readings(build: Build, document: Document | None = None) -> tuple[Reading, ...]:
    r"""Return every measured figure, in the order of the schema, each once.

    Parameters
    ----------
    build : Build
        A loaded build.
    document : Document, optional
        The text it came from, for the lines.

    Returns
    -------
    tuple of Reading
        A reading that a short form shares between several values is listed once, as written.

    Examples
    --------
    >>> from trimwright.build import parse
    >>> words = "build: Larkspur estate\\nunit: mm\\ncar: {carpet: {loose: 15 ± 1}}\\n"
    >>> readings(parse(words).build)[0].says
    'carpet, loose'
    """
    found: dict[str, Reading] = {}
    for spot in _walk(_Spot(build, (), WAY, BARE)):
        for name, role in roles(type(spot.entry)):
            figure = getattr(spot.entry, name)
            place = said(spot.entry, name)
            if figure is None or role.role != "measured" or place.times != 1.0:
                continue
            words = ", ".join((*spot.words, _label(spot.entry, name)))
            line = document.line(place.key) if document else 0
            reading = Reading(place.key, words, figure, spot.way, spot.over, line)
            found.setdefault(place.key, reading)
    return tuple(found.values())


def value(build: Build, key: str) -> Quantity:
    """Return the figure written under a dotted key, or assumed for it.

    Raises
    ------
    KeyError
        If the build holds no figure under that key.
    """
    figures = figures_of(build)
    if key not in figures:
        raise KeyError(f"no figure under {key!r}")
    return figures[key]


def figures_of(build: Build) -> dict[str, Quantity]:
    """Return every figure, measured or chosen, by the key it was written under."""
    found: dict[str, Quantity] = {}
    for spot in _walk(_Spot(build, (), WAY, BARE)):
        for name, _ in roles(type(spot.entry)):
            figure, place = getattr(spot.entry, name), said(spot.entry, name)
            if figure is not None and place.times == 1.0:
                found.setdefault(place.key, figure)
    return found


def _walk(spot: _Spot) -> Iterator[_Spot]:
    """Yield an entry and all entries below it, in the order of the schema."""
    spot = _Spot(
        spot.entry,
        spot.words,
        getattr(spot.entry, "by", None) or spot.way,
        getattr(spot.entry, "over", None) or spot.over,
    )
    yield spot
    for name in type(spot.entry).model_fields:
        held = getattr(spot.entry, name)
        if name in OWN_FIELDS:
            continue
        if isinstance(held, Entry):
            yield from _walk(_Spot(held, _words(spot, name, None), spot.way, spot.over))
        elif isinstance(held, tuple):
            for number, item in enumerate(held):
                if isinstance(item, Entry):
                    words = _words(spot, name, _name(item, number))
                    yield from _walk(_Spot(item, words, spot.way, spot.over))


def _words(spot: _Spot, field: str, item: str | None) -> tuple[str, ...]:
    """Return the words for what an entry holds in a field."""
    label = _label(spot.entry, field)
    if label in ("car", "rows", "readings"):
        return (*spot.words, item) if item else spot.words
    return (*spot.words, f"{label} {item}" if item else label)


def _label(entry: Entry, field: str) -> str:
    """Return a field's key, as typed in a file."""
    return type(entry).model_fields[field].alias or field.replace("_", " ")


def _name(item: Entry, number: int) -> str:
    """Return what tells an item of a list from its neighbours."""
    for name in NAMING:
        held: Any = getattr(item, name, None)
        if held is not None:
            text = held.text if isinstance(held, Quantity) else str(held)
            return f"at {text}" if name == "at" else text
    last = item.key.rpartition(".")[2]
    return str(number + 1) if last.isdigit() else last
