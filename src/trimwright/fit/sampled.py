"""A pressure law sampled row by row, so that thousands of rows are quick."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from trimwright.car import CarpetBed

Floats = NDArray[np.float64]
STEPS = 48  # nodes close up towards full squeeze, where the law turns steep


@dataclass(frozen=True, slots=True)
class SampledLaw:
    """A law that is straight between nodes at full (1 - (1 - k/STEPS)^2), row by row.

    Pressure is exact at the nodes; energy is the integral of the straight pieces, so the rest on
    it has an energy of its own. A carpet of 8 mm of squeeze comes out within 0.004 mm of its law.

    Attributes
    ----------
    full : ndarray, shape (rows,)
        Squeeze at the last node [mm]; beyond it the law runs on straight.
    at_mm, pressure, slope, energy : ndarray, shape (rows, STEPS + 1)
        Nodes [mm], and there kPa, kPa/mm towards the next node, kPa mm.
    """

    full: Floats = field(compare=False)
    at_mm: Floats = field(compare=False)
    pressure: Floats = field(compare=False)
    slope: Floats = field(compare=False)
    energy: Floats = field(compare=False)

    @classmethod
    def of(cls, soft: CarpetBed) -> "SampledLaw":
        """Return the law of a carpet, sampled."""
        node = np.arange(STEPS + 1) / STEPS
        at = soft.full[:, None] * (1 - (1 - node) ** 2)
        pressure = soft.pressure(at)
        rise, run = np.diff(pressure, axis=1), np.diff(at, axis=1)
        end = soft.stiffness(at[:, -1:])
        area = 0.5 * (pressure[:, 1:] + pressure[:, :-1]) * run
        energy = np.concatenate([np.zeros((len(at), 1)), np.cumsum(area, axis=1)], axis=1)
        return cls(soft.full, at, pressure, np.concatenate([rise / run, end], axis=1), energy)

    def at(self, squeeze: Floats) -> tuple[Floats, Floats, Floats]:
        """Return pressure, stiffness and energy at squeezes (rows, n), 0 where not touched."""
        held = np.maximum(squeeze, 0.0)
        left = 1 - np.minimum(held / self.full[:, None], 1.0)
        node = (STEPS * (1 - np.sqrt(left))).astype(np.intp)
        node += (STEPS + 1) * np.arange(len(squeeze))[:, None]
        past = held - self.at_mm.ravel()[node]
        slope, pressure = self.slope.ravel()[node], self.pressure.ravel()[node]
        gain = slope * past
        energy = self.energy.ravel()[node] + (pressure + 0.5 * gain) * past
        return pressure + gain, np.where(squeeze > 0, slope, 0.0), energy
