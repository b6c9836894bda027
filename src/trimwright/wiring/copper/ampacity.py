"""What a wire may carry for good where it lies, and how warm it gets there.

A wire alone in still air follows from its heat balance. In a bundle it may carry a share of that:
the factors printed for loaded cores that lie together, taken at the next printed number. A
neighbour that carries a share s of what it may gives s^2 of the heat, and counts as that much of a
loaded wire. The factors are those of buildings; none are printed for cars.
"""

from math import pi, sqrt

import numpy as np
from msgspec import Struct
from numpy.typing import ArrayLike, NDArray

from trimwright.stock import Wire, bundle_factors
from trimwright.wiring.copper.heat import Jacket, copper_loss, current_at, settled_c, wall

_MOST_WIRES = bundle_factors()[-1].wires


class Laid(Struct, frozen=True):
    """A wire where it lies.

    Parameters
    ----------
    wire : Wire
        The wire.
    ambient_c : float
        The air around it, or around its bundle [degC].
    share : float, default 1
        The share of what it could carry alone, from `bundle_factor`: above 0, at most 1.

    Raises
    ------
    ValueError
        If the air is too warm for its insulation, or the share is out of range.
    """

    wire: Wire
    ambient_c: float
    share: float = 1.0

    def __post_init__(self) -> None:
        """Refuse what cannot be."""
        if not 0 < self.share <= 1:
            raise ValueError(f"share must be above 0 and at most 1, got {self.share:g}")
        if not self.ambient_c < self.wire.class_c:
            raise ValueError(
                f"ambient_c must be below the {self.wire.class_c:g} of the insulation, "
                f"got {self.ambient_c:g}"
            )


def bundle_factor(wires: int, *, load_share: float = 1.0) -> float:
    """Return what each wire of a bundle may carry, as a share of what it may alone.

    Parameters
    ----------
    wires : int
        Wires in the bundle, this one included, from 1 to the largest printed number.
    load_share : float, default 1
        What the others carry of what they may [share], from 0 to 1.

    Raises
    ------
    ValueError
        If a figure is out of range.

    References
    ----------
    vde-0298-4-2023

    Examples
    --------
    >>> bundle_factor(1), bundle_factor(5), bundle_factor(8, load_share=0.6)
    (1.0, 0.5625, 0.5625)
    """
    if not 1 <= wires <= _MOST_WIRES:
        raise ValueError(f"wires must be from 1 to {_MOST_WIRES}, got {wires}")
    if not 0 <= load_share <= 1:
        raise ValueError(f"load_share must be from 0 to 1, got {load_share:g}")
    loaded = 1 + (wires - 1) * load_share**2  # Joule's heat goes with the square of the current
    if loaded <= 1:
        return 1.0
    return next(one.factor for one in bundle_factors() if one.wires >= loaded)


def jacket(wire: Wire) -> Jacket:
    """Return the way heat takes out of a wire.

    The copper counts as solid: a strand is thicker, so the insulation is really a little thinner.
    """
    copper_mm = 2 * sqrt(wire.conductor.area_mm2 / pi)
    insulation = float(wall(copper_mm, wire.outside_mm, wire.k_m_per_w))
    return Jacket(wire.conductor.ohm_per_m, wire.outside_mm, insulation)


def ampacity(laid: Laid, *, limit_c: float | None = None) -> float:
    """Return the current [A] that a wire may carry for good where it lies.

    Parameters
    ----------
    laid : Laid
        The wire, the air around it and its share in the bundle.
    limit_c : float, optional
        The warmest its copper may get [degC]; that of its insulation if none is given.

    References
    ----------
    churchill-chu-1975, vde-0298-4-2023

    Examples
    --------
    >>> from trimwright.stock import wire
    >>> round(ampacity(Laid(wire("1 mm2"), 60.0)), 1)
    16.8
    """
    warmest = laid.wire.class_c if limit_c is None else limit_c
    alone = current_at(jacket(laid.wire), warmest, laid.ambient_c)
    return laid.share * float(alone)


def copper_c(laid: Laid, current_a: ArrayLike) -> NDArray[np.float64]:
    """Return what the copper of a wire settles at [degC] under lasting currents; infinite: it melts.

    In a bundle it gets as warm as it would alone under its current over its share.

    Examples
    --------
    >>> from trimwright.stock import wire
    >>> copper_c(Laid(wire("1 mm2"), 60.0), [0.0, 10.0, 16.82]).round(0)
    array([ 60.,  77., 105.])
    """
    alone = np.asarray(current_a, float) / laid.share
    return settled_c(jacket(laid.wire), alone, laid.ambient_c)


def heat_lost(laid: Laid, copper_c: ArrayLike) -> NDArray[np.float64]:
    """Return the heat [W/m] that leaves a laid wire whose copper has a temperature [degC]."""
    # I = share x I alone at the same temperature, so I^2 R = share^2 x the heat lost alone
    return np.asarray(laid.share**2 * copper_loss(jacket(laid.wire), copper_c, laid.ambient_c))


def derated(free_air_a: float, *factors: float) -> float:
    """Return a current [A] read for free air after its factors, each above 0 and at most 1.

    Raises
    ------
    ValueError
        If a factor is out of range.

    References
    ----------
    ac-43-13-1b-2001

    Examples
    --------
    >>> round(derated(47.0, 0.91, 0.6), 3)
    25.662
    """
    if not all(0 < one <= 1 for one in factors):
        raise ValueError(f"factors must be above 0 and at most 1, got {factors}")
    return float(free_air_a * np.prod(factors))
