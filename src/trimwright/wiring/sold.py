"""Written wire sizes as wires that are sold."""

from trimwright.quantities import Quantity, Unit
from trimwright.stock import Wire, wire, wires

MEANWHILE_MM2 = 2.5  # size taken until one is chosen: what flows hardly hangs on it


def sold(size: Quantity) -> Wire | None:
    """Return the wire as sold that a written size names; None where the table has none.

    Examples
    --------
    >>> from trimwright.quantities import wire_size
    >>> sold(wire_size("2,5 mm2")).name, sold(wire_size("16 awg")).name
    ('2.5 mm2', '16 AWG')
    """
    metric = "mm" in size.text.lower()
    name = f"{size.value:g} mm2" if metric else f"{size.text.split()[0]} AWG"
    try:
        return wire(name)
    except ValueError:
        return None


def meanwhile(unit: Unit) -> Wire:
    """Return the wire that stands in for one whose size is to be chosen."""
    return min(choice(unit), key=lambda one: abs(one.conductor.area_mm2 - MEANWHILE_MM2))


def choice(unit: Unit) -> tuple[Wire, ...]:
    """Return the wires to choose from where a build counts in mm or in inches."""
    return wires("awg" if unit == "in" else "metric")


def ohm_per_m(size: Quantity | None, unit: Unit) -> float:
    """Return the resistance of a wire at 20 degC [ohm/m].

    A size that no table here has is taken in proportion to its area.
    """
    if size is None:
        return meanwhile(unit).conductor.ohm_per_m
    found = sold(size)
    if found is not None:
        return found.conductor.ohm_per_m
    near = meanwhile("mm").conductor
    return near.ohm_per_m * near.area_mm2 / size.value
