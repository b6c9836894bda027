"""The wiring diagram in current-path form: set out in millimetres, not drawn.

In: a build's wiring and its loom, and how wide words print. Out: pages with every symbol, line,
label and path number in its place, for paper and screen; and what is live in a state.
"""

from trimwright.wiring.diagram.drawn import (
    Bar,
    Diagram,
    DiagramPage,
    Head,
    Point,
    Stroke,
    Symbol,
    Type,
    Words,
)
from trimwright.wiring.diagram.live import Live, live
from trimwright.wiring.diagram.part import Kind, Part, Port
from trimwright.wiring.diagram.sheets import diagram

__all__ = [
    "Bar",
    "Diagram",
    "DiagramPage",
    "Head",
    "Kind",
    "Live",
    "Part",
    "Point",
    "Port",
    "Stroke",
    "Symbol",
    "Type",
    "Words",
    "diagram",
    "live",
]
