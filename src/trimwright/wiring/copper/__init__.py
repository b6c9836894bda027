"""Copper and wire: resistance, what a wire may carry, what a short does to it, what a fuse does.

In: rows of wires and fuses from `stock`, currents, lengths, temperatures. Out: ohm, V, A, s and
degrees C, and the thinnest wire that will do. Nothing here knows a build.
"""

from trimwright.wiring.copper.ampacity import (
    Laid,
    ampacity,
    bundle_factor,
    copper_c,
    derated,
)
from trimwright.wiring.copper.contact import contact_rating
from trimwright.wiring.copper.heat import air, nusselt, surface_loss
from trimwright.wiring.copper.opening import (
    Fuse,
    Protection,
    held_a,
    melts_a2s,
    opening_band,
    protection,
    sure_a,
)
from trimwright.wiring.copper.resistance import (
    COEFFICIENT,
    IACS_OHM_MM2_M,
    awg_area_mm2,
    awg_diameter_mm,
    length_factor,
    resistance_factor,
    wire_resistance,
)
from trimwright.wiring.copper.short import (
    celsius_after,
    seconds_to,
)
from trimwright.wiring.copper.size import Ask, Choice, Margin, thinnest, thinnest_of_each

__all__ = [
    "COEFFICIENT",
    "IACS_OHM_MM2_M",
    "Ask",
    "Choice",
    "Fuse",
    "Laid",
    "Margin",
    "Protection",
    "air",
    "ampacity",
    "awg_area_mm2",
    "awg_diameter_mm",
    "bundle_factor",
    "celsius_after",
    "contact_rating",
    "copper_c",
    "derated",
    "held_a",
    "length_factor",
    "melts_a2s",
    "nusselt",
    "opening_band",
    "protection",
    "resistance_factor",
    "seconds_to",
    "sure_a",
    "surface_loss",
    "thinnest",
    "thinnest_of_each",
    "wire_resistance",
]
