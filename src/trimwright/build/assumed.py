"""Every default a build leans on."""

from collections.abc import Iterator

from msgspec import Struct

from trimwright.build.console import Trims
from trimwright.build.entry import OWN_FIELDS, said
from trimwright.build.reading import WAY, Spot, label, readings, spots, value
from trimwright.build.tunnel import Section
from trimwright.build.whole import Build
from trimwright.quantities import Quantity
from trimwright.stock import way

SILENT = ("format", "seed", "revision")  # of the file, not of the car
ENGINE = "car.engine moves"


class Assumed(Struct, frozen=True):
    """A default that was used because nothing was written: where to write it, what was taken."""

    key: str
    says: str
    text: str


def assumed(build: Build) -> tuple[Assumed, ...]:
    r"""Return every default that was used, in the order of the schema.

    Parameters
    ----------
    build : Build
        A loaded build.

    Returns
    -------
    tuple of Assumed
        Last, one for each way of measuring whose readings carry no doubt of their own; its key is
        the first such reading's.

    Examples
    --------
    >>> from trimwright.build import parse
    >>> words = "build: Larkspur estate\nunit: mm\ncar: {carpet: {loose: 15 ± 1}}\n"
    >>> assumed(parse(words).build)[1]
    Assumed(key='wanted.nose to dash', says='wanted, nose to dash', text='6 mm')
    """
    found: dict[str, Assumed] = {}
    for spot in spots(build):
        if isinstance(spot.entry, Trims) or (spot.entry.key == ENGINE and not build.car.lever):
            continue
        for one in _of(spot):
            found.setdefault(one.key, one)
    return (*found.values(), *_doubts(build))


def _of(spot: Spot) -> Iterator[Assumed]:
    """Yield the defaults of one entry."""
    entry = spot.entry
    for name, info in type(entry).model_fields.items():
        if name in OWN_FIELDS or name in SILENT:
            continue
        told, place = getattr(entry, name), said(entry, name)
        unset = name not in entry.model_fields_set
        text = told.text if isinstance(told, Quantity) else told
        if name == "by" and told is None:
            text = spot.way
        elif place.times != 0.0 and not (unset and (info.is_required() or info.default)):
            continue
        if isinstance(text, str):
            yield Assumed(place.key, ", ".join((*spot.words, label(entry, name))), text)


def _doubts(build: Build) -> Iterator[Assumed]:
    """Yield what the ways of measuring stand for where a reading carries no doubt."""
    used: dict[str, str] = {}
    for one in readings(build):
        if value(build, one.key).doubt is None and one.quantity.doubt is not None:
            used.setdefault(one.way, one.key)
    for name, key in used.items():
        yield Assumed(key, f"doubt of a reading by {name}", f"± {way(name).doubt_mm:g} mm")
    yield from _depths(build)
    carpet = build.car.carpet
    if carpet is not None and carpet.pressed:
        half = carpet.lath_doubt_mm
        yield Assumed(carpet.pressed[0].key, "doubt of the lath's width", f"± {half:g} mm")


def _depths(build: Build) -> Iterator[Assumed]:
    """Yield how far the depths of rows may be off where nothing is said, once for each way."""
    rows = (one for one in build.car.tunnel if one.rows and one.depths_within is None)
    used: dict[str, Section] = {}
    for section in rows:
        used.setdefault(section.by or WAY, section)
    for name, section in used.items():
        says, half = f"doubt of all depths of a section by {name}", section.depth_doubt_mm
        yield Assumed(said(section, "depths_within").key, says, f"± {half:g} mm")
