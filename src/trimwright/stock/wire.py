"""Wire: the copper in it, and what is around it."""

from math import exp, log, pi
from typing import Literal

from msgspec import Struct

from trimwright.stock.table import Row, row, rows

System = Literal["awg", "metric"]
_FOOT_M, _INCH_MM = 0.3048, 25.4  # [yard-pound-1959]
_CIRCULAR_MIL_MM2 = pi / 4 * 0.0254**2  # a circle of 1/1000 in
_AREA_MM2 = {"mm2": 1.0, "cmil": _CIRCULAR_MIL_MM2}
_PER_METRE = {"ohm/km": 1e-3, "ohm/1000 ft": 1e-3 / _FOOT_M}


class Conductor(Struct, frozen=True):
    """Stranded copper: its nominal area [mm2] and what it resists at 20 degC [ohm/m].

    The resistance decides; the area of a metric size is a name, not a measure. `confirmed` is
    False where only one place prints the figures and names no standard.
    """

    name: str
    area_mm2: float
    ohm_per_m: float
    confirmed: bool
    source: str


class Wire(Struct, frozen=True):
    """A wire as sold: a conductor, its outside diameter [mm] and its insulation.

    `class_c` is the temperature [degC] the insulation bears for good, `excursion_c` what it bears for
    a while (no higher where none is printed), `k_m_per_w` its thermal resistivity [K m/W]. `sources` name the conductor's row, the wire's and the insulation's.
    """

    name: str
    system: System
    conductor: Conductor
    strand: str
    outside_mm: float
    insulation: str
    class_c: float
    excursion_c: float
    k_m_per_w: float
    sources: tuple[str, str, str]

    @property
    def strand_mm(self) -> float:
        """Diameter of one strand [mm], read off the strand as printed: in mm, in inches or gauge.

        References
        ----------
        ASTM B258: the diameter of an AWG number n is 0.127 mm times 92 to the power (36 - n) / 39

        Examples
        --------
        >>> wire("2.5 mm2").strand_mm, round(wire("16 AWG").strand_mm, 3)
        (0.3, 0.286)
        >>> round(wire("8 AWG").strand_mm, 3)
        0.724
        """
        printed = self.strand.split("/")[1]
        if self.system == "metric":
            return float(printed)
        if "." in printed:
            return float(printed) * _INCH_MM
        return 0.127 * exp((36 - float(printed)) / 39 * log(92))

    @property
    def confirmed(self) -> bool:
        """Whether every figure of the wire is."""
        return self.conductor.confirmed


def conductor(name: str) -> Conductor:
    """Return a conductor by its size: '16 AWG', '1.5 mm2'.

    Raises
    ------
    ValueError
        If it is not in the table; the nearest names are offered.

    References
    ----------
    ac-43-13-1b-2001, iec-60228-2004

    Examples
    --------
    >>> round(conductor("16 AWG").ohm_per_m * 1e3, 4)
    15.7808
    """
    found = row("conductor", name)
    return Conductor(
        found["name"],
        float(found["area"]) * _AREA_MM2[found["area_unit"]],
        float(found["resistance"]) * _PER_METRE[found["resistance_unit"]],
        found["confirmed"] == "yes",
        found["source"],
    )


def wire(name: str) -> Wire:
    """Return an insulated wire by its size: '18 AWG', '2.5 mm2'.

    Raises
    ------
    ValueError
        If it is not in the table; the nearest names are offered.

    Examples
    --------
    >>> wire("2.5 mm2").outside_mm, wire("18 AWG").class_c
    (3.0, 125.0)
    """
    return _wire(row("wire", name))


def wires(system: System) -> tuple[Wire, ...]:
    """Return the insulated wires of a system of sizes, thinnest first.

    Examples
    --------
    >>> [one.name for one in wires("awg")][:2]
    ['20 AWG', '18 AWG']
    """
    found = [_wire(one) for one in rows("wire") if one["system"] == system]
    return tuple(sorted(found, key=lambda one: one.conductor.area_mm2))


def _wire(printed: Row) -> Wire:
    """Return a row of the table with its conductor and its insulation."""
    copper, cover = conductor(printed["conductor"]), row("insulation", printed["insulation"])
    return Wire(
        printed["name"],
        "metric" if printed["system"] == "metric" else "awg",
        copper,
        printed["strand"],
        float(printed["outside_mm"]),
        printed["insulation"],
        float(printed["class_c"]),
        float(printed["excursion_c"]),
        float(cover["k_m_w"]),
        (copper.source, printed["source"], cover["source"]),
    )
