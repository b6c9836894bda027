"""The states found worst, against every state in which invented wirings can stand at all.

The states are gone through one by one: each value of each fact, each setting in which relays rest,
each solved. Nothing is known there of turns that do not touch each other, nor of what is foreseen.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
import pytest
from numpy.typing import NDArray

from tests.invented_supply import supply
from trimwright.build import Wiring
from trimwright.wiring import worst
from trimwright.wiring.asked import Asked, Figures
from trimwright.wiring.consumer import consumers
from trimwright.wiring.electric import circuit, flows
from trimwright.wiring.laid import length_m
from trimwright.wiring.logic import Board, Network, Settler, lawful
from trimwright.wiring.mode import Mode
from trimwright.wiring.network import Circuit, Solved
from trimwright.wiring.outcome import connections
from trimwright.wiring.sold import ohm_per_m
from trimwright.wiring.use import Row, Use, rows
from trimwright.wiring.worst import Found, worst_states

TURNS = 4
LIFTED_A = 0.1  # what lifted grounds drive through dead wires: turns that differ in no more are one
LIFTED_V = 1e-3

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Laid:
    """An invented wiring, ready to be solved."""

    wiring: Wiring
    network: Network
    uses: tuple[Use, ...]
    circuit: Circuit

    def solved(self, told: Sequence[Row]) -> Solved:
        """Return what flows in some states."""
        return flows(
            self.circuit, [(one.mode, one.closed) for one in told], self.network, self.wiring
        )

    def most(self, mode: Mode, told: Sequence[Row], solved: Solved) -> dict[Asked, float]:
        """Return the most of each figure of a mode in some states, a current either way."""
        own = tuple(use for use in self.uses if use.mode == mode)
        carries = [one.name for one in self.network.joins]
        figures = Figures(self.wiring, self.circuit, own, carries)
        brief = frozenset(one.name for one in consumers(self.wiring) if one.on_for_s is not None)
        counted = np.where(figures.counts(list(told), brief), figures.of(solved), -np.inf)
        found: dict[Asked, float] = {}
        for asked, value in zip(figures.asked, counted.max(axis=0), strict=True):
            kind = "to" if asked.kind == "fro" else asked.kind
            one = Asked(asked.name, kind, asked.on, lasting=asked.lasting)
            found[one] = max(found.get(one, -np.inf), float(value))
        return found


def laid(seed: int) -> Laid:
    wiring = supply(seed, TURNS)
    loom, network, uses = connections(wiring)
    ohms = {one.name: ohm_per_m(one.size, "mm") * length_m(one) for one in loom.wires}
    built = circuit(wiring, loom, network, ohms)
    assert built is not None
    return Laid(wiring, network, uses, built)


def every_row(one: Laid, mode: Mode) -> list[Row]:
    """Return every state of rest of a mode."""
    held = {"key": (mode.key,), "engine": (mode.engine,)}
    board, settler, found = Board(one.network), Settler(one.network), []
    for values in product(*(held.get(fact.name, fact.values) for fact in one.network.facts)):
        facts = dict(zip((fact.name for fact in one.network.facts), values, strict=True))
        if lawful(one.network, facts):
            for state in settler.settings(facts.items()):
                seen = board.standing(state)
                on = {own.name for own in consumers(one.wiring) if board.holds(own.fed, seen)}
                closed = frozenset(seen.closed | seen.alive)
                found.append(Row(mode, state, closed, frozenset(on), crowd=True))
    return found


def compared(one: Laid) -> tuple[Found, list[tuple[Asked, float, float]]]:
    """Return the worst found of each figure, and the worst there is, currents over all modes."""
    found = worst_states(one.wiring, one.network, one.uses, rows(one.network, one.uses), one.solved)
    told, currents = list[tuple[Asked, float, float]](), dict[Asked, list[float]]()
    for searched in found.searched:
        mode, every = searched.mode, every_row(one, searched.mode)
        numbers = [n for n, row in enumerate(found.rows) if row.mode == mode]
        own = one.most(
            mode, [found.rows[n] for n in numbers], found.solved.rows_of(np.array(numbers))
        )
        there = one.most(mode, every, one.solved(every))
        for asked, value in there.items():
            if asked.kind == "to":
                best = currents.setdefault(asked, [-np.inf, -np.inf])
                best[:] = max(best[0], own[asked]), max(best[1], value)
            else:
                told.append((asked, own[asked], value))
    told += [(asked, *best) for asked, best in currents.items() if best[1] > LIFTED_A]  # type: ignore[misc]  # two of them
    return found, [one for one in told if np.isfinite(one[2])]


@pytest.mark.parametrize("seed", range(100, 106))
def test_where_all_combinations_are_solved_the_worst_is_the_worst_there_is(
    seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(worst, "ALL", 10**6)
    found, told = compared(laid(seed))
    assert all(one.all_solved for one in found.searched)
    for asked, mine, there in told:
        assert mine == pytest.approx(there, abs=LIFTED_V), asked


def test_what_is_found_by_turning_each_singly_is_all_but_always_the_worst_there_is(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(worst, "ALL", 0)
    told = [one for seed in range(200, 209) for one in compared(laid(seed))[1]]
    over = [one for one in told if one[1] > one[2] + 1e-5]
    short = [one for one in told if one[1] < one[2] - 1e-3 * max(1.0, abs(one[2]))]
    assert over == []
    assert len(told) > 500
    assert len(short) < len(told) / 100, short


def test_few_combinations_are_all_solved_and_of_many_it_is_told_how_many() -> None:
    one = laid(100)
    found, _ = compared(one)
    for searched in found.searched:
        assert searched.all_solved == (searched.solved >= searched.combinations)
        if searched.combinations <= worst.ALL:
            assert searched.all_solved
