"""Bolts: their threads, and how torque becomes clamp force."""

from msgspec import Struct

from trimwright.quantities import length
from trimwright.stock.table import plain_name, row, rows, unknown

_SQUARE_INCH_MM2 = length("1 in", "in").value ** 2


class Bolt(Struct, frozen=True):
    """A thread: diameter and pitch [mm], and the area [mm2] that carries its pull."""

    name: str
    diameter_mm: float
    pitch_mm: float
    area_mm2: float
    source: str


class NutFactor(Struct, frozen=True):
    """The range of K in T = K F d (torque, clamp force, diameter) for a finish."""

    name: str
    low: float
    high: float
    source: str


def bolt(name: str) -> Bolt:
    """Return a bolt by its thread: 'M6', '1/4-20', '#10-32'.

    Raises
    ------
    ValueError
        If it is in neither table; the nearest names are offered.

    References
    ----------
    iso-898-1, asme-b1-1

    Examples
    --------
    >>> bolt("M6").area_mm2, round(bolt("1/4-20").area_mm2, 1)
    (20.1, 20.5)
    """
    if plain_name(name) in {plain_name(one["name"]) for one in rows("inch_bolt")}:
        return _inch_bolt(name)
    known = [one["name"] for table in ("bolt", "inch_bolt") for one in rows(table)]
    if plain_name(name) not in map(plain_name, known):
        raise ValueError(unknown("bolt", name, known))
    found = row("bolt", name)
    return Bolt(
        found["name"],
        float(found["diameter_mm"]),
        float(found["pitch_mm"]),
        float(found["area_mm2"]),
        found["source"],
    )


def _inch_bolt(name: str) -> Bolt:
    """Return a bolt from the inch table, in mm."""
    found = row("inch_bolt", name)
    return Bolt(
        found["name"],
        length(found["diameter_in"], "in").value,
        length("1 in", "in").value / float(found["threads_per_in"]),
        float(found["area_in2"]) * _SQUARE_INCH_MM2,
        found["source"],
    )


def nut_factor(name: str) -> NutFactor:
    """Return the range of nut factors of a finish.

    Raises
    ------
    ValueError
        If it is not in the table; the nearest names are offered.

    Examples
    --------
    >>> nut_factor("zinc plated").high
    0.35
    """
    found = row("nut_factor", name)
    return NutFactor(found["name"], float(found["low"]), float(found["high"]), found["source"])
