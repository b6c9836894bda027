"""Saws: how much wood they take, and how far they tilt."""

from msgspec import Struct

from trimwright.quantities import Unit, length
from trimwright.stock.table import row


class Kerf(Struct, frozen=True):
    """The range of what a saw turns into dust [mm]."""

    name: str
    low_mm: float
    high_mm: float
    source: str


class Tilt(Struct, frozen=True):
    """How far a saw tilts [deg]."""

    name: str
    largest_deg: float
    source: str


def kerf(name: str) -> Kerf:
    """Return the kerf of a saw.

    Raises
    ------
    ValueError
        If it is not in the table; the nearest names are offered.

    Examples
    --------
    >>> kerf("circular saw").high_mm
    3.175
    """
    found = row("kerf", name)
    unit: Unit = "in" if found["unit"] == "in" else "mm"
    low, high = (length(found[key], unit).value for key in ("low", "high"))
    return Kerf(found["name"], low, high, found["source"])


def tilt(name: str) -> Tilt:
    """Return how far a saw tilts.

    Raises
    ------
    ValueError
        If it is not in the table; the nearest names are offered.

    Examples
    --------
    >>> tilt("table saw").largest_deg
    45.0
    """
    found = row("tilt", name)
    return Tilt(found["name"], float(found["largest_deg"]), found["source"])
