"""Single cuts that would do for one gap each, evaluated with the cut made."""

from math import floor

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.fit.carried import carried, some_rows
from trimwright.fit.cut import Cut, stepped
from trimwright.fit.gap import Gap
from trimwright.fit.model import GapModel
from trimwright.fit.plan import FEWEST_EFFECT
from trimwright.fit.verdict import ModelOf, Outcome, kept

Floats = NDArray[np.float64]
MOST_TRIED = 3  # cuts evaluated for one gap, the least wood first
FAR_SHORT = 0.06  # of the certainty, four standard errors of 256 draws at 95 %
TRIES = 2  # amounts evaluated for one cut: along a straight line, and on as that was seen to bend


class Fate(Struct, frozen=True):
    """A gap with a cut made: the shares of draws that keep what is wanted, and that clear."""

    gap: Gap
    sure: float
    clear: float


class Single(Struct, frozen=True):
    """One cut that alone makes one gap as sure as wanted: its name, amount [mm] and all fates.

    `reached` is that gap's share of draws, `joint` that of all gaps together, `fates` those of
    every gap that counts, over the draws of today's outcome, carried from those in which the cut
    was made.
    """

    gap: str
    cut: Cut
    amount: float
    reached: float
    joint: float
    fates: tuple[Fate, ...]


def singles(
    build: Build, found: Outcome, candidates: tuple[Cut, ...], works: Floats, model_of: ModelOf
) -> tuple[Single, ...]:
    """Return, gap by gap, the cuts of least wood that alone make that gap as sure as wanted.

    A cut that leaves all of it together less sure than today is not among them.

    Parameters
    ----------
    build : Build
        As it stands.
    found : Outcome
        Of that build.
    candidates : tuple of Cut
        What may be cut.
    works : ndarray, shape (gaps, cuts)
        Their `effects`.
    model_of : callable
        Gives the gap model of a build.
    """
    trial = _Trial(build, found, model_of)
    rows: list[Single] = []
    for place, one in enumerate(found.gaps):
        if one.sure.value < found.wanted and not one.gap.part_of:
            rows += trial.for_gap(place, candidates, works[place])
    return tuple(sorted(rows, key=lambda s: (s.gap, s.amount * s.cut.wood_mm, s.cut.name)))


class _Trial(Struct, frozen=True):
    """The build, its draws, and what evaluates it with a cut made."""

    build: Build
    found: Outcome
    model_of: ModelOf

    def for_gap(self, place: int, candidates: tuple[Cut, ...], effects: Floats) -> list[Single]:
        """Return the cuts that do for one gap."""
        margins = self.found.draws.margins[:, place]
        ways = []
        for cut, effect in zip(candidates, effects.tolist(), strict=True):
            if effect > FEWEST_EFFECT:
                amount = stepped(self._short(margins) / effect, self.build.unit)
                ways.append((amount * cut.wood_mm, cut.name, cut, effect, amount))
        within = [way for way in sorted(ways, key=lambda way: way[:2]) if way[4] <= way[2].most_mm]
        tried = (self._single(place, *way[2:]) for way in within[:MOST_TRIED])
        return [single for single in tried if single is not None]

    def _short(self, margins: Floats) -> float:
        """Return by how much the rows that have to keep a gap fall short of it [mm], at the most."""
        able = np.sort(np.nan_to_num(margins, nan=-1e3))
        may_miss = floor((1 - self.found.wanted) * len(able) + 1e-9)
        return -float(able[min(may_miss, len(able) - 1)])

    def _single(self, place: int, cut: Cut, effect: float, amount: float) -> Single | None:
        """Return a cut of about this amount if it does with the cut made, None if it does not."""
        counted = [at for at, one in enumerate(self.found.gaps) if not one.gap.part_of]
        today = self.found.joint.value if self.found.joint else 0.0
        for _ in range(TRIES):
            if amount > cut.most_mm:
                return None
            model = self.model_of(cut.applied(self.build, amount))
            if len(model.gaps) != len(self.found.gaps):
                return None  # it leaves no console, or another one
            margins = self._margins(model, place)
            wanted = np.array([gap.wanted for gap in model.gaps])
            way = np.array([1.0 if gap.sense == "at least" else -1.0 for gap in model.gaps])
            sure, clear = (margins >= 0).mean(axis=0), (way * margins + wanted > 0).mean(axis=0)
            if sure[place] >= self.found.wanted:
                joint = float(kept(margins, model.gaps).mean())
                fates = tuple(
                    Fate(model.gaps[at], float(sure[at]), float(clear[at])) for at in counted
                )
                name, reached = model.gaps[place].name, float(sure[place])
                single = Single(name, cut, amount, reached, joint, fates)
                return single if joint >= today else None
            amount += self._further(place, effect, amount, self._short(margins[:, place]))
        return None

    def _further(self, place: int, effect: float, amount: float, short: float) -> float:
        """Return how much more of a cut it takes [mm], where with an amount it still falls short.

        What a mm gains at the end of the amount is that of a parabola that begins as the effect
        says and comes out there; it is not taken for less than half of what it gained so far.
        """
        gained = (self._short(self.found.draws.margins[:, place]) - short) / amount
        here = max(2 * gained - effect, 0.5 * gained, FEWEST_EFFECT)
        return stepped(short / here, self.build.unit)

    def _margins(self, model: GapModel, place: int) -> Floats:
        """Return what every gap has to spare with a cut made, draw by draw, (draws, gaps) [mm].

        A few draws are enough where the others follow from them, or where the gap at `place`
        falls far short in them.
        """
        draws = self.found.draws
        rows = some_rows(draws)
        rests = draws.table.rests
        some = model.evaluate(draws.scores[rows], rests and rests.rows(rows)).margins(model.gaps)
        found = carried(draws, rows, some)
        if found is not None:
            return found
        if (some[:, place] >= 0).mean() < self.found.wanted - FAR_SHORT:
            return some
        return model.evaluate(draws.scores, rests).margins(model.gaps)
