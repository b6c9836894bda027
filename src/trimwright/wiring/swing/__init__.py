"""A loom over a hinge: how far apart its holes are as the door swings, and how the loom bends.

In: the holes' places about the hinge axis [mm], how far it opens [deg], the length between the holes
[mm]. Out: distances, shapes, least radii, the length that is needed. Nothing here knows a build.
"""

from trimwright.wiring.swing.elastica import NoShapeError
from trimwright.wiring.swing.hinge import Swing
from trimwright.wiring.swing.over import Lead, Lying, bears, lyings, needed_mm, tightest

__all__ = [
    "Lead",
    "Lying",
    "NoShapeError",
    "Swing",
    "bears",
    "lyings",
    "needed_mm",
    "tightest",
]
