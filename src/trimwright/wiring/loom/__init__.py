"""Loom: the wires of a build laid along its trunks.

In: the build's wiring. Out: every wire with its ends, its way and the length to cut.
"""

from trimwright.wiring.loom.free import free_mm, lead_of, swing_of
from trimwright.wiring.loom.route import Route, routes_from, spot, straight_mm, trunk_mm
from trimwright.wiring.loom.wire import End, Link, Loom, Wire, cut_mm, loom

__all__ = [
    "End",
    "Link",
    "Loom",
    "Route",
    "Wire",
    "cut_mm",
    "free_mm",
    "lead_of",
    "loom",
    "routes_from",
    "spot",
    "straight_mm",
    "swing_of",
    "trunk_mm",
]
