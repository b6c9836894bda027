"""Contact logic: what is joined to a feed and to ground in each state of a vehicle's circuits.

In: a network of joins, contacts, feeds, grounds, coils, loads and units over facts of the car, and
the rules it is to keep. Out: rules proven over every state or broken by the plainest one, single
faults that break them, what loops of relays do, the steps that lead from rest to an offence, and
the facts that no wire carries. Nothing here knows a build, volts or metres.
"""

from trimwright.wiring.logic.bearing import Cone, cone, influence_of, loops
from trimwright.wiring.logic.carried import known_facts, uninformed
from trimwright.wiring.logic.condition import (
    ALWAYS,
    NEVER,
    And,
    Closed,
    Condition,
    Fed,
    Grounded,
    Is,
    Live,
    Not,
    Or,
    Pulled,
    Shorted,
    atoms,
)
from trimwright.wiring.logic.fault import Fault, single_faults
from trimwright.wiring.logic.journey import FactChange, lawful
from trimwright.wiring.logic.loop import LoopFinding, Settler, loop_findings
from trimwright.wiring.logic.movement import RelayMove, UnitMove
from trimwright.wiring.logic.network import (
    Coil,
    Contact,
    Fact,
    Feed,
    Join,
    Load,
    Move,
    Network,
    Output,
    Rule,
    State,
    Unit,
    edges,
    nodes,
    resting,
    switched,
)
from trimwright.wiring.logic.path import Path, paths
from trimwright.wiring.logic.proof import Example, Prover
from trimwright.wiring.logic.rest import at_rest, wakes
from trimwright.wiring.logic.sequence import Offence, Reached, Step, Walker, offending_sequence
from trimwright.wiring.logic.standing import Board, Standing
from trimwright.wiring.logic.verdict import (
    Contradiction,
    FaultBreak,
    Short,
    Verdict,
    broken,
    contradictions,
    fault_breaks,
    shorts,
    verdicts,
)

__all__ = [
    "ALWAYS",
    "NEVER",
    "And",
    "Board",
    "Closed",
    "Coil",
    "Condition",
    "Cone",
    "Contact",
    "Contradiction",
    "Example",
    "Fact",
    "FactChange",
    "Fault",
    "FaultBreak",
    "Fed",
    "Feed",
    "Grounded",
    "Is",
    "Join",
    "Live",
    "Load",
    "LoopFinding",
    "Move",
    "Network",
    "Not",
    "Offence",
    "Or",
    "Output",
    "Path",
    "Prover",
    "Pulled",
    "Reached",
    "RelayMove",
    "Rule",
    "Settler",
    "Short",
    "Shorted",
    "Standing",
    "State",
    "Step",
    "Unit",
    "UnitMove",
    "Verdict",
    "Walker",
    "at_rest",
    "atoms",
    "broken",
    "cone",
    "contradictions",
    "edges",
    "fault_breaks",
    "influence_of",
    "known_facts",
    "lawful",
    "loop_findings",
    "loops",
    "nodes",
    "offending_sequence",
    "paths",
    "resting",
    "shorts",
    "single_faults",
    "switched",
    "uninformed",
    "verdicts",
    "wakes",
]
