"""Quantities: figures as people write them and as they are shown, each with its doubt.

In: text from the build file and the bench. Out: `Quantity` (mm, kg, N, deg, kPa, N m, kg/m3, A, V, W, ohm, Ah, s, C, mm2) with
the `Doubt` that was written, or a `QuantityError` that says what was found, what was expected and
what it could mean; and the way back, `shown`, never finer than the figure is known.
"""

from trimwright.quantities.amount import (
    angle,
    count,
    density,
    force,
    hours,
    length,
    mass,
    pressure,
    price,
    share,
    torque,
)
from trimwright.quantities.doubt import Doubt
from trimwright.quantities.electric import (
    charge,
    current,
    duration,
    meter_voltage,
    power,
    resistance,
    voltage,
    warmth,
    wire_size,
)
from trimwright.quantities.fault import QuantityError
from trimwright.quantities.figure import (
    shown,
    shown_angle,
    shown_chance,
    shown_hours,
    shown_mass,
    shown_step,
    shown_sure,
    shown_with_unit,
)
from trimwright.quantities.normal import (
    normal_both_below,
    normal_cdf,
    normal_density,
    normal_quantile,
)
from trimwright.quantities.place import across, along, length_saying, slope, upward
from trimwright.quantities.quantity import Quantity, Unit
from trimwright.quantities.shown_electric import shown_current, shown_seconds, shown_voltage
from trimwright.quantities.whereabouts import Axis, shown_place, shown_slope

__all__ = [
    "Axis",
    "Doubt",
    "Quantity",
    "QuantityError",
    "Unit",
    "across",
    "along",
    "angle",
    "charge",
    "count",
    "current",
    "density",
    "duration",
    "force",
    "hours",
    "length",
    "length_saying",
    "mass",
    "meter_voltage",
    "normal_both_below",
    "normal_cdf",
    "normal_density",
    "normal_quantile",
    "power",
    "pressure",
    "price",
    "resistance",
    "share",
    "shown",
    "shown_angle",
    "shown_chance",
    "shown_current",
    "shown_hours",
    "shown_mass",
    "shown_place",
    "shown_seconds",
    "shown_slope",
    "shown_step",
    "shown_sure",
    "shown_voltage",
    "shown_with_unit",
    "slope",
    "torque",
    "upward",
    "voltage",
    "warmth",
    "wire_size",
]
