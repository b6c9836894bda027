"""Templates: every panel 1:1, to paste on the sheet and saw along."""

from trimwright.cabin import Cabin
from trimwright.drawing import Size
from trimwright.findings import Finding
from trimwright.papers import one_to_one
from trimwright.papers.leaf import Leaf
from trimwright.papers.panel_drawing import panel_piece
from trimwright.papers.shared_page import Paper

SAYS = (
    "Cut along the joint, lay over, match the crosses, tape. Pages without lines are left out."
    " No bevel arrow on an edge: square."
)


def leaves(cabin: Cabin, findings: tuple[Finding, ...], size: Size) -> tuple[Leaf, ...]:
    """Return every panel 1:1 over as many pages as it takes, none without a console."""
    del findings  # the cuts that findings ask for are drawn from the plan itself
    carcass = cabin.carcass
    if carcass is None:
        return ()
    pieces = tuple(panel_piece(cabin, panel) for panel in carcass.panels)
    return one_to_one.leaves(pieces, Paper("template", size, cabin.build, SAYS))
