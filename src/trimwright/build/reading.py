"""Every reading of a build, and every figure by its key."""

from collections.abc import Iterator
from functools import cache, lru_cache
from types import UnionType
from typing import Union, get_args, get_origin

from msgspec import Struct
from msgspec.structs import replace

from trimwright.build.document import Document
from trimwright.build.entry import Entry, said
from trimwright.build.kind import Role
from trimwright.build.walk import held
from trimwright.build.whole import Build
from trimwright.quantities import Quantity
from trimwright.stock import way

BARE, WAY = "bare metal", "tape"
NAMING = ("name", "gear", "probe", "panel", "bolt", "at", "weight", "finding", "part", "reading")
TAPED = ("length", "place along", "place across", "height")  # what a way of measuring has doubts of


class Reading(Struct, frozen=True):
    """One measured figure: its key, its name in words, and how and over what it was taken.

    `sort` is what it is a figure of: 'length', 'place along', 'place across', 'height', 'weight',
    'torque', 'angle'. `quantity` carries the doubt that was written, else that of its way of measuring. `assumed` is
    true for a default that nobody wrote. `line` is 0 where no document was at hand.
    """

    key: str
    says: str
    quantity: Quantity
    way: str
    over: str
    sort: str
    line: int = 0
    assumed: bool = False


class Spot(Struct, frozen=True):
    """An entry on the walk, with its words and what holds for all below it."""

    entry: Entry
    words: tuple[str, ...]
    way: str
    over: str


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
    >>> words = "build: Larkspur estate\nunit: mm\ncar: {carpet: {loose: 15}}\n"
    >>> reading = readings(parse(words).build)[0]
    >>> reading.says, reading.way, reading.quantity.doubt.plus
    ('carpet, loose', 'tape', 2.0)
    """
    found = []
    for one in measured(build):
        figure, line = one.quantity, document.line(one.key) if document else 0
        if figure.doubt is None and one.sort in TAPED and not one.assumed:
            figure = replace(figure, doubt=way(one.way).doubt)
        found.append(replace(one, quantity=figure, line=line))
    return tuple(found)


def measured(build: Build) -> tuple[Reading, ...]:
    """Return every measured figure, with no doubt but what was written, and without lines."""
    found: dict[str, Reading] = {}
    for spot in spots(build):
        for name, role in roles(type(spot.entry)):
            figure: Quantity | None = getattr(spot.entry, name)
            place = said(spot.entry, name)
            if figure is None or role.role != "measured" or place.times != 1.0:
                continue
            words = ", ".join((*spot.words, label(spot.entry, name)))
            assumed = name not in spot.entry.model_fields_set
            taken = (spot.way, spot.over, role.sort)
            reading = Reading(place.key, words, figure, *taken, assumed=assumed)
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


class _Itself:
    """A build that equals nothing but itself: two that are equal may be spelled differently."""

    def __init__(self, build: Build) -> None:
        self.build = build

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Itself) and self.build is other.build

    def __hash__(self) -> int:
        return id(self.build)


def figures_of(build: Build) -> dict[str, Quantity]:
    """Return every figure, measured or chosen, as written, by its dotted key."""
    return _figures(_Itself(build))


@lru_cache(maxsize=16)
def _figures(itself: _Itself) -> dict[str, Quantity]:
    found: dict[str, Quantity] = {}
    for spot in spots(itself.build):
        for name, _ in roles(type(spot.entry)):
            figure, place = getattr(spot.entry, name), said(spot.entry, name)
            if figure is not None and place.times == 1.0:
                found.setdefault(place.key, figure)
    return found


def spots(build: Build) -> Iterator[Spot]:
    """Yield every entry of a build with its words, in the order of the schema."""
    yield from _walk(Spot(build, (), WAY, BARE))


def _walk(spot: Spot) -> Iterator[Spot]:
    """Yield an entry and all entries below it."""
    entry = spot.entry
    own = entry.__dict__  # asked so, a field that is not there costs nothing
    by = own.get("by") or entry.WAY or spot.way
    over = own.get("over") or spot.over
    yield replace(spot, way=by, over=over)
    for name, number, below in held(entry):
        item = None if number is None else _name(below, number)
        yield from _walk(Spot(below, _words(spot, name, item), by, over))


def _words(spot: Spot, field: str, item: str | None) -> tuple[str, ...]:
    """Return the words for what an entry holds in a field."""
    name = label(spot.entry, field)
    if name in ("car", "rows", "readings"):
        return (*spot.words, item) if item else spot.words
    return (*spot.words, f"{name} {item}" if item else name)


def label(entry: Entry, field: str) -> str:
    """Return a field's key, as typed in a file."""
    return type(entry).model_fields[field].alias or field.replace("_", " ")


def _name(item: Entry, number: int) -> str:
    """Return what tells an item of a list from its neighbours."""
    for name in NAMING:
        told = item.__dict__.get(name)
        if told is not None:
            text = told.text.split("±")[0].strip() if isinstance(told, Quantity) else str(told)
            return f"at {text}" if name == "at" else text
    last = item.key.rpartition(".")[2]
    return str(number + 1) if last.isdigit() else last
