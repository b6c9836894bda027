"""Stock: what shops sell and what tools can do, each row with its source.

In: CSV tables beside the code, figures as their sources print them. Out: frozen rows in mm, kg/m3,
ohm/m, s and degrees, by name. A row that nobody has printed says 'common practice, no source'.
"""

from trimwright.stock.blade import Kerf, Tilt, kerf, tilt
from trimwright.stock.board import Sheet, Size, Thickness, sheet, sizes, thickness
from trimwright.stock.fuse import Breaking, FuseClass, FusePoint, fuse_breaks, fuse_class
from trimwright.stock.gauge import Way, tool_error, way, ways
from trimwright.stock.grip import Friction, friction
from trimwright.stock.lay import (
    BundleFactor,
    Factor,
    LeastArea,
    bend,
    bend_moving,
    bundle_factors,
    colours,
    flex_strand,
    least_area,
    standby_figure,
)
from trimwright.stock.load import (
    ContactFactor,
    LoadKind,
    contact_factor,
    fault_chance,
    load_kind,
    load_kinds,
)
from trimwright.stock.table import TABLES, UNSOURCED, Source, rows, source
from trimwright.stock.thread import Bolt, NutFactor, bolt, nut_factor
from trimwright.stock.wire import Conductor, System, Wire, conductor, wire, wires

__all__ = [
    "TABLES",
    "UNSOURCED",
    "Bolt",
    "Breaking",
    "BundleFactor",
    "Conductor",
    "ContactFactor",
    "Factor",
    "Friction",
    "FuseClass",
    "FusePoint",
    "Kerf",
    "LeastArea",
    "LoadKind",
    "NutFactor",
    "Sheet",
    "Size",
    "Source",
    "System",
    "Thickness",
    "Tilt",
    "Way",
    "Wire",
    "bend",
    "bend_moving",
    "bolt",
    "bundle_factors",
    "colours",
    "conductor",
    "contact_factor",
    "fault_chance",
    "flex_strand",
    "friction",
    "fuse_breaks",
    "fuse_class",
    "kerf",
    "least_area",
    "load_kind",
    "load_kinds",
    "nut_factor",
    "rows",
    "sheet",
    "sizes",
    "source",
    "standby_figure",
    "thickness",
    "tilt",
    "tool_error",
    "way",
    "ways",
    "wire",
    "wires",
]
