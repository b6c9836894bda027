"""The states in which what is asked stands worst, over all combinations of switches and doors.

Where there are few combinations, all are solved. Else every turn is put to each of its standings
while all others rest, and again while all others draw most: that shows what it does to each figure.
The combination of what does most is solved for each figure, and the worst of all that were solved
is taken. Were the network one of fixed resistances of which none but a small part is shared, what
turns do would add up and this would be the worst there is; what one turn does hangs a little on
the others, so the findings say how many of how many combinations were solved.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from collections.abc import Set as AbstractSet
from itertools import product

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright.build import Wiring
from trimwright.wiring.asked import Figures
from trimwright.wiring.consumer import consumers
from trimwright.wiring.logic import Network, State
from trimwright.wiring.mode import MODES, Mode
from trimwright.wiring.network import Solved, joined
from trimwright.wiring.turn import Turner, Turns
from trimwright.wiring.use import DIGITS, Row, Use

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Pick = tuple[int, ...]  # which standing of each turn

ALL = 32  # combinations of a mode that are all solved
LEAST_A = 1e-3  # below this nothing flows
NEAR = 0.97  # of the most that is foreseen in any mode: below it a current is not looked for


class Searched(Struct, frozen=True):
    """How far the worst was looked for in a mode: combinations there are, how many were solved."""

    mode: Mode
    combinations: int
    solved: int
    whole: bool

    @property
    def all_solved(self) -> bool:
        """Whether no combination was left out."""
        return self.whole and self.solved >= self.combinations


class Found(Struct, frozen=True):
    """The states that are told of, what flows in them, how the worst of them were looked for."""

    rows: tuple[Row, ...]
    solved: Solved
    searched: tuple[Searched, ...]


def worst_states(
    wiring: Wiring,
    network: Network,
    found: tuple[Use, ...],
    alone: tuple[Row, ...],
    solve: Callable[[Sequence[Row]], Solved],
) -> Found:
    """Return the states with the least else on, and those in which something stands worst.

    Parameters
    ----------
    wiring, network : Wiring, Network
        The build's, and the same as contacts.
    found : tuple of Use
        What can be set to work in which mode.
    alone : tuple of Row
        The states with the least else on; they stay first.
    solve : callable
        What flows in some states.
    """
    modes = _modes(wiring, network, found)
    told = [*alone, *(row for mode in modes for row in mode.begin(alone))]
    solved = solve(told)
    carries = [join.name for join in network.joins] + [feed.name for feed in wiring.feeds]
    for mode in modes:
        mode.figures = Figures(wiring, solved.circuit, mode.uses, carries)
        mode.read(told, solved)
    foreseen = [mode.foreseen() for mode in modes]
    most = _most(one.shared for one in foreseen)
    more = [
        row for mode, one in zip(modes, foreseen, strict=True) for row in mode.promising(one, most)
    ]
    if more:
        solved, told = joined((solved, solve(more))), told + more
        for mode in modes:
            mode.read(more, solved.rows_of(slice(len(told) - len(more), None)))
    most = _most(mode.best()[mode.figures.shared] for mode in modes)
    kept = {(row.mode, row.state) for row in alone}
    for mode in modes:
        kept |= {(mode.turns.mode, state) for state in mode.kept(most)}
    numbers = [n for n, row in enumerate(told) if (row.mode, row.state) in kept]
    rows = tuple(told[number] for number in numbers)
    searched = tuple(mode.searched() for mode in modes)
    return Found(rows, solved.rows_of(np.array(numbers)), searched)


def _most(shares: Iterable[Floats]) -> Floats:
    """Return the most of the currents, which are asked alike in every mode, whichever way they go."""
    most = np.max(list(shares), axis=0).reshape(2, 2, -1)  # for good or not, to and fro, elements
    return np.asarray(np.broadcast_to(most.max(axis=1, keepdims=True), most.shape).ravel())


def _modes(wiring: Wiring, network: Network, found: tuple[Use, ...]) -> list["_ModeSearch"]:
    """Return a search for each mode in which something can be set to work."""
    turner = Turner(network, consumers(wiring))
    made, modes = dict[tuple[str, str], Turns | None](), list[_ModeSearch]()
    for mode in MODES:
        own = tuple(use for use in found if use.mode == mode)
        key = (mode.key, mode.engine)
        if own and key not in made:
            made[key] = turner.turns(mode, own[0].state)
        turns = made.get(key) if own else None
        if turns is not None:
            modes.append(_ModeSearch(wiring, replace(turns, mode=mode), own))
    return modes


class _Foreseen(Struct, frozen=True):
    """Combinations by what turns do singly, and what each figure would be: (figures, ...)."""

    picks: tuple[NDArray[np.intp], ...]
    values: tuple[Floats, ...]
    shared: Floats


class _ModeSearch:
    """The combinations of one mode, of which some were solved."""

    figures: Figures

    def __init__(self, wiring: Wiring, turns: Turns, uses: tuple[Use, ...]) -> None:
        self.turns, self.uses, self.signals = turns, uses, wiring.signals
        told = consumers(wiring)
        self._draws = {one.name: one.current_a or 0.0 for one in told}
        self._brief = frozenset(one.name for one in told if one.on_for_s is not None)
        self._moved = turns.moved
        self._on = [
            [one.on & moved for one in own]
            for own, moved in zip(turns.each, self._moved, strict=True)
        ]
        self._picks: dict[Pick, Row] = {}
        self._numbers: dict[State, int] = {}
        self._states: list[State] = []
        self._values: list[Floats] = []
        self._counts: list[Bools] = []
        self._crowds: tuple[Pick, ...] = ()
        self._contexts: tuple[Pick, ...] = ()

    def begin(self, alone: Iterable[Row]) -> Iterator[Row]:
        """Yield the states to solve first that are not solved alone: all, or each turn singly."""
        known = {row.state for row in alone if row.mode == self.turns.mode}
        rest = (0,) * len(self.turns.each)
        self._crowds = tuple(dict.fromkeys(self._most_on()))
        self._contexts = tuple(dict.fromkeys((rest, *self._crowds, *self._covering())))
        if self.turns.combinations <= ALL:
            wanted: Iterable[Pick] = product(*(range(len(own)) for own in self.turns.each))
        else:
            wanted = (pick for base in self._contexts for pick in self._singly(base))
        yield from self._new(wanted, known)

    def _new(self, wanted: Iterable[Pick], known: AbstractSet[State]) -> Iterator[Row]:
        """Yield the states of combinations that were not asked for before."""
        for pick in wanted:
            if pick not in self._picks:
                state, closed, on = self.turns.together(pick)
                row = Row(self.turns.mode, state, closed, on, crowd=True)
                self._picks[pick] = row
                if state not in known:
                    yield row

    def _singly(self, base: Pick) -> Iterator[Pick]:
        """Yield a combination with each turn put to each of its standings."""
        yield base
        for turn, own in enumerate(self.turns.each):
            yield from ((*base[:turn], n, *base[turn + 1 :]) for n in range(len(own)))

    def _most_on(self) -> Iterator[Pick]:
        """Yield the combination that draws most, and the one of those that may last."""
        told = range(len(self.turns.each))
        yield tuple(int(np.argmax(self._drawn(turn))) for turn in told)
        fixed = self.turns.rest.on.difference(*self._moved)
        lasts = [[not one & self._brief for one in self._on[turn]] for turn in told]
        if not fixed & self._brief and all(map(any, lasts)):
            yield tuple(int(np.argmax(np.where(lasts[n], self._drawn(n), -1.0))) for n in told)

    def _drawn(self, turn: int) -> list[float]:
        """Return what is drawn by what one turn puts on, in each of its standings [A]."""
        return [sum(self._draws[name] for name in sorted(one)) for one in self._on[turn]]

    def _covering(self) -> Iterator[Pick]:
        """Yield for what is not on in a crowd the crowd with it on."""
        wanted = dict.fromkeys(frozenset([use.consumer.name]) for use in self.uses)
        wanted |= dict.fromkeys(frozenset([one.start, one.end]) for one in self.signals)
        fixed = self.turns.rest.on.difference(*self._moved)
        for base in self._crowds:
            on = fixed.union(*(own[n] for own, n in zip(self._on, base, strict=True)))
            for names in wanted:
                pick = self._with_on(base, names - on)
                if pick is not None and pick != base:
                    yield pick

    def _with_on(self, base: Pick, names: AbstractSet[str]) -> Pick | None:
        """Return a combination with some more consumers on; None if they never are together."""
        picked = list(base)
        for turn, own in enumerate(self._on):
            asked = names & self._moved[turn]
            ways = [number for number, on in enumerate(own) if asked <= on]
            if asked and ways:
                picked[turn] = max(ways, key=lambda number: (self._drawn(turn)[number], -number))
            elif asked:
                return None
        return tuple(picked)

    def read(self, rows: Sequence[Row], solved: Solved) -> None:
        """Read the figures off states that were solved, those of other modes left out."""
        own = [number for number, row in enumerate(rows) if row.mode == self.turns.mode]
        told = [rows[number] for number in own]
        for row in told:
            self._numbers[row.state] = len(self._states)
            self._states.append(row.state)
        part = solved.rows_of(np.array(own, np.intp))
        self._values.append(self.figures.of(part).round(DIGITS))
        self._counts.append(self.figures.counts(told, self._brief))

    def _scores(self) -> Floats:
        """Return every figure in every state solved; minus infinite where it does not count."""
        values, counts = np.concatenate(self._values), np.concatenate(self._counts)
        return np.where(counts, values, -np.inf)

    def foreseen(self) -> _Foreseen:
        """Return for each figure the combination of what does most singly, in each context."""
        scores, picks, values = self._scores(), [], []
        for base in self._contexts if self.turns.combinations > ALL else ():
            begun = scores[self._number(base)]
            best, value = np.tile(np.array(base, np.intp), (len(begun), 1)), begun.copy()
            counts = np.isfinite(begun)
            for turn, own in enumerate(self.turns.each):
                each = [(*base[:turn], n, *base[turn + 1 :]) for n in range(len(own))]
                block = scores[[self._number(one) for one in each]]
                best[:, turn] = np.argmax(block, axis=0)
                value[counts] += np.max(block, axis=0)[counts] - begun[counts]
            picks.append(best)
            values.append(value)
        shared = np.max([scores.max(axis=0), *values], axis=0)[self.figures.shared]
        return _Foreseen(tuple(picks), tuple(values), shared)

    def _number(self, pick: Pick) -> int:
        return self._numbers[self._picks[pick].state]

    def promising(self, foreseen: _Foreseen, most: Floats) -> Iterator[Row]:
        """Yield the states foreseen as worst that were not solved, of currents the largest alone."""
        for best, value in zip(foreseen.picks, foreseen.values, strict=True):
            wanted = np.isfinite(value)
            wanted[self.figures.shared] &= value[self.figures.shared] > NEAR * most
            wanted[self.figures.shared] &= most > LEAST_A
            chosen = dict.fromkeys(map(tuple, best[wanted].tolist()))
            yield from self._new(chosen, self._numbers.keys())

    def best(self) -> Floats:
        """Return the most of every figure in the states that were solved."""
        return np.asarray(self._scores().max(axis=0))

    def kept(self, most: Floats) -> Iterator[State]:
        """Yield the crowds, and the states in which some figure is at its most."""
        yield from (self._picks[one].state for one in self._crowds)
        scores = self._scores()
        best = scores.max(axis=0)
        told = np.isfinite(best)
        told[self.figures.shared] &= (best[self.figures.shared] >= most) & (most > LEAST_A)
        for number in sorted(set(np.argmax(scores, axis=0)[told].tolist())):
            yield self._states[number]

    def searched(self) -> Searched:
        """Return how many combinations there are, and how many were solved."""
        turns = self.turns
        return Searched(turns.mode, turns.combinations, len(self._picks), turns.whole)
