"""What copper resists, by its temperature and its gauge."""

from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

IACS_OHM_MM2_M = 1 / 58
"""Resistivity of copper of 100 % conductivity at 20 degC [ohm mm2/m], by definition."""
COEFFICIENT = 0.00393  # alpha at 20 degC, 1/K [ac-43-13-1b-2001, 11-66: 1/254.5]
COLDEST_C, MELTING_C = -60.0, 1083.0
_ZERO_C = {"copper": 234.5, "aluminium": 238.1}  # -T of no resistance [ac-43-13-1b-2001, 11-66]
_THICKEST, _THINNEST = -3, 40  # 4/0 is -3


def resistance_factor(copper_c: ArrayLike) -> NDArray[np.float64]:
    """Return by what a copper resistance at 20 degC is multiplied at other temperatures.

    Parameters
    ----------
    copper_c : array_like
        Temperatures of the copper [degC], from -60 to its melting at 1083.

    Raises
    ------
    ValueError
        If a temperature is out of range.

    Examples
    --------
    >>> resistance_factor([20.0, 85.0]).round(5)
    array([1.     , 1.25545])
    """
    celsius = np.asarray(copper_c, dtype=np.float64)
    if not np.all((celsius >= COLDEST_C) & (celsius <= MELTING_C)):
        raise ValueError(f"copper_c must be from -60 to 1083, got {copper_c!r}")
    return np.asarray(1 + COEFFICIENT * (celsius - 20))


def wire_resistance(
    ohm_per_m: ArrayLike, length_m: ArrayLike, *, copper_c: ArrayLike = 20.0
) -> NDArray[np.float64]:
    """Return the resistance [ohm] of lengths of wire.

    Parameters
    ----------
    ohm_per_m : array_like
        Resistance at 20 degC [ohm/m], above 0.
    length_m : array_like
        Lengths of the conductor [m], from 0 up; a way there and back counts twice.
    copper_c : array_like, default 20
        Temperatures of the copper [degC].

    Raises
    ------
    ValueError
        If a resistance is not above 0, or a length is below 0.

    Examples
    --------
    >>> wire_resistance(0.0195, [2.0, 4.0]).round(3)
    array([0.039, 0.078])
    """
    per_m, metres = np.asarray(ohm_per_m, float), np.asarray(length_m, float)
    if not np.all(per_m > 0):
        raise ValueError(f"ohm_per_m must be above 0, got {ohm_per_m!r}")
    if not np.all(metres >= 0):
        raise ValueError(f"length_m must be 0 or more, got {length_m!r}")
    return np.asarray(per_m * metres * resistance_factor(copper_c))


def length_factor(metal_c: float, metal: Literal["copper", "aluminium"] = "copper") -> float:
    """Return by what the longest run at 20 degC shrinks for the same drop in a hotter wire.

    References
    ----------
    ac-43-13-1b-2001

    Examples
    --------
    >>> round(length_factor(50.0), 6)
    0.894552
    """
    zero = _ZERO_C[metal]
    if metal_c <= -zero:
        raise ValueError(f"metal_c must be above {-zero:g}, got {metal_c:g}")
    return (zero + 20) / (zero + metal_c)


def awg_diameter_mm(gauge: int) -> float:
    """Return the diameter [mm] of a solid wire of an American gauge; 1/0 is 0, 4/0 is -3.

    Raises
    ------
    ValueError
        If the gauge is not from -3 to 40.

    Examples
    --------
    >>> round(awg_diameter_mm(18), 6)
    1.023687
    """
    if not _THICKEST <= gauge <= _THINNEST:
        raise ValueError(f"gauge must be from -3 (4/0) to 40, got {gauge}")
    # d = 0.127 mm x 92^((36 - n)/39), n the gauge: the definition of the American wire gauge
    return float(0.127 * 92 ** ((36 - gauge) / 39))


def awg_area_mm2(gauge: int) -> float:
    """Return the cross-section [mm2] of a solid wire of an American gauge.

    Examples
    --------
    >>> round(awg_area_mm2(18), 6)
    0.823047
    """
    return float(np.pi / 4 * awg_diameter_mm(gauge) ** 2)
