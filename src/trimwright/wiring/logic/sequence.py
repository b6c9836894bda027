"""The shortest way from rest to a state that breaks a rule, step by step."""

from functools import cached_property
from typing import Literal

from msgspec import Struct

from trimwright.wiring.logic.bearing import cone, influence_of
from trimwright.wiring.logic.condition import Condition
from trimwright.wiring.logic.fault import Fault
from trimwright.wiring.logic.influence import Influence
from trimwright.wiring.logic.journey import FactChange, Journey, lawful
from trimwright.wiring.logic.movement import RelayMove, UnitMove
from trimwright.wiring.logic.network import Network, Rule, State, refuse_unknown, resting
from trimwright.wiring.logic.path import Path, paths
from trimwright.wiring.logic.standing import Board, Standing
from trimwright.wiring.logic.verdict import broken

MOST_STATES = 20_000
Step = FactChange | RelayMove | UnitMove
Came = dict[State, tuple[State | None, tuple[Step, ...]]]


class Offence(Struct, frozen=True):
    """What the ways from rest lead to, of those that bear on a rule.

    'broken': `steps` lead to `state`, in which the rule is broken. 'kept': no way leads to such a
    state. 'unfinished': more states than were asked for; those looked at keep the rule. `restless`
    is a state on a way in which relays or units find no rest; the rule is not judged there.
    What does not bear on the rule is left at rest in `state`.
    """

    rule: Rule
    answer: Literal["broken", "kept", "unfinished"]
    steps: tuple[Step, ...] = ()
    state: State | None = None
    paths: tuple[Path, ...] = ()
    restless: State | None = None


class Reached(Struct, frozen=True):
    """A state that steps from rest lead to; None where no way does, or where not all were asked.

    `unfinished` says that there were more states than were asked for; `restless` is a state on a
    way in which relays or units find no rest.
    """

    state: State | None
    steps: tuple[Step, ...]
    restless: State | None
    unfinished: bool = False


def offending_sequence(
    network: Network, rule: Rule, fault: Fault | None = None, most_states: int = MOST_STATES
) -> Offence:
    """Return the fewest steps from rest after which a rule is broken.

    A step is a fact that changes or a unit that goes on after a wait; relays, and moves of units
    that do not wait, follow it at once, in every order. They are told between the steps.

    Parameters
    ----------
    network, rule : Network, Rule
        What is looked at, from `resting(network)` on.
    fault : Fault, optional
        A single fault that is there from the start.
    most_states : int
        How many states of rest are looked at.

    Raises
    ------
    ValueError
        If the rule names what the network does not have, or facts at rest break a constraint.
    """
    refuse_unknown(network, rule)
    walker = Walker(network, fault)
    way = walker.soonest(broken(rule), most_states)
    told: Literal["broken", "kept", "unfinished"] = "unfinished" if way.unfinished else "kept"
    if way.state is None:
        return Offence(rule, told, restless=way.restless)
    shown = paths(walker.board, walker.board.standing(way.state), rule.subject)
    return Offence(rule, "broken", way.steps, way.state, shown, way.restless)


class Walker:
    """The ways from rest through a network, walked as far as was asked and kept for what is asked next.

    Parameters
    ----------
    network : Network
        What is looked at, from `resting(network)` on.
    fault : Fault, optional
        A single fault that is there from the start.
    """

    def __init__(self, network: Network, fault: Fault | None = None) -> None:
        """Lay nothing out yet: many a network is never asked about."""
        self._network, self._fault = network, fault
        self._walks: dict[tuple[tuple[str, ...], ...], _Walk] = {}

    @cached_property
    def board(self) -> Board:
        """The network with its fault."""
        return Board(self._network, self._fault)

    @cached_property
    def _influence(self) -> Influence:
        """What moves what."""
        fault = self._fault
        lost = [fault.of] if fault and fault.kind == "ground lost" else []
        return influence_of(self._network, frozenset(lost))

    @cached_property
    def _start(self) -> State:
        """All at rest."""
        start = resting(self._network)
        if not lawful(self._network, dict(start.facts)):
            raise ValueError(f"facts at rest must keep every constraint, got {start.facts}")
        return start

    def soonest(self, wanted: Condition, most_states: int = MOST_STATES) -> Reached:
        """Return the state in which something holds that the fewest steps from rest lead to.

        Parameters
        ----------
        wanted : Condition
            What is to hold; what does not bear on it stays at rest.
        most_states : int
            How many states of rest are looked at.

        Raises
        ------
        ValueError
            If facts at rest break a constraint.
        """
        bears = cone(self._influence, wanted)
        moves = (bears.facts, bears.relays, bears.units)
        if moves not in self._walks:
            self._walks[moves] = _Walk(Journey(self.board, bears), self._start)
        return self._walks[moves].to(wanted, most_states)


class _Walk:
    """The states of rest that steps lead to, the nearest first, and how each is come to."""

    def __init__(self, journey: Journey, start: State) -> None:
        self._journey = journey
        self._came: Came = {}
        self._asked: set[State] = set()
        self._restless: State | None = None
        self._found: list[Standing] = []
        self._left = 0  # so many have been gone on from
        self._settle(None, None, start)

    def to(self, wanted: Condition, most_states: int) -> Reached:
        """Return the first state in which something holds."""
        board = self._journey.board
        for number, seen in enumerate(self._found):  # grows on the way
            if board.holds(wanted, seen):
                return Reached(seen.state, _trail(self._came, seen.state), self._restless)
            if number == self._left:
                if len(self._came) > most_states:
                    return Reached(None, (), self._restless, unfinished=True)
                self._go_on(seen)
        return Reached(None, (), self._restless)

    def _go_on(self, seen: Standing) -> None:
        """Take every step that may be taken from a state."""
        self._left += 1
        for step, after in self._journey.steps(seen):
            self._settle(seen.state, step, after)

    def _settle(self, before: State | None, step: Step | None, after: State) -> None:
        """Keep where a state comes to rest, if that was not asked before."""
        if after in self._asked:
            return
        self._asked.add(after)
        found = self._journey.settling(after)
        self._restless = self._restless or found.restless
        for rest, trail in found.rests:
            if rest not in self._came:
                self._came[rest] = (before, trail if step is None else (step, *trail))
                self._found.append(self._journey.board.standing(rest))


def _trail(came: Came, state: State) -> tuple[Step, ...]:
    trail: tuple[Step, ...] = ()
    before: State | None = state
    while before:
        before, steps = came[before]
        trail = (*steps, *trail)
    return trail
