"""How a lamp warms: what it takes from cold, until its filament is as hot as its voltage makes it."""

from collections.abc import Iterable, Iterator
from math import pi

from msgspec import Struct

from trimwright.wiring.network import LAMP_EXPONENT

STEFAN_BOLTZMANN = 5.670374e-8  # W/(m2 K4)
COLD_K, HOT_K = 293.0, 2856.0  # the latter of common tungsten lamps [CIE illuminant A, from memory]
# tungsten: resistivity 5.65e-8 ohm m at 300 K, rising as T^1.2, and what share of a black body's
# heat it radiates when hot [jones-langmuir-1927]
RISES = 1.2
RESISTIVITY_300K, EMISSIVITY = 5.65e-8, 0.337
DENSITY_KG_M3, HEAT_J_KG_K = 19_300.0, 160.0  # the latter a mean from cold to hot, from memory
COLD_SHARE = (COLD_K / HOT_K) ** RISES  # of its hot resistance while it is cold
STEP_S, LONGEST_S = 2e-4, 1.0
SETTLED_PER_S = 0.05  # of its temperature, that it still rises by: as good as hot


class Filament(Struct, frozen=True):
    """A straight tungsten wire that takes a power at a voltage, hot.

    By the lamp's law, current as a power of voltage, and by how tungsten resists and radiates, its
    thickness and length follow from power and voltage; so does how much heat it holds. One that is
    coiled shades itself and is thicker, so it warms more slowly.

    Parameters
    ----------
    volts, watts : float
        What it takes at its design voltage.
    """

    volts: float
    watts: float

    @property
    def heat_j_k(self) -> float:
        """What warms it by a degree [J/K]."""
        ohm = self.volts**2 / self.watts
        resists = RESISTIVITY_300K * (HOT_K / 300.0) ** RISES
        radiates = EMISSIVITY * STEFAN_BOLTZMANN * HOT_K**4
        # W = radiates pi d l and R = resists l / (pi d^2 / 4)
        thick = (4 * resists * self.watts / (pi**2 * radiates * ohm)) ** (1 / 3)
        long = ohm * pi * thick**2 / (4 * resists)
        return float(DENSITY_KG_M3 * pi / 4 * thick**2 * long * HEAT_J_KG_K)

    def ohm(self, kelvin: float) -> float:
        """Return its resistance at a temperature [ohm]."""
        return float(self.volts**2 / self.watts * (kelvin / HOT_K) ** RISES)

    def gives_off(self, kelvin: float) -> float:
        """Return the heat that leaves it at a temperature [W]: by the lamp's law what it takes."""
        power = RISES * (1 + LAMP_EXPONENT) / (1 - LAMP_EXPONENT)
        return float(self.watts * (kelvin / HOT_K) ** power)

    def warming(self, source_v: float, way_ohm: float) -> Iterator[tuple[float, float]]:
        """Yield its temperature [K] and its current [A] in steps of `STEP_S`, until it is hot.

        Parameters
        ----------
        source_v, way_ohm : float
            The voltage that drives it [V], and all that resists on its way [ohm].
        """
        kelvin, held = COLD_K, self.heat_j_k
        for _ in range(round(LONGEST_S / STEP_S)):
            ohm = self.ohm(kelvin)
            amps = source_v / (way_ohm + ohm)
            yield kelvin, amps
            rise = (amps**2 * ohm - self.gives_off(kelvin)) / held * STEP_S
            if rise <= SETTLED_PER_S * STEP_S * kelvin:
                return
            kelvin += rise


def melting_a2s(currents_a: Iterable[float], above_a: float) -> float:
    """Return the heat that currents bring to a fuse while they are above its rating [A2 s].

    Parameters
    ----------
    currents_a : iterable of float
        In steps of `STEP_S` [A].
    above_a : float
        Its rating [A].

    Examples
    --------
    >>> round(melting_a2s((20.0, 20.0, 5.0), 10.0), 3)
    0.16
    """
    return sum(one**2 for one in currents_a if one > above_a) * STEP_S
