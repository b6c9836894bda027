"""Trading one cut for another: at any amount of one, the least of the other that is enough."""

from typing import Self

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.chance.sweep import clear_intervals, smallest_place

Floats = NDArray[np.float64]
TOUCH_MM = 1e-9  # a margin this far below 0 is 0 and rounding


class Trade(Struct, frozen=True, eq=False):
    """Rows of margins as they follow two cuts; only the gaps that the first moves are kept apart.

    `first` and `last` (rows,) are the ends of where a row clears along the other cut, so far as
    the first cut does not move them. Each gap of `gains` and `loses` (gaps, rows) bounds that
    from below or above by its figure plus its slope times the first cut. `opens` and `shuts`
    (rows,) are between which amounts of the first cut the gaps clear that the other does not move,
    `begins` and `ends` the same in rising order where there is anything between; `gated` says
    whether there are such gaps.
    Rows that never clear are left out, and so are those that always do: there are `always` of them.
    """

    first: Floats
    last: Floats
    gains: tuple[tuple[Floats, float], ...]
    loses: tuple[tuple[Floats, float], ...]
    opens: Floats
    shuts: Floats
    begins: Floats
    ends: Floats
    always: int
    gated: bool

    @classmethod
    def of(cls, margins: Floats, one: Floats, other: Floats, most: tuple[float, float]) -> Self:
        """Return the trade of two cuts.

        Parameters
        ----------
        margins : ndarray, shape (gaps, rows)
            With neither cut made [mm].
        one, other : ndarray, shape (gaps,)
            What each gap gains for 1 mm of either.
        most : tuple of float
            The most of either [mm].
        """
        fixed, still = one == 0, other == 0
        ends = np.stack([one * most[0], other * most[1]])
        least, best = np.minimum(ends, 0.0).sum(axis=0), np.maximum(ends, 0.0).sum(axis=0)
        always = np.all(margins >= -least[:, None], axis=0)
        never = np.any(margins < -best[:, None] - TOUCH_MM, axis=0)
        margins = margins[:, ~always & ~never]
        moved = [
            tuple(
                (margins[g] / -other[g], float(-one[g] / other[g])) for g in np.flatnonzero(which)
            )
            for which in ((other > 0) & ~fixed, (other < 0) & ~fixed)
        ]
        first, last = (np.full(margins.shape[1], end) for end in (-np.inf, np.inf))
        for g in np.flatnonzero(fixed & ~still):
            place = margins[g] / -other[g]
            if other[g] > 0:
                np.maximum(first, place, out=first)
            else:
                np.minimum(last, place, out=last)
        own = still & ~fixed
        opens, shuts = clear_intervals(margins[own] + TOUCH_MM, one[own])
        ever = opens <= shuts
        begins, ends = np.sort(opens[ever]), np.sort(shuts[ever])
        sure, gated = int(np.count_nonzero(always)), bool(own.any())
        gains, loses = moved
        return cls(first, last, gains, loses, opens, shuts, begins, ends, sure, gated)

    def open(self, levels: Floats, needed: int) -> Floats:
        """Return those levels of the first cut at which the gaps the other leaves be clear enough.

        That holds in enough rows for `least` to be asked; half of all levels fail here.

        Examples
        --------
        >>> margins = np.array([[-1.0, -2.0, 0.5], [1.0, 1.0, 3.0]])
        >>> trade = Trade.of(margins, np.array([0.0, -1.0]), np.array([1.0, 0.0]), (4.0, 9.0))
        >>> trade.open(np.array([0.0, 2.0]), 3), trade.open(np.array([0.0, 2.0, 4.0]), 1)
        (array([0.]), array([0., 2.]))
        """
        if not self.gated:
            return levels
        begun = np.searchsorted(self.begins, levels, "right")
        return levels[begun - np.searchsorted(self.ends, levels) >= needed - self.always]

    def least(self, level: float, needed: int, most: float) -> float | None:
        """Return the least of the other cut, up to `most`, at which enough rows clear, if any.

        `level` and `most` are within what the trade was made for.

        Examples
        --------
        >>> margins = np.array([[-1.0, -2.0, 0.5]])
        >>> trade = Trade.of(margins, np.array([1.0]), np.array([0.5]), (2.0, 9.0))
        >>> trade.least(0.0, 3, 9.0), trade.least(1.0, 3, 9.0), trade.least(1.0, 3, 1.9)
        (4.0, 2.0, None)
        """
        first, last, needed = self.first, self.last, needed - self.always
        if needed <= 0:
            return 0.0
        for place, slope in self.gains:
            first = np.maximum(first, place + slope * level)
        # each row has to begin to clear somewhere up to `most`: most levels fail here, quickly
        if np.count_nonzero(first <= most) < needed:
            return None
        if self.gated:
            first = np.where((self.opens <= level) & (level <= self.shuts), first, np.inf)
            if np.count_nonzero(first <= most) < needed:
                return None
        for place, slope in self.loses:
            last = np.minimum(last, place + slope * level)
        return smallest_place(first, last, needed, most)
