"""A figure as a sum of readings, so that it follows each of them."""

from collections.abc import Callable, Sequence
from typing import Final

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Entry, said
from trimwright.quantities import Quantity

Floats = NDArray[np.float64]

SMALL_STEP: Final = 1e-3  # mm either way, to see how what is computed follows a reading


class Sum(Struct, frozen=True):
    """A figure as a sum of readings: (key, reading, times), and a fixed part."""

    fixed: float = 0.0
    parts: tuple[tuple[str, float, float], ...] = ()

    def plus(self, other: "Sum", times: float = 1.0) -> "Sum":
        """Return this and `times` the other."""
        more = tuple((key, reading, part * times) for key, reading, part in other.parts)
        return Sum(self.fixed + times * other.fixed, self.parts + more)

    @property
    def value(self) -> float:
        """The figure as read."""
        return self.fixed + sum(reading * times for _, reading, times in self.parts)


Place = tuple[Sum, Sum]  # y, z


def read(entry: Entry, field: str) -> Sum:
    """Return one reading of an entry as a sum."""
    figure: Quantity = getattr(entry, field)
    key, times = said(entry, field)
    return Sum(0.0, ((key, figure.value / times, times),))


def computed(of: Callable[[Floats], Floats], readings: Sequence[Sum]) -> tuple[Sum, ...]:
    """Return what is computed from several readings, as sums that follow each of them.

    Straight lines in the readings, by central differences about what is written.

    Parameters
    ----------
    of : callable
        Takes the readings' values (n,) and returns figures (p,).
    readings : sequence of Sum
        One reading each.

    Examples
    --------
    >>> a, b = (Sum(0.0, ((key, value, 1.0),)) for key, value in (("a", 3.0), ("b", 4.0)))
    >>> (long,) = computed(lambda v: np.array([np.hypot(*v)]), [a, b])
    >>> float(long.value), [round(times, 6) for _, _, times in long.parts]
    (5.0, [0.6, 0.8])
    """
    values = np.array([one.value for one in readings])
    figures = of(values)
    slopes = [
        (of(values + step) - of(values - step)) / (2 * SMALL_STEP)
        for step in np.eye(len(values)) * SMALL_STEP
    ]
    found = []
    for number, figure in enumerate(figures):
        total = Sum(float(figure) - sum(s[number] * v for s, v in zip(slopes, values, strict=True)))
        for one, slope in zip(readings, slopes, strict=True):
            total = total.plus(one, float(slope[number]))
        found.append(total)
    return tuple(found)
