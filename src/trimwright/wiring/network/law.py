"""What elements without a fixed resistance take at a voltage."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.wiring.network.states import States

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Whole = NDArray[np.intp]
Which = Bools | slice  # of the elements

EXPONENT = 0.55  # of a lamp's current in its voltage [Fink and Beaty 1978, see lamp_current]
DEAD_V = 1e-9  # below which there is nothing across a load but rounding
LEAK = 1e-7  # share of an alternator's conductance that its rectifier lets back: next to none


def lamp_current(
    across_v: Floats, siemens: Floats, design_v: Floats, cold_siemens: Floats
) -> tuple[Floats, Floats]:
    """Return what an incandescent lamp takes, and its slope.

    I / I_d = (V / V_d)^0.55 while that makes it hotter, and so of more resistance, than cold; as a
    plain resistor below.

    Parameters
    ----------
    across_v : ndarray
        V, the voltage across it [V].
    siemens, design_v : ndarray
        I_d / V_d, its conductance at its design voltage [S]; V_d, that voltage [V], above 0.
    cold_siemens : ndarray
        Its conductance without current [S].

    Returns
    -------
    current, slope : ndarray
        In [A] and [S].

    Notes
    -----
    The exponent differs a little from lamp to lamp, and the law is one of lamps near their design
    voltage: a lamp at a tenth of it is neither cold nor by this law.

    References
    ----------
    D. G. Fink and H. W. Beaty, Standard Handbook for Electrical Engineers, 11th edition, 1978,
    page 22-8, as given in the open encyclopedia's article on lamp rerating.

    Examples
    --------
    A lamp of 21 W at 12 V, at half its voltage:

    >>> one = lamp_current(np.array([6.0]), np.array([21 / 144]), np.array([12.0]), np.array([3.0]))
    >>> one[0].round(4)
    array([1.1953])
    """
    share = np.maximum(np.abs(across_v), 1e-12 * design_v) / design_v
    hot = siemens * share ** (EXPONENT - 1)
    cold = hot >= cold_siemens
    conductance = np.where(cold, cold_siemens, hot)
    return conductance * across_v, np.where(cold, 1.0, EXPONENT) * conductance


def alternator_current(
    across_v: Floats, siemens: Floats, regulated_v: Floats, most_a: Floats
) -> tuple[Floats, Floats]:
    """Return what flows into an alternator at its plus end, and its slope.

    Parameters
    ----------
    across_v : ndarray
        The voltage across it [V].
    siemens, regulated_v : ndarray
        The conductance behind which its regulated voltage stands [S]; that voltage [V].
    most_a : ndarray
        The most that it gives [A].

    Returns
    -------
    current, slope : ndarray
        In [A] and [S]. The rectifier lets back a ten-millionth of what the inner resistance would, so
        that what hangs on the alternator alone stands at its regulated voltage. The slope is of
        that size too where it gives its most, as a search needs some.
    """
    free = siemens * (regulated_v - across_v)
    holds = (free >= 0) & (free <= most_a)
    given = np.where(free < 0, LEAK * free, np.minimum(free, most_a))
    return -given, np.where(holds, 1.0, LEAK) * siemens


class Laws(Struct, frozen=True, eq=False):
    """The lamps, alternators and constant-power loads of a network: which elements are of each kind.

    `figures`, shape (rows, 7, elements), are what `Values` tells of them, in its order, then what
    `siemens` and `pushed` return.
    """

    lamp: Which
    alternator: Which
    load: Which
    figures: Floats

    @classmethod
    def of(cls, lamp: Which, alternator: Which, load: Which, states: States) -> "Laws":
        """Return the laws of elements that are so many of each kind, and are so in some states."""
        siemens, pushed = states.siemens.copy(), np.zeros_like(states.siemens)
        siemens[:, lamp] *= EXPONENT
        pushed[:, alternator] = (siemens * states.volts)[:, alternator]
        figures = np.stack([*states.arrays[:5], siemens, pushed], axis=1)
        return cls(lamp, alternator, load, figures)

    def rows_of(self, which: Bools | Whole) -> "Laws":
        """Return the laws in some of the states."""
        return Laws(self.lamp, self.alternator, self.load, self.figures[which])

    @property
    def least_v(self) -> Floats:
        """Return the cut-outs of loads, shape (rows, elements) [V]."""
        return np.asarray(self.figures[:, 1])

    @property
    def watts(self) -> Floats:
        """Return what loads take, shape (rows, elements) [W]."""
        return np.asarray(self.figures[:, 2])

    @property
    def siemens(self) -> Floats:
        """Return the conductances that they are about, shape (rows, elements) [S].

        How the current of a lamp grows about its design voltage, inside alternators; none of loads.
        """
        return np.asarray(self.figures[:, 5])

    @property
    def pushed(self) -> Floats:
        """Return the currents that alternators drive into these, shape (rows, elements) [A]."""
        return np.asarray(self.figures[:, 6])

    def currents(self, across_v: Floats, on: Bools) -> tuple[Floats, Floats]:
        """Return what each takes and its slope, loads only where on, shapes (rows, elements)."""
        amps, slopes = np.zeros_like(across_v), np.zeros_like(across_v)
        kind = self.lamp
        siemens, volts, _, _, cold = self.figures[:, :5, kind].swapaxes(0, 1)
        amps[:, kind], slopes[:, kind] = lamp_current(across_v[:, kind], siemens, volts, cold)
        kind = self.alternator
        siemens, volts, _, most, _ = self.figures[:, :5, kind].swapaxes(0, 1)
        amps[:, kind], slopes[:, kind] = alternator_current(across_v[:, kind], siemens, volts, most)
        kind = self.load
        running, volts, watts = on[:, kind], across_v[:, kind], self.watts[:, kind]
        taken = np.divide(watts, volts, out=np.zeros_like(volts), where=running)
        amps[:, kind] = taken
        slopes[:, kind] = np.divide(-taken, volts, out=np.zeros_like(volts), where=running)
        return amps, slopes
