"""Friction between what meets in a car."""

from msgspec import Struct

from trimwright.quantities import Doubt, Quantity
from trimwright.stock.table import row


class Friction(Struct, frozen=True):
    """The range of the coefficient of friction of two things that touch."""

    name: str
    low: float
    high: float
    source: str

    @property
    def coefficient(self) -> Quantity:
        """Coefficient: the middle of the range, and no more off than its ends."""
        half = (self.high - self.low) / 2
        return Quantity(self.low + half, Doubt("uniform", half, half))


def friction(name: str) -> Friction:
    """Return the friction of a pair: 'wood on smooth steel'.

    Raises
    ------
    ValueError
        If it is not in the table; the nearest names are offered.

    Examples
    --------
    >>> friction("wood on carpet").coefficient.value
    0.25
    """
    found = row("friction", name)
    return Friction(found["name"], float(found["low"]), float(found["high"]), found["source"])
