"""Which loads together leave a load the least voltage."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from trimwright.wiring.network.circuit import Circuit
from trimwright.wiring.network.solution import solve
from trimwright.wiring.network.states import States

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

ENUMERATED = 16  # loads of which every combination is tried
BLOCK = 4096  # combinations that are solved together
COLLAPSES, DROPS_OUT = -np.inf, -1e9  # below any voltage
DIGITS = 9  # of a volt: what differs by less is equal
RESTARTS = 4


@dataclass(frozen=True, slots=True)
class Worst:
    """The combination of loads that leaves an element the least voltage.

    Attributes
    ----------
    on : tuple of str
        The loads that are on in it, of those that may be off.
    outcome : str
        What becomes of the element.
    volts : float
        The voltage across it [V]; NaN where the voltage of the network collapses, and what it
        stands at while it is off where it drops out.
    proven : bool
        Whether every combination was solved. If not, it is the worst that a search came upon, and
        a worse one may exist.
    tried : int
        How many combinations were solved.
    unsolved : int
        How many of them could not be.
    """

    on: tuple[str, ...]
    outcome: Literal["stays on", "drops out", "collapses", "has no feed"]
    volts: float
    proven: bool
    tried: int
    unsolved: int


def worst_combination(
    circuit: Circuit, state: States, switched: Sequence[str], element: str
) -> Worst:
    """Return which loads leave an element the least voltage, each of them on or off.

    Parameters
    ----------
    circuit : Circuit
        What stands between which nodes.
    state : States
        One row, with all the loads on.
    switched : sequence of str
        The elements that may be on or off; `element` itself stays as it is.
    element : str
        Whose voltage is asked, from its plus to its minus end.

    Returns
    -------
    Worst
        Below any voltage counts that the element drops out, below that a collapse. Of equals it
        has the fewest loads on.

    Raises
    ------
    ValueError
        If `state` has not one row, or the circuit has no element of a name.

    Notes
    -----
    It is not so that everything on is always worst. Where all loads share one feed and one ground,
    each one's current takes from all others. With several sources or grounds, the current of a
    load elsewhere can lift the feed end of an element less than it lifts, or raise its ground end
    less than it lowers it, and so give it more; and loads that drop out free current for the rest.
    So up to 16 loads, all combinations are solved, and the answer is proven as far as all of them
    could be. Above, a search is made: from everything on, everything off, each load by whether it
    alone takes from the element, and some random combinations, the best change of one load or of
    two is made until none helps. Nothing bounds what that misses.
    """
    if state.rows != 1:
        raise ValueError(f"state must have one row, got {state.rows}")
    names = tuple(name for name in dict.fromkeys(switched) if name != element)
    trial = _Trial(circuit, state, names, element)
    if len(names) <= ENUMERATED:
        found = _best(trial.told(block) for block in _all(len(names)))
        return trial.worst(found, proven=found.unsolved == 0)
    return trial.worst(_searched(trial), proven=False)


@dataclass(frozen=True, slots=True, eq=False)
class _Found:
    """A combination with its score, how many were tried and how many could not be solved."""

    on: Bools
    score: float
    volts: float
    tried: int
    unsolved: int


@dataclass(frozen=True, slots=True, eq=False)
class _Trial:
    """What is asked, of many combinations at once."""

    circuit: Circuit
    state: States
    names: tuple[str, ...]
    element: str

    def told(self, on: Bools) -> _Found:
        """Return the worst of some combinations, shape (rows, loads)."""
        columns = [self.circuit.element(name) for name in self.names]
        off = np.zeros((len(on), len(self.circuit.elements)), np.bool_)
        off[:, columns] = ~on
        solved = solve(self.circuit, self.state.repeated(len(on)).opened(off))
        at = self.circuit.element(self.element)
        volts = solved.across[:, at]
        scores = np.where(np.isnan(volts), np.inf, volts.round(DIGITS))
        scores[solved.dropped[:, at]] = DROPS_OUT
        scores[solved.collapsed.any(axis=1)] = COLLAPSES
        first = np.lexsort((on.sum(axis=1), scores))[0]
        unsolved = int(solved.failed.sum())
        return _Found(on[first], float(scores[first]), float(volts[first]), len(on), unsolved)

    def worst(self, found: _Found, *, proven: bool) -> Worst:
        """Return what was found, with its names."""
        on = tuple(name for name, used in zip(self.names, found.on, strict=True) if used)
        outcome: Literal["stays on", "drops out", "collapses", "has no feed"] = "stays on"
        if found.score == COLLAPSES:
            outcome = "collapses"
        elif found.score == DROPS_OUT:
            outcome = "drops out"
        elif np.isinf(found.score):
            outcome = "has no feed"
        return Worst(on, outcome, found.volts, proven, found.tried, found.unsolved)


def _all(loads: int) -> Iterator[Bools]:
    """Yield all combinations in blocks, shape (rows, loads)."""
    for start in range(0, 2**loads, BLOCK):
        codes = np.arange(start, min(start + BLOCK, 2**loads))
        yield (codes[:, None] >> np.arange(loads)) % 2 == 1


def _best(parts: Iterator[_Found]) -> _Found:
    """Return the worst of what was found in parts, of equals the fewest loads."""
    found = list(parts)
    lowest = min(found, key=lambda one: (one.score, one.on.sum()))
    counts = (sum(one.tried for one in found), sum(one.unsolved for one in found))
    return _Found(lowest.on, lowest.score, lowest.volts, *counts)


def _changes(on: Bools) -> Bools:
    """Return a combination and all that differ from it in one load or two, (rows, loads)."""
    flips = np.concatenate([np.zeros((1, len(on)), np.bool_), np.eye(len(on), dtype=np.bool_)])
    one, other = np.triu_indices(len(on), 1)
    return np.asarray(on ^ np.concatenate([flips, flips[1 + one] | flips[1 + other]]))


def _searched(trial: _Trial) -> _Found:
    """Return the worst that exchanging loads comes upon from several starts."""
    loads = len(trial.names)
    none, rng = np.zeros(loads, np.bool_), np.random.default_rng(loads)
    alone = [trial.told(none ^ one[None]) for one in np.eye(loads, dtype=np.bool_)]
    idle = trial.told(none[None])
    takes = np.array([one.score < idle.score for one in alone])
    starts = [~none, none, takes, *(rng.random((RESTARTS, loads)) < 1 / 2)]
    found = [idle, *alone]
    for start in starts:
        here = trial.told(start[None])
        while True:
            found.append(here)
            there = trial.told(_changes(here.on))
            if not there.score < here.score:
                break
            here = there
        found.append(there)
    return _best(iter(found))
