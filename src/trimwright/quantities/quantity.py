"""A figure with its doubt."""

from dataclasses import dataclass, field
from typing import Literal

from trimwright.quantities.doubt import Doubt

Unit = Literal["mm", "in"]


@dataclass(frozen=True, slots=True)
class Quantity:
    """A figure in the inner unit (mm, kg, N, deg, kPa, N m, kg/m3), with its doubt if it has one.

    `text` is what was written; it takes no part in comparing or hashing.

    Examples
    --------
    >>> Quantity(19.05, text="3/4 in") == Quantity(19.05, text="19.05 mm")
    True
    """

    value: float
    doubt: Doubt | None = None
    text: str = field(default="", compare=False)
