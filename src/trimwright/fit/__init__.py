"""Fit: where the console comes to rest and how far it then is from everything it could touch.

In: a build's readings with their doubts, the car's surfaces from `car`, the carcass from `parts`.
Out: the resting pose and every gap, row by row of scores, as a `GapModel`; what could not be
evaluated is listed with the readings it needs; how sure each gap is and all together, the least
cut before covering, what to measure again, what a test fit teaches. Nothing here words a finding
or draws.
"""

from trimwright.fit.again import Again, measure_next
from trimwright.fit.cut import Cut, cut_edits, cuts
from trimwright.fit.free_place import NotThere
from trimwright.fit.gap import Gap, GapTable, Unknown
from trimwright.fit.model import GapModel, gap_model
from trimwright.fit.plan import Plan, effects, least_cut
from trimwright.fit.pose_facts import PoseFacts
from trimwright.fit.probing import Taught, probed, uncovered
from trimwright.fit.single import Fate, Single, singles
from trimwright.fit.verdict import GapOutcome, Outcome, outcome
from trimwright.fit.worth_probing import WorthProbing, worth_probing

__all__ = [
    "Again",
    "Cut",
    "Fate",
    "Gap",
    "GapModel",
    "GapOutcome",
    "GapTable",
    "NotThere",
    "Outcome",
    "Plan",
    "PoseFacts",
    "Single",
    "Taught",
    "Unknown",
    "WorthProbing",
    "cut_edits",
    "cuts",
    "effects",
    "gap_model",
    "least_cut",
    "measure_next",
    "outcome",
    "probed",
    "singles",
    "uncovered",
    "worth_probing",
]
