"""Parts: the console as flat panels of sheet, cut to follow the covered tunnel.

In: a console's plain figures (or a build) and the tunnel's surface. Out: panels with true outlines
on both faces, joints, bevels, holes and lower edges; mass and centre of gravity; what makes a
design unbuildable. Nothing here words a finding or draws.
"""

from trimwright.parts.carcass import Carcass, carcass
from trimwright.parts.cover import CoverStack, bare_opening, cover_stack
from trimwright.parts.design import buildable, console, covering_thickness
from trimwright.parts.frame import Frame
from trimwright.parts.lower_edge import LowerEdge
from trimwright.parts.panel import Hole, Panel, PanelEdge, Recess
from trimwright.parts.plan import BuiltHeight, BulkheadPlan, OpeningPlan, Plan
from trimwright.parts.profile import Profile
from trimwright.parts.scribe import Levels, Line, bite, edge_line
from trimwright.parts.side import Side
from trimwright.parts.skin import Cut, Skin, plane_cut
from trimwright.parts.unbuildable import Unbuildable
from trimwright.parts.waste import Waste, saw_line, waste

__all__ = [
    "BuiltHeight",
    "BulkheadPlan",
    "Carcass",
    "CoverStack",
    "Cut",
    "Frame",
    "Hole",
    "Levels",
    "Line",
    "LowerEdge",
    "OpeningPlan",
    "Panel",
    "PanelEdge",
    "Plan",
    "Profile",
    "Recess",
    "Side",
    "Skin",
    "Unbuildable",
    "Waste",
    "bare_opening",
    "bite",
    "buildable",
    "carcass",
    "console",
    "cover_stack",
    "covering_thickness",
    "edge_line",
    "plane_cut",
    "saw_line",
    "waste",
]
