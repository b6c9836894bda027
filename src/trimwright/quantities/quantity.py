"""A figure with its doubt."""

from typing import Literal

from msgspec import Struct

from trimwright.quantities.doubt import Doubt

Unit = Literal["mm", "in"]


class Quantity(Struct, frozen=True, eq=False):
    """A figure in the inner unit (mm, kg, N, deg, kPa, N m, kg/m3), with its doubt if it has one.

    `text` is what was written; it takes no part in comparing or hashing.

    Examples
    --------
    >>> Quantity(19.05, text="3/4 in") == Quantity(19.05, text="19.05 mm")
    True
    """

    value: float
    doubt: Doubt | None = None
    text: str = ""

    def __eq__(self, other: object) -> bool:
        """Return whether the figure and its doubt are the same."""
        if not isinstance(other, Quantity):
            return NotImplemented
        return self.value == other.value and self.doubt == other.doubt

    def __hash__(self) -> int:
        """Return a number that is the same for equal ones."""
        return hash((self.value, self.doubt))
