"""What every element is in each of many states."""

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


class States(Struct, frozen=True, eq=False):
    """Figures of the elements of a circuit, each of shape (rows, elements), a state a row.

    `Circuit.states` makes them; `opened`, `shorted` and `given` return changed ones.

    Attributes
    ----------
    siemens, volts, watts, most_a, cold_siemens : ndarray
        As in `Values`; an open element has 0 S and 0 W.
    bypass : ndarray
        Conductance of a short beside the element [S].
    """

    siemens: Floats
    volts: Floats
    watts: Floats
    most_a: Floats
    cold_siemens: Floats
    bypass: Floats

    def __post_init__(self) -> None:
        """Make the arrays read-only, and refuse shapes that differ."""
        shapes = {one.shape for one in self.arrays}
        if len(shapes) > 1 or len(self.siemens.shape) != 2:  # noqa: PLR2004  rows and elements
            raise ValueError(f"arrays must share one shape (rows, elements), got {sorted(shapes)}")
        for one in self.arrays:
            one.flags.writeable = False

    @property
    def arrays(self) -> tuple[Floats, ...]:
        """All of its arrays, in the order of the attributes."""
        return tuple(map(self.__getattribute__, self.__struct_fields__))

    @property
    def rows(self) -> int:
        """How many states."""
        return int(self.siemens.shape[0])

    def rows_of(self, which: slice | Bools | NDArray[np.intp]) -> "States":
        """Return some of the states."""
        return States(*(one[which] for one in self.arrays))

    def elements_of(self, which: Bools | NDArray[np.intp]) -> "States":
        """Return some of the elements' figures."""
        return States(*(one[:, which] for one in self.arrays))

    def repeated(self, rows: int) -> "States":
        """Return each state so many times, one after the other."""
        return States(*(np.repeat(one, rows, axis=0) for one in self.arrays))

    def opened(self, where: Bools) -> "States":
        """Return the states with elements taken out where told, shape (rows, elements) or less."""
        inside = ~self._mask(where)
        return replace(
            self,
            siemens=self.siemens * inside,
            watts=self.watts * inside,
            cold_siemens=self.cold_siemens * inside,
        )

    def shorted(self, where: Bools, ohms: float) -> "States":
        """Return the states with a short of so many ohms beside elements where told."""
        if not ohms > 0:
            raise ValueError(f"ohms must be above 0, got {ohms:g}")
        return replace(self, bypass=np.where(self._mask(where), 1 / ohms, self.bypass))

    def given(
        self,
        where: Bools,
        *,
        ohms: Floats | float | None = None,
        volts: Floats | float | None = None,
        watts: Floats | float | None = None,
    ) -> "States":
        """Return the states with other figures where told.

        Parameters
        ----------
        where : ndarray of bool, shape (rows, elements) or broadcastable to it
            Which figures change.
        ohms : ndarray or float, broadcastable, optional
            Of resistors and inside sources [ohm], above 0; inf is open.
        volts : ndarray or float, broadcastable, optional
            Of sources, cut-outs [V].
        watts : ndarray or float, broadcastable, optional
            Of constant-power loads [W], not below 0.

        Raises
        ------
        ValueError
            If a figure is out of its range.
        """
        told, changed = self._mask(where), self
        if ohms is not None:
            if not np.all(np.asarray(ohms) > 0):
                raise ValueError(f"ohms must be above 0, got {np.min(ohms):g}")
            changed = replace(changed, siemens=np.where(told, 1 / np.asarray(ohms), self.siemens))
        if volts is not None:
            changed = replace(changed, volts=np.where(told, volts, self.volts))
        if watts is not None:
            if not np.all(np.asarray(watts) >= 0):
                raise ValueError(f"watts must not be below 0, got {np.min(watts):g}")
            changed = replace(changed, watts=np.where(told, watts, self.watts))
        return changed

    def _mask(self, where: Bools) -> Bools:
        return np.broadcast_to(where, self.siemens.shape)
