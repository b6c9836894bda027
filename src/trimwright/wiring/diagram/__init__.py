"""The wiring diagram in current-path form: set out in millimetres, not drawn.

In: a build's wiring and its loom, and how wide words print. Out: pages with every symbol, line,
label and path number in its place, for paper and screen.
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
from trimwright.wiring.diagram.part import Kind, Part, Port
from trimwright.wiring.diagram.sheets import diagram

__all__ = [
    "Bar",
    "Diagram",
    "DiagramPage",
    "Head",
    "Kind",
    "Part",
    "Point",
    "Port",
    "Stroke",
    "Symbol",
    "Type",
    "Words",
    "diagram",
]
