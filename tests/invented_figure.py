"""Figures by chance, written down as a builder would: mm or inches, doubts stated or not."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

import numpy as np

T = TypeVar("T")
SIXTEENTHS, THIRTY_SECONDS = 16, 32


@dataclass(frozen=True, slots=True, eq=False)
class Pencil:
    """Chance, the unit that is written in, and how often a doubt is written beside a reading."""

    rng: np.random.Generator
    unit: str
    doubts: float

    def some(self, low: float, high: float) -> float:
        """Return any figure between two."""
        return float(self.rng.uniform(low, high))

    def maybe(self, share: float) -> bool:
        """Return yes in this share of cases."""
        return bool(self.rng.random() < share)

    def one_of(self, choices: Sequence[T]) -> T:
        """Return any of the choices."""
        return choices[int(self.rng.integers(len(choices)))]

    def long(self, mm: float, parts: int = SIXTEENTHS) -> str:
        """Return a length in whole mm, or in inches and parts of them.

        Examples
        --------
        >>> Pencil(np.random.default_rng(1), "in", 0.0).long(190.0)
        '7 1/2'
        """
        if self.unit == "mm":
            return f"{mm:.0f}"
        whole, rest = divmod(Fraction(round(mm / 25.4 * parts), parts), 1)
        return f"{whole} {rest}" if whole and rest else str(rest if rest else whole)

    def read(self, mm: float, doubt_mm: float = 2.0) -> str:
        """Return a length as measured, now and then with its doubt."""
        if not self.maybe(self.doubts):
            return self.long(mm)
        if self.unit == "mm":
            return f"{mm:.0f} ± {doubt_mm:g}"
        return f"{self.long(mm)} ± {self.long(max(doubt_mm, 0.8), THIRTY_SECONDS)}"

    def along(self, mm: float) -> str:
        """Return a place along the car, mm behind the datum."""
        return f"{self.long(abs(mm))} {'behind' if mm >= 0 else 'ahead'}"

    def across(self, mm: float, doubt_mm: float = 0.0) -> str:
        """Return a place across the car, mm right of the middle, with a doubt if it has one."""
        said = self.read(abs(mm), doubt_mm) if doubt_mm else self.long(abs(mm))
        return f"{said} {'right' if mm >= 0 else 'left'}"
