"""A bundle of wires: how thick it is, whether it goes through a hole, how tight it bends."""

from functools import lru_cache
from math import sqrt

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.stock import bend, bend_moving
from trimwright.wiring.bundle.packing import pack


class Bundle(Struct, frozen=True, eq=False):
    """Wires packed closely, with a wrap round them.

    Parameters
    ----------
    diameters_mm : tuple of float
        Outside diameters of the wires [mm], as they were given.
    wrap_mm : float
        Thickness of the wrap [mm].
    bare_mm : float
        Diameter of the circle round the wires [mm].
    centres_mm : ndarray, shape (n, 2), read-only
        Centres of the wires about the bundle's [mm], in the order given.
    """

    diameters_mm: tuple[float, ...]
    wrap_mm: float
    bare_mm: float
    centres_mm: NDArray[np.float64]

    @property
    def diameter_mm(self) -> float:
        """Diameter over the wrap [mm]."""
        return self.bare_mm + 2 * self.wrap_mm


class Passage(Struct, frozen=True):
    """A bundle in a round hole: what it fills of the area and of the width, and what is left [mm].

    The area counts the wires alone, not the air between them or the wrap.
    """

    by_area: float
    by_diameter: float
    spare_mm: float

    @property
    def goes_through(self) -> bool:
        """Whether it does."""
        return self.spare_mm >= 0


class Bend(Struct, frozen=True):
    """The tightest bend, inside [mm]: so many times the diameter, by a source."""

    radius_mm: float
    times: float
    source: str


def bundle(diameters_mm: tuple[float, ...], *, wrap_mm: float = 0.0) -> Bundle:
    """Return wires as a bundle.

    Parameters
    ----------
    diameters_mm : tuple of float
        Outside diameters [mm], each above 0, at least one.
    wrap_mm : float, default 0
        Thickness of tape, sleeve or conduit round them [mm], from 0 up.

    Raises
    ------
    ValueError
        If there is no wire, a diameter is not above 0, or the wrap is below 0.

    Examples
    --------
    >>> round(bundle((2.6,) * 7).diameter_mm, 6), round(bundle((1.6, 2.4)).diameter_mm, 6)
    (7.8, 4.0)
    """
    if not diameters_mm or not all(one > 0 for one in diameters_mm):
        raise ValueError(f"diameters_mm must be one or more above 0, got {diameters_mm}")
    if not wrap_mm >= 0:
        raise ValueError(f"wrap_mm must be 0 or more, got {wrap_mm:g}")
    order = sorted(range(len(diameters_mm)), key=lambda n: -diameters_mm[n])
    packed, bare_mm = _packed(tuple(diameters_mm[n] for n in order))
    centres = np.empty_like(packed)
    centres[order] = packed
    centres.flags.writeable = False
    return Bundle(diameters_mm, wrap_mm, bare_mm, centres)


@lru_cache(maxsize=1024)
def _packed(diameters_mm: tuple[float, ...]) -> tuple[NDArray[np.float64], float]:
    """Return the packing of wires, thickest first."""
    return pack(np.array(diameters_mm))


def rule_of_thumb_mm(diameters_mm: tuple[float, ...]) -> float:
    """Return 1.2 sqrt(sum d^2) [mm]: what shops reckon a bundle's diameter by.

    It is short of what 2 to 6, 9 and 10 equal wires need, by 15 % for two.

    Examples
    --------
    >>> round(rule_of_thumb_mm((1.6, 2.4)), 6)
    3.461329
    """
    return 1.2 * sqrt(sum(one**2 for one in diameters_mm))


def passage(what: Bundle, hole_mm: float) -> Passage:
    """Return how a bundle stands in a round hole, grommet or conduit.

    Raises
    ------
    ValueError
        If the hole is not above 0.

    Examples
    --------
    >>> found = passage(bundle((2.0,) * 7), 10.0)
    >>> round(found.by_area, 2), round(found.by_diameter, 2), round(found.spare_mm, 2)
    (0.28, 0.6, 4.0)
    """
    if not hole_mm > 0:
        raise ValueError(f"hole_mm must be above 0, got {hole_mm:g}")
    filled = sum(one**2 for one in what.diameters_mm) / hole_mm**2
    return Passage(filled, what.diameter_mm / hole_mm, hole_mm - what.diameter_mm)


def tightest_bend(what: Bundle) -> Bend:
    """Return how tight a bundle, or a wire on its own, may be bent.

    References
    ----------
    wire-bundle-bend, h05v-k-sheet

    Examples
    --------
    >>> tightest_bend(bundle((2.0,), wrap_mm=0.5)).radius_mm
    12.0
    """
    found = bend("single wire" if len(what.diameters_mm) == 1 else "bundle")
    return Bend(found.value * what.diameter_mm, found.value, found.source)


def tightest_moving(what: Bundle) -> Bend:
    """Return how tight a bundle, or a wire on its own, may be bent where it moves.

    It is held to what moving cables bear, and never to less than it bears lying still.

    References
    ----------
    cable-bending-table, wire-bundle-bend, h05v-k-sheet

    Examples
    --------
    >>> tightest_moving(bundle((2.0,))).times, tightest_moving(bundle((2.0, 2.0))).times
    (5.0, 10.0)
    """
    still, moving = tightest_bend(what), bend_moving(what.diameter_mm)
    if still.times >= moving.value:
        return still
    return Bend(moving.value * what.diameter_mm, moving.value, moving.source)
