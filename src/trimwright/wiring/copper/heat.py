"""How much heat a horizontal wire gives to still air, and what it settles at.

Joule's heat leaves through the insulation, then by free convection and radiation. Convection is
Churchill and Chu's for a horizontal cylinder, the properties of air those of the standard
atmosphere at sea level, at the mean of surface and air. No wind, no sun, nothing warm beside it.
"""

from collections.abc import Callable
from functools import lru_cache

import numpy as np
from msgspec import Struct
from numpy.typing import ArrayLike, NDArray

from trimwright.wiring.copper.resistance import MELTING_C, resistance_factor

Array = NDArray[np.float64]
_KELVIN = 273.15
_STEFAN_BOLTZMANN = 5.670374419e-8  # W/m2 K4, follows from the constants that define the SI
_EMISSIVITY = 0.9  # of matt plastic; from memory of radiation tables
_GRAVITY = 9.80665  # m/s2 [cgpm-1901]
_PRESSURE_PA, _GAS = 101325.0, 287.05287  # J/kg K [us-standard-atmosphere-1976]
_HEAT_CAPACITY = 1005.0  # of air, J/kg K
_STEPS = 4097  # of a wire on its way up to melting


class Jacket(Struct, frozen=True):
    """What heat passes on its way out of wires; each field one number or an array.

    Parameters
    ----------
    ohm_per_m : array_like
        Resistance of the copper at 20 degC [ohm/m].
    outside_mm : array_like
        Outside diameter [mm].
    wall_k_m_per_w : array_like
        Thermal resistance of the insulation of a metre of wire [K m/W].
    """

    ohm_per_m: ArrayLike
    outside_mm: ArrayLike
    wall_k_m_per_w: ArrayLike


def wall(copper_mm: ArrayLike, outside_mm: ArrayLike, k_m_per_w: ArrayLike) -> Array:
    """Return the thermal resistance [K m/W] of the insulation round wires.

    Examples
    --------
    >>> wall(1.0, 2.0, 5.0).round(4)
    np.float64(0.5516)
    """
    # T1 = rho_T ln(D/d) / 2 pi; rho_T thermal resistivity, D, d diameters [iec-60287-1994, 4.1.2.1]
    ratio = np.asarray(outside_mm, float) / np.asarray(copper_mm, float)
    return np.asarray(np.asarray(k_m_per_w, float) * np.log(ratio) / (2 * np.pi))


def surface_loss(outside_mm: ArrayLike, surface_c: ArrayLike, ambient_c: ArrayLike) -> Array:
    """Return the heat [W/m] that a metre of horizontal wire gives to still air.

    Parameters
    ----------
    outside_mm, surface_c, ambient_c : array_like
        Outside diameter [mm], temperature of the surface and of the air around [degC].

    References
    ----------
    churchill-chu-1975, us-standard-atmosphere-1976

    Examples
    --------
    >>> surface_loss(2.1, [50.0, 100.0], 20.0).round(2)
    array([ 4.49, 14.46])
    """
    metres = np.asarray(outside_mm, float) / 1000
    hot, cool = np.asarray(surface_c, float) + _KELVIN, np.asarray(ambient_c, float) + _KELVIN
    convected = _film_w_per_m2_k(metres, hot, cool) * (hot - cool)
    radiated = _EMISSIVITY * _STEFAN_BOLTZMANN * (hot**4 - cool**4)
    return np.asarray(np.pi * metres * (convected + radiated))


def _film_w_per_m2_k(metres: Array, hot: Array, cool: Array) -> Array:
    film = (hot + cool) / 2
    viscosity, conductivity, prandtl = air(film - _KELVIN)
    # Ra = g (hot - cool) D^3 Pr / (film nu^2)
    rise = np.maximum(hot - cool, 0.0)
    rayleigh = _GRAVITY * rise * metres**3 * prandtl / (film * viscosity**2)
    return nusselt(rayleigh, prandtl) * conductivity / metres


def nusselt(rayleigh: ArrayLike, prandtl: ArrayLike) -> Array:
    """Return the mean Nusselt number of free convection from a horizontal cylinder.

    References
    ----------
    churchill-chu-1975

    Examples
    --------
    >>> round(float(nusselt(1.867e6, 0.7241)), 2)
    17.39
    """
    spread = (1 + (0.559 / np.asarray(prandtl, float)) ** (9 / 16)) ** (8 / 27)
    return np.asarray((0.60 + 0.387 * np.asarray(rayleigh, float) ** (1 / 6) / spread) ** 2)


def air(air_c: ArrayLike) -> tuple[Array, Array, Array]:
    """Return kinematic viscosity [m2/s], conductivity [W/m K] and Prandtl number of dry air.

    References
    ----------
    us-standard-atmosphere-1976

    Examples
    --------
    >>> [float(f"{one:.4g}") for one in air(15.0)]
    [1.461e-05, 0.02533, 0.7101]
    """
    kelvin = np.asarray(air_c, float) + _KELVIN
    # mu = beta T^1.5 / (T + S), equation 51; k, equation 53
    viscosity = 1.458e-6 * kelvin**1.5 / (kelvin + 110.4)
    conductivity = 2.64638e-3 * kelvin**1.5 / (kelvin + 245.4 * 10 ** (-12 / kelvin))
    density = _PRESSURE_PA / (_GAS * kelvin)
    return viscosity / density, conductivity, viscosity * _HEAT_CAPACITY / conductivity


def current_at(jacket: Jacket, copper_c: ArrayLike, ambient_c: ArrayLike) -> Array:
    """Return the lasting current [A] that holds the copper at a temperature; 0 if none can.

    Examples
    --------
    >>> wire = Jacket(0.0195, 2.1, 0.4)
    >>> current_at(wire, [30.0, 70.0, 105.0], 30.0).round(1)
    array([ 0., 16., 22.])
    """
    celsius, surroundings = np.broadcast_arrays(
        np.asarray(copper_c, float), np.asarray(ambient_c, float)
    )
    watts = copper_loss(jacket, celsius, surroundings)
    ohm = np.asarray(jacket.ohm_per_m, float) * resistance_factor(celsius)
    return np.asarray(np.sqrt(watts / ohm))


def copper_loss(jacket: Jacket, copper_c: ArrayLike, ambient_c: ArrayLike) -> Array:
    """Return the heat [W/m] that leaves copper of a temperature; 0 if it is no warmer than the air."""
    return _read_off(
        jacket, copper_c, ambient_c, lambda way, of: np.interp(of, way.copper, way.watts)
    )


def settled_c(jacket: Jacket, current_a: ArrayLike, ambient_c: ArrayLike) -> Array:
    """Return the temperature [degC] that copper settles at under lasting currents.

    Infinite where it would melt first.

    Examples
    --------
    >>> settled_c(Jacket(0.0195, 2.1, 0.4), [0.0, 16.0, 500.0], 30.0).round(0)
    array([30., 70., inf])
    """

    def settled(way: "_WayUp", amperes: Array) -> Array:
        return np.interp(amperes, way.held, way.copper, right=np.inf)

    found = _read_off(jacket, current_a, ambient_c, settled)
    return np.where(found >= MELTING_C, np.inf, found)


class _WayUp(Struct, frozen=True, eq=False):
    """One wire in air of one temperature, on its way from there to melting.

    The temperature of its copper, the heat it loses, and the current that holds it there.
    """

    copper: Array
    watts: Array
    held: Array


@lru_cache(maxsize=512)
def _way_up(ohm_per_m: float, outside_mm: float, wall_k_m_per_w: float, ambient_c: float) -> _WayUp:
    """Return a wire's way up, in even steps of the root of its surface's rise.

    What is read off between two steps is true to a millionth.
    """
    surface = ambient_c + (MELTING_C - ambient_c) * np.linspace(0.0, 1.0, _STEPS) ** 2
    watts = np.maximum(surface_loss(outside_mm, surface, ambient_c), 0.0)
    copper = surface + watts * wall_k_m_per_w
    solid = np.minimum(copper, MELTING_C)
    return _WayUp(copper, watts, np.sqrt(watts / (ohm_per_m * resistance_factor(solid))))


def _read_off(
    jacket: Jacket,
    of: ArrayLike,
    ambient_c: ArrayLike,
    read: Callable[[_WayUp, Array], Array],
) -> Array:
    """Return what is read off the way up of each wire in its air, broadcast against each other."""
    fields = (jacket.ohm_per_m, jacket.outside_mm, jacket.wall_k_m_per_w, ambient_c, of)
    if all(np.ndim(one) == 0 for one in fields[:4]):  # one wire: nothing to tell apart
        return np.asarray(
            read(_way_up(*(float(np.asarray(one)) for one in fields[:4])), np.asarray(of, float))
        )
    told = np.broadcast_arrays(*(np.asarray(one, float) for one in fields))
    keys, asked = np.stack([one.ravel() for one in told[:4]], axis=1), told[4].ravel()
    each, which = np.unique(keys, axis=0, return_inverse=True)
    found = np.empty(asked.shape)
    for number, key in enumerate(each.tolist()):
        mine = which.ravel() == number
        found[mine] = read(_way_up(*key), asked[mine])
    return found.reshape(told[4].shape)
