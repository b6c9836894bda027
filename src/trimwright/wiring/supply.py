"""What reaches each consumer: its voltage, what is lost on its way, how far its ground is lifted."""

import numpy as np
from msgspec import Struct

from trimwright.wiring.network import Solved
from trimwright.wiring.sizing import NOMINAL_V
from trimwright.wiring.use import DIGITS, Row, Use


class Supply(Struct, frozen=True):
    """What reaches one consumer in one mode.

    Attributes
    ----------
    use : Use
        The consumer, the mode, and its current's way.
    alone_v, worst_v : float or None
        Across it with the least else on, and with what brings it lowest [V]; None where it drops
        out or the voltage collapses.
    post_v : float
        At the battery in the worst row [V].
    lost : float
        The most that is lost on the way there, as a share of the nominal voltage: over all rows in
        which current goes that way for what is on for moments, over those without such for what
        lasts.
    ground_v : float
        How far its minus side stands above the battery's post in the worst row [V].
    drops_out : bool
        Whether it goes off for lack of voltage in some row.
    amps : tuple of (str, float)
        What flows in each part of its way where most is lost [A].
    worst_in, lost_in : int
        The number of the row that brings it lowest, and of that in which most is lost.
    """

    use: Use
    alone_v: float | None
    worst_v: float | None
    post_v: float
    lost: float
    ground_v: float
    drops_out: bool
    amps: tuple[tuple[str, float], ...]
    worst_in: int
    lost_in: int


def supplies(found: tuple[Use, ...], made: tuple[Row, ...], solved: Solved) -> tuple[Supply, ...]:
    """Return what reaches each consumer in each mode in which something sets it to work."""
    of_mode: dict[str, list[int]] = {}
    for number, row in enumerate(made):
        of_mode.setdefault(row.mode.name, []).append(number)
    brief = {use.consumer.name for use in found if use.consumer.on_for_s is not None}
    states = _States(
        made,
        solved,
        {one.name: number for number, one in enumerate(solved.circuit.elements)},
        frozenset(n for n, row in enumerate(made) if not row.on & brief),
        of_mode,
    )
    return tuple(states.supply(use) for use in found if use.consumer.name in states.names)


class _States(Struct, frozen=True):
    """The rows that were solved, where each element stands in them, and which rows may last."""

    made: tuple[Row, ...]
    solved: Solved
    names: dict[str, int]
    lasting: frozenset[int]
    of_mode: dict[str, list[int]]

    def supply(self, use: Use) -> Supply:
        """Return what reaches one consumer in one mode."""
        place, solved = self.names[use.consumer.name], self.solved
        working = [
            number
            for number in self.of_mode.get(use.mode.name, ())
            if use.consumer.name in self.made[number].on
        ]
        volts = np.abs(solved.across[working, place])
        off = solved.dropped[working, place] | ~np.isfinite(volts)
        own = next(n for n in working if self.made[n].is_of(use))
        worst = working[int(np.argmin(np.where(off, -1.0, volts.round(DIGITS))))]
        lost, amps, lost_in = self._lost(use, working)
        return Supply(
            use,
            self._known(own, place),
            None if bool(off.any()) else self._known(worst, place),
            float(solved.across[worst, self.names["battery"]]),
            lost / NOMINAL_V,
            self._ground(worst, place),
            bool(off.any()),
            amps,
            worst,
            lost_in,
        )

    def _lost(
        self, use: Use, working: list[int]
    ) -> tuple[float, tuple[tuple[str, float], ...], int]:
        """Return the most that is lost on a way [V], what flows in its parts then [A], and where."""
        way = [name for name in (*use.path.to, *use.path.back) if name in self.names]
        parts = [self.names[name] for name in way]
        brief = use.consumer.on_for_s is not None
        taken = use.path.parts
        weighed = [
            n for n in working if (brief or n in self.lasting) and taken <= self.made[n].closed
        ]
        if not weighed:
            return 0.0, (), working[0]
        lost = np.nansum(np.abs(self.solved.across[np.ix_(weighed, parts)]), axis=1)
        most = int(np.argmax(lost.round(DIGITS)))
        amps = np.abs(np.nan_to_num(self.solved.currents[weighed[most], parts]))
        return float(lost[most]), tuple(zip(way, amps.tolist(), strict=True)), weighed[most]

    def _known(self, row: int, place: int) -> float | None:
        """Return the voltage across an element in a row; None where it is off or unknown."""
        volts = abs(float(self.solved.across[row, place]))
        return None if self.solved.dropped[row, place] or not np.isfinite(volts) else volts

    def _ground(self, row: int, place: int) -> float:
        """Return how far the lower side of an element stands above the battery's post [V]."""
        ends = self.solved.voltages[row, self.solved.circuit.ends[place]]
        return float(np.nanmin(ends)) if np.isfinite(ends).any() else 0.0
