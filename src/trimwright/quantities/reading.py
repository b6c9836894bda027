"""A written figure taken apart: the value, its unit, its doubt."""

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from trimwright.quantities.doubt import Doubt
from trimwright.quantities.fault import QuantityError
from trimwright.quantities.number import number, numbers_meant
from trimwright.quantities.quantity import Quantity
from trimwright.quantities.spelling import plain

_DOUBTS: tuple[tuple[Literal["normal", "uniform", "split"], re.Pattern[str]], ...] = (
    ("uniform", re.compile(r"(?P<value>.+?)\s*(?:±\s*)?at most (?P<plus>.+?)(?: off)?")),
    ("normal", re.compile(r"(?P<value>[^±]+?)\s*±\s*(?P<plus>[^±]+)")),
    (
        "split",
        re.compile(r"(?P<value>.+?)\s*\+\s*(?P<plus>[^+-]+?)\s*[/, ]\s*-\s*(?P<minus>[^+]+)"),
    ),
    (
        "split",
        re.compile(r"(?P<value>.+?)\s*-\s*(?P<minus>[^+-]+?)\s*[/, ]\s*\+\s*(?P<plus>[^+]+)"),
    ),
)
_FEET_AND_INCHES = re.compile(
    r"""([0-9]{1,4})\s*(?:'|(?:ft|feet|foot)\b\.?)[ -]*([0-9].*)""", re.IGNORECASE
)
_NUMBER_AND_UNIT = re.compile(r"([0-9.,'_/ -]*[0-9])\s*(.*)")
_RANGE = re.compile(r"([0-9.]+) ?- ?([0-9.]+)\s*(.*)")


class Kind(Struct, frozen=True):
    """One kind of figure: how it is named, its units, and how large it may sensibly be."""

    expected: str  # 'a length'
    example: str
    units: Mapping[str, Fraction]  # plain spelling, lower case -> so many inner units
    most: Fraction  # in inner units
    most_says: str  # '20 m'


class Written(Struct, frozen=True):
    """A number with the unit it was written in; '' where none was."""

    figure: Fraction
    unit: str


def quantity(
    text: str,
    kind: Kind,
    bare: str = "",
    *,
    offered: tuple[str, ...] = (),
    spoken: str | None = None,
) -> Quantity:
    """Return the quantity that was written.

    Parameters
    ----------
    text : str
        What was written, kept in the quantity and in every refusal.
    kind : Kind
        What it is a figure of.
    bare : str
        The unit of a bare number; '' if it must name one.
    offered : tuple of str
        The units that a refused bare number may have been meant in.
    spoken : str, optional
        The part of the text that holds the figure, where words stood round it.

    Raises
    ------
    QuantityError
        If the text is no such figure, or can be read in more than one way.
    """
    value_text, doubt_texts, how = _apart(plain(text if spoken is None else spoken))
    value = _written(text, value_text, kind)
    halves = tuple(_written(text, half, kind) for half in doubt_texts)
    own = value.unit or _unit_beside(text, value_text, halves, bare)
    if not own:
        meant = tuple(f"{value_text} {unit}" for unit in offered)
        raise QuantityError(text, f"{kind.expected} with its unit", kind.example, meant)
    amount = value.figure * kind.units[own]
    sizes = tuple(half.figure * kind.units[half.unit or own] for half in halves)
    if max(amount, *sizes, Fraction(0)) > kind.most:
        raise QuantityError(text, f"{kind.expected} of at most {kind.most_says}", kind.example)
    doubt = Doubt(how, float(sizes[-1]), float(sizes[0])) if how else None
    return Quantity(float(amount), doubt, text.strip())


def _apart(
    spoken: str,
) -> tuple[str, tuple[str, ...], Literal["normal", "uniform", "split"] | None]:
    """Return the value's words, those of its half widths (plus, minus), and the kind of doubt."""
    for how, pattern in _DOUBTS:
        found = pattern.fullmatch(spoken)
        if found:
            parts = found.groupdict()
            halves = (parts["plus"], parts["minus"]) if how == "split" else (parts["plus"],)
            return parts["value"], halves, how
    return spoken, (), None


def _unit_beside(text: str, value_text: str, halves: tuple[Written, ...], bare: str) -> str:
    """Return the unit of a value that carries none; a doubt in another unit leaves it unclear."""
    other = sorted({half.unit for half in halves} - {"", bare})
    if other and bare:
        meant = tuple(f"{value_text} {unit}" for unit in (bare, *other))
        example = f"{value_text} {bare} ± 2 {bare}"
        raise QuantityError(text, "a unit on the figure itself", example, meant)
    return other[0] if other else bare


def _written(text: str, part: str, kind: Kind) -> Written:
    """Return one figure with its unit; the refusal quotes the whole text."""
    compound = _FEET_AND_INCHES.fullmatch(part) if "ft" in kind.units else None
    if compound:
        return _feet_and_inches(text, int(compound[1]), compound[2], kind)
    return _single(text, part, kind)


def _single(text: str, part: str, kind: Kind) -> Written:
    """Return one number with one unit."""
    found = _NUMBER_AND_UNIT.fullmatch(part)
    if not found:
        raise QuantityError(text, kind.expected, kind.example)
    unit = _unit_named(found[2], kind)
    figure = number(found[1])
    if figure is None or unit is None or numbers_meant(found[1]):
        raise QuantityError(text, kind.expected, kind.example, _meant(part, found[1], found[2]))
    return Written(figure, unit)


def _unit_named(words: str, kind: Kind) -> str | None:
    """Return the unit's key, '' for none, or None where it is no unit of this kind."""
    key = words.lower().replace("\u00b7", " ").replace("\u22c5", " ").strip().removesuffix(".")
    return key if not key or key in kind.units else None


def _feet_and_inches(text: str, feet: int, rest: str, kind: Kind) -> Written:
    """Return feet and inches as inches; the inch mark may be left off."""
    inches = _single(text, rest, kind)
    if inches.unit not in ("", '"', "in", "inch", "inches") or inches.figure >= 12:  # noqa: PLR2004  inches in a foot
        raise QuantityError(text, "feet, and inches below 12", "6 ft 2 in")
    return Written(feet * 12 + inches.figure, "in")


def _meant(part: str, figure: str, unit: str) -> tuple[str, ...]:
    """Return what an unclear figure may mean, each with its unit as written."""
    after = f" {unit}" if unit else ""
    span = _RANGE.fullmatch(part)
    low, high = (number(span[1]), number(span[2])) if span else (None, None)
    if low is not None and high is not None and low < high:
        middle, half = float((low + high) / 2), float((high - low) / 2)
        return (f"{middle:g}{after} ± {half:g}",)
    return tuple(f"{one}{after}" for one in numbers_meant(figure))
