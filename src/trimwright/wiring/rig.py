"""A wiring set up to be solved as the car stands, with nothing wrong or with one fault.

Every place that shows volts with a fault has them from here: the diagram, the meter sheet, what a
wrong reading speaks of, what sneaks past a lost ground, and the replay of a broken rule.
"""

from collections import Counter
from collections.abc import Callable, Collection, Sequence
from functools import lru_cache

import numpy as np
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright.build import Wiring
from trimwright.quantities import Unit
from trimwright.wiring.electric import is_over, limited, may_be_over
from trimwright.wiring.logic import Board, Fault, Network, Standing, State, at_rest, wakes
from trimwright.wiring.metered import Met, Stand, Urged, metered
from trimwright.wiring.mode import Mode
from trimwright.wiring.network import Circuit, Solved, States, conducting_part, solve
from trimwright.wiring.outcome import KEPT, connections, electrics

Whole = NDArray[np.intp]
Vary = Callable[[States, Whole], States]

PULLS_IN_V = 8.0  # at most, of a 12 V relay that is cold [ISO 7588-1, from memory]
DROPS_OUT_V = 1.0  # at least [ISO 7588-1, from memory]
TURNS = 2  # how often a coil may ask for something else before it chatters


def as_given(states: States, _: Whole) -> States:
    """Return states as they are."""
    return states


class Rig:
    """A wiring laid out for solving it in many states.

    Relays settle first by what contacts join, then by volts. A coil that contacts leave off and
    that gets 8 V all the same, through loads, pulls in; one that they feed and that gets less than
    1 V drops out. Contacts settle anew, the network is solved anew, until no coil asks for anything
    else. A coil that asks a third time, as its own contact takes its voltage away and gives it back,
    chatters. A coil with a diode across it pulls in with its 86 above its 85 only.
    """

    def __init__(self, wiring: Wiring, network: Network, circuit: Circuit) -> None:
        """Lay out the contacts, and find the coils in the circuit."""
        self.wiring, self.network, self.circuit = wiring, network, circuit
        self._boards: dict[Fault | None, Board] = {None: Board(network)}
        self._woken: dict[State, bool] = {}
        diodes = {one.name for one in wiring.relays if one.coil_guard == "diode"}
        self._relays = [(one.relay, one.a, one.b, one.relay in diodes) for one in network.coils]

    def board(self, fault: Fault | None) -> Board:
        """Return the contacts with a fault or none."""
        if fault not in self._boards:
            self._boards[fault] = self._boards[None].with_fault(fault)
        return self._boards[fault]

    def stand(self, mode: Mode, state: State, fault: Fault | None = None) -> Stand | None:
        """Return how the car stands with relays and units settled anew; None if they find no rest.

        A unit begins as it wakes where that leads to the state with nothing wrong, for a fault may
        keep it from ever coming there; else as it stands in the state.
        """
        if fault is not None and fault.kind == "bad crimp":  # joins all the same
            sound = self.stand(mode, state)
            return None if sound is None else replace(sound, fault=fault)
        if state not in self._woken:
            self._woken[state] = wakes(self.board(None), state)
        begins = None if self._woken[state] else state.units
        seen = at_rest(self.board(fault), state.facts, begins)
        return None if seen is None else stood(mode, seen, fault)

    def standing(self, one: Stand) -> Standing:
        """Return what follows from how the car stands."""
        return self.board(one.fault).standing(one.state)

    def met(
        self, stands: Sequence[Stand], probed: Collection[str] = ()
    ) -> tuple[Met, tuple[Stand, ...]]:
        """Return what is solved in some stands, and how the car then stands.

        Nothing is known of the voltages where a relay chatters. Of nodes to which no current can
        flow only the `probed` ones are known.
        """
        now = list(stands)
        parts: list[tuple[Whole, Solved]] = []
        left = [*range(len(stands))]
        while left:
            here = [now[number] for number in left]
            solved = self.solved(here, probed)
            asked = self._asked(here, solved)
            parts += solved.some(np.array([not more for more in asked], np.bool_), np.array(left))
            for number, one, more in zip(left, here, asked, strict=True):
                now[number] = self._moved(one, more)
            told = zip(left, asked, strict=True)
            left = [number for number, more in told if more and not now[number].chatters]
        return Met(len(stands), parts), tuple(now)

    def solved(
        self, stands: Sequence[Stand], probed: Collection[str] = (), vary: Vary = as_given
    ) -> Met:
        """Return what is solved with relays as they are told to stand.

        A state in which the alternator gives its most is solved anew with the battery open both
        ways, see `flows`.
        """

        def part(which: Whole, *, at_most: bool) -> tuple[Whole, Solved]:
            own = [stands[number] for number in which.tolist()]
            given = metered(self.circuit, own, self.network, self.wiring, at_most=at_most)
            return which, solve(*conducting_part(self.circuit, vary(given, which), probed))

        rows, first = part(np.arange(len(stands)), at_most=False)
        over = np.flatnonzero(may_be_over(first, [one.mode for one in stands]))
        if not len(over):
            return Met(len(stands), [(rows, first)])
        _, most = part(over, at_most=True)
        kept = is_over(first.rows_of(over), most)
        held = np.setdiff1d(rows, over[kept])
        return Met(len(stands), [(held, first.rows_of(held)), (over[kept], most.rows_of(kept))])

    def whole(self, stands: Sequence[Stand]) -> Solved:
        """Return the same with every element, also those in which nothing can flow."""

        def all_of(own: Sequence[Stand], *, at_most: bool) -> Solved:
            given = metered(self.circuit, own, self.network, self.wiring, at_most=at_most)
            return solve(self.circuit, given)

        def at_most(over: Whole) -> Solved:
            return all_of([stands[number] for number in over.tolist()], at_most=True)

        return limited(all_of(stands, at_most=False), [one.mode for one in stands], at_most)

    def _asked(self, stands: Sequence[Stand], solved: Met) -> list[tuple[Urged, ...]]:
        """Return of each stand the relays whose coil's voltage asks for something else."""
        found: list[list[Urged]] = [[] for _ in stands]
        for relay, plus, minus, diode in self._relays:
            volts = np.where(solved.void, np.nan, np.nan_to_num(solved.at(plus) - solved.at(minus)))
            drives = volts if diode else np.abs(volts)
            pulled = np.array([relay in one.state.pulled for one in stands], np.bool_)
            asks = (~pulled & (drives >= PULLS_IN_V)) | (pulled & (np.abs(volts) < DROPS_OUT_V))
            for row in np.flatnonzero(asks).tolist():
                if stands[row].fault != Fault("coil open", relay):
                    found[row].append(Urged(relay, float(volts[row]), not pulled[row]))
        return [tuple(one) for one in found]

    def _moved(self, one: Stand, more: tuple[Urged, ...]) -> Stand:
        """Return how the car stands once more relays have done as their coils ask."""
        if not more:
            return one
        urged = (*one.urged, *more)
        relay, turns = Counter(asked.relay for asked in urged).most_common(1)[0]
        known = {asked.relay: asked.pulls_in for asked in urged}
        begins = one.state
        seen = at_rest(self.board(one.fault), begins.facts, begins.units, begins.pulled, known)
        if seen is None or turns > TURNS:
            return replace(one, chatters=relay)
        return replace(stood(one.mode, seen, one.fault), urged=urged)


@lru_cache(maxsize=KEPT)
def rig_of(wiring: Wiring, unit: Unit) -> Rig | None:
    """Return a wiring set up to be solved; None where nothing of it is solved."""
    own = electrics(wiring, unit)
    return None if own is None else Rig(wiring, connections(wiring)[1], own.solved.circuit)


def stood(mode: Mode, seen: Standing, fault: Fault | None) -> Stand:
    """Return how the car stands in a state of rest."""
    return Stand(mode, seen.state, frozenset({*seen.closed, *seen.alive}), fault)
