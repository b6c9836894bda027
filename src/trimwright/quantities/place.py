"""Places in the car: along it, across it, above and below, and slopes, each with its way in words."""

import re
from collections.abc import Mapping
from typing import NoReturn

from trimwright.quantities.amount import angle, length
from trimwright.quantities.doubt import Doubt
from trimwright.quantities.fault import QuantityError
from trimwright.quantities.quantity import Quantity, Unit
from trimwright.quantities.spelling import plain

_ALONG = {"behind": 1, "ahead": -1, "at the datum": 0, "at datum": 0}
_ACROSS = {"right": 1, "left": -1, "on the middle": 0, "on middle": 0}
_UPWARD = {
    "above": 1,
    "up": 1,
    "below": -1,
    "down": -1,
    "level with": 0,
    "level": 0,
    "at the datum": 0,
    "at datum": 0,
}
_SLOPE = {"nose up": 1, "nose down": -1, "level": 0}
_NOTHING = re.compile(r"0(?:[.,]0+)?(?:\s*(?:mm|in|\"))?(?:\s*(?:[±+-]|at most ).*)?")
_ONLY_DOUBT = re.compile(r"[±+-].*|at most .*", re.IGNORECASE)
_DATUM = r"(?: (?:of )?(?:the )?datum)?"
_MIDDLE = r"(?: (?:of )?(?:the )?(?:middle|centre|center))?"


def along(text: str, unit: Unit) -> Quantity:
    """Return a place along the car [mm], behind the datum positive.

    Raises
    ------
    QuantityError
        If it does not say which way: '300 behind', '60 ahead', 'at datum'.

    Examples
    --------
    >>> along("60 ± 2 ahead of the datum", "mm").value
    -60.0
    """
    return _place(text, unit, _ALONG, _DATUM, "a place along the car")


def across(text: str, unit: Unit) -> Quantity:
    """Return a place across the car [mm], right of the middle positive, as seated facing forward.

    Raises
    ------
    QuantityError
        If it does not say which way: '80 left', '80 right of middle', 'on middle'.

    Examples
    --------
    >>> across("3 in left of middle", "mm").value
    -76.2
    """
    return _place(text, unit, _ACROSS, _MIDDLE, "a place across the car")


def upward(text: str, unit: Unit) -> Quantity:
    """Return a height [mm], above the datum level positive.

    Raises
    ------
    QuantityError
        If it does not say which way: '40 above', '40 up', '40 below', '40 down', 'level'.

    Examples
    --------
    >>> upward("40 +3/-1 below", "mm").doubt
    Doubt(kind='split', minus=3.0, plus=1.0)
    """
    return _place(text, unit, _UPWARD, _DATUM, "a height")


def slope(text: str) -> Quantity:
    """Return a slope along the car [deg], nose up positive.

    Raises
    ------
    QuantityError
        If it does not say which way: '2 deg nose up', '2 deg nose down', 'level'.

    Examples
    --------
    >>> slope("2 deg nose down").value
    -2.0
    """
    said, figure = _said(text, tuple(_SLOPE), "")
    if not said:
        _refuse(text, "a slope that says which way", "2 deg nose up", tuple(_SLOPE)[:2])
    sign = _SLOPE[said]
    spoken = figure if sign else _spoken(text, figure, nothing="0 deg")
    return _facing(angle(text, spoken=spoken), sign)


def length_saying(text: str, unit: Unit, ways: tuple[str, ...]) -> tuple[Quantity, str]:
    """Return a length [mm] and which of several ways was said with it: ('149 below string').

    Raises
    ------
    QuantityError
        If it says none of them.

    Examples
    --------
    >>> figure, way = length_saying("149 below string ± 2", "mm", ("below string", "above floor"))
    >>> figure.value, figure.doubt.plus, way
    (149.0, 2.0, 'below string')
    """
    said, figure = _said(text, ways, "")
    if not said:
        _refuse(text, "a length that says where from", f"149 {ways[0]}", ways)
    return length(text, unit, spoken=figure), said


def _place(text: str, unit: Unit, ways: Mapping[str, int], after: str, expected: str) -> Quantity:
    """Return a signed place; only nothing at all may stand without its way."""
    said, figure = _said(text, tuple(ways), after)
    names = [name for name, sign in ways.items() if sign]
    if not said and not _NOTHING.fullmatch(figure):
        _refuse(text, f"{expected} that says which way", f"80 {names[0]}", (names[0], _other(ways)))
    sign = ways[said] if said else 1
    spoken = figure if sign else _spoken(text, figure, nothing="0")
    return _facing(length(text, unit, spoken=spoken), sign)


def _other(ways: Mapping[str, int]) -> str:
    """Return the first way that points to the negative side."""
    return next(name for name, sign in ways.items() if sign < 0)


def _said(text: str, ways: tuple[str, ...], after: str) -> tuple[str, str]:
    """Return the way that a text says ('' for none) and what is left: the figure and its doubt."""
    spoken = plain(text)
    for way in ways:
        found = re.search(rf"(?:(?<=\s)|^){re.escape(way)}{after}(?=\s|$)", spoken, re.IGNORECASE)
        if found:
            return way, f"{spoken[: found.start()]} {spoken[found.end() :]}".strip()
    return "", spoken


def _spoken(text: str, figure: str, *, nothing: str) -> str:
    """Return what is spoken with a way that itself means nothing: at most a doubt beside it."""
    if figure and not _ONLY_DOUBT.fullmatch(figure):
        raise QuantityError(text, "a place, or none at all", "at datum ± 2")
    return f"{nothing} {figure}".strip()


def _facing(figure: Quantity, sign: int) -> Quantity:
    """Return the quantity on its side of nothing: its doubt turns round with it."""
    if sign >= 0:
        return figure
    doubt = figure.doubt and Doubt(figure.doubt.kind, figure.doubt.plus, figure.doubt.minus)
    return Quantity(0.0 - figure.value, doubt, figure.text)


def _refuse(text: str, expected: str, example: str, ways: tuple[str, ...]) -> NoReturn:
    """Refuse a figure without its way, and offer it with each."""
    bare = plain(text).lstrip("+-").strip()
    raise QuantityError(text, expected, example, tuple(f"{bare} {way}" for way in ways))
