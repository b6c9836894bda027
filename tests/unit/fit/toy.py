"""A gap model that is one straight line a gap, so that every answer has a closed form."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import cast

import numpy as np
from numpy.typing import NDArray

from trimwright.build import Build, parse
from trimwright.chance import Factor, Ledger
from trimwright.fit import Gap, GapModel, GapTable, Unknown
from trimwright.quantities import Doubt

Floats = NDArray[np.float64]
TEXT = """
build: Straight line
unit: mm
seed: 7
wanted: {{certainty: {certainty}}}
car:
  carpet: {{loose: 15, squeezed by hand: 6}}
console:
  deck height: 200
  width: 236
  from: 70 ahead
  to: 690 behind
"""


def build(certainty: str = "95 %") -> Build:
    """Return a build with a console whose nose may be cut, and nothing else that matters."""
    return parse(TEXT.format(certainty=certainty)).build


def ledger(halves: tuple[float, ...], minutes: float = 2.0) -> Ledger:
    """Return normal doubts with these half widths [mm]; sigma is half of each."""
    return Ledger(
        tuple(
            Factor(f"car.{k}", f"reading {k}", Doubt("normal", h, h), "reading", minutes, h / 2)
            for k, h in enumerate(halves)
        )
    )


@dataclass(frozen=True)
class Line:
    """One gap: mean [mm], what a mm of each doubt does to it, what a mm off the nose adds.

    `bend` times the square of the cut comes on top; no cut adds more than `most_gain` [mm].
    """

    name: str
    mean: float
    slopes: tuple[float, ...]
    per_cut: float = 1.0
    most_gain: float = np.inf
    bend: float = 0.0
    part_of: str = ""


@dataclass(frozen=True)
class Toy:
    """Gaps that are straight lines in the doubts; rows whose scores sum to more than `tips_past` tip."""

    build: Build
    ledger: Ledger
    lines: tuple[Line, ...]
    tips_past: float = np.inf

    @property
    def gaps(self) -> tuple[Gap, ...]:
        """Return the gaps; each wants 0 mm."""
        return tuple(
            Gap(one.name, "", ("deck", "dash"), 0.0, (), part_of=one.part_of) for one in self.lines
        )

    @property
    def unknown(self) -> tuple[Unknown, ...]:
        """Return nothing: a line is always known."""
        return ()

    def nominal(self) -> GapTable:
        """Return every line as written."""
        return self.evaluate(np.zeros((1, len(self.ledger))))

    def evaluate(self, scores: Floats, other: object = None) -> GapTable:
        """Return every line in every row."""
        del other  # it comes to rest nowhere
        off = self.ledger.deviations(scores)
        assert self.build.console is not None
        cut = self.build.console.trims.nose_lower_by.value
        columns = [
            one.mean
            + off @ np.array(one.slopes)
            + min(one.per_cut * cut + one.bend * cut**2, one.most_gain)
            for one in self.lines
        ]
        values = np.array(columns).T.reshape(len(scores), len(self.lines))
        tips = scores.sum(axis=1) > self.tips_past
        none = np.zeros(len(scores), dtype=bool)
        values = np.where(tips[:, None], np.nan, values)
        return GapTable(
            values, np.zeros((len(scores), 3)), tips, none, none, ~none, (None,) * len(self.lines)
        )


def model_of(
    doubts: Ledger, *lines: Line, tips_past: float = np.inf
) -> Callable[[Build], GapModel]:
    """Return what gives the toy of a build as cut."""
    return lambda one: cast("GapModel", Toy(one, doubts, lines, tips_past))
