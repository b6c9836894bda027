"""Stock: what shops sell and what tools can do, each row with its source.

In: CSV tables beside the code, figures as their sources print them. Out: frozen rows in mm, kg/m3
and degrees, by name. A row that nobody has printed says 'common practice, no source'.
"""

from trimwright.stock.blade import Kerf, Tilt, kerf, tilt
from trimwright.stock.board import Sheet, Size, Thickness, sheet, sizes, thickness
from trimwright.stock.gauge import Way, tool_error, way, ways
from trimwright.stock.grip import Friction, friction
from trimwright.stock.table import TABLES, UNSOURCED, Source, rows, source
from trimwright.stock.thread import Bolt, NutFactor, bolt, nut_factor

__all__ = [
    "TABLES",
    "UNSOURCED",
    "Bolt",
    "Friction",
    "Kerf",
    "NutFactor",
    "Sheet",
    "Size",
    "Source",
    "Thickness",
    "Tilt",
    "Way",
    "bolt",
    "friction",
    "kerf",
    "nut_factor",
    "rows",
    "sheet",
    "sizes",
    "source",
    "thickness",
    "tilt",
    "tool_error",
    "way",
    "ways",
]
