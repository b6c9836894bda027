"""Bundles: circles in a circle, so that a loom's diameter is computed and can be drawn.

In: outside diameters of wires and the thickness of a wrap [mm]. Out: diameter, places of the
wires, what a hole has to spare and how tight a bend may be. Nothing here knows a build.
"""

from trimwright.wiring.bundle.round import (
    Bend,
    Bundle,
    Passage,
    bundle,
    passage,
    rule_of_thumb_mm,
    tightest_bend,
    tightest_moving,
)

__all__ = [
    "Bend",
    "Bundle",
    "Passage",
    "bundle",
    "passage",
    "rule_of_thumb_mm",
    "tightest_bend",
    "tightest_moving",
]
