"""The least wood to take off before covering so that all of it fits as surely as wanted."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.chance import Estimate, Unreachable, certainty, least_shift
from trimwright.findings import Edit
from trimwright.fit.cut import Cut, stepped
from trimwright.fit.outcome import SCRAMBLES, ModelOf, Outcome, kept

Floats = NDArray[np.float64]
TRIAL_MM = 4.0  # amount at which a cut's effect on every gap is found
ROUNDS = 5  # verification rounds, each adding what is still short
GROWTH = 1.15
FEWEST_EFFECT = 0.02  # mm of gap per mm of cut below which a cut does nothing for a gap


@dataclass(frozen=True, slots=True)
class Plan:
    """Cuts with their amounts [mm], rounded up to what a saw is set to, and what they reach.

    `reached` is evaluated with the cuts made, not extrapolated. `before` is today's certainty.
    `short` is empty where `reached` is what was wanted, else says why it is not.
    """

    cuts: tuple[tuple[Cut, float], ...]
    before: Estimate
    reached: Estimate
    wanted: float
    short: str = ""

    def applied(self, build: Build) -> Build:
        """Return the build with all cuts made."""
        for cut, amount in self.cuts:
            build = cut.applied(build, amount)
        return build

    def edits(self, build: Build) -> tuple[Edit, ...]:
        """Return the edits of the file that make all cuts."""
        return tuple(e for cut, amount in self.cuts for e in cut.edits(amount, build.unit))


@dataclass(frozen=True, slots=True)
class Single:
    """One cut that alone makes one gap as sure as wanted: its name, amount and the rest's fate."""

    gap: str
    cut: Cut
    amount: float
    reached: float


def effects(build: Build, candidates: tuple[Cut, ...], model_of: ModelOf, factors: int) -> Floats:
    """Return how each cut changes each margin, mm per mm, shape (gaps, cuts).

    Each cut is made on the nominal build by a trial amount and everything computed anew: carcass,
    scribe, resting pose, gaps.
    """
    zero = np.zeros((1, factors))
    model = model_of(build)
    now = model.evaluate(zero).margins(model.gaps)[0]
    columns = []
    for cut in candidates:
        trial = min(TRIAL_MM, cut.most_mm)
        after = model_of(cut.applied(build, trial))
        columns.append((after.evaluate(zero).margins(after.gaps)[0] - now) / trial)
    found = np.nan_to_num(np.array(columns, dtype=np.float64)).reshape(len(columns), -1).T
    return np.where(np.abs(found) < FEWEST_EFFECT, 0.0, found)


def least_cut(
    build: Build, found: Outcome, candidates: tuple[Cut, ...], model_of: ModelOf
) -> Plan | None:
    """Return the least cut, or None where today's certainty is what is wanted.

    Parameters
    ----------
    build : Build
        As it stands.
    found : Outcome
        Of that build.
    candidates : tuple of Cut
        What may be cut.
    model_of : callable
        Gives the gap model of a build.
    """
    joint = found.joint
    if joint is None or joint.value >= found.wanted:
        return None
    factors = found.draws.scores.shape[1]
    counted = [place for place, one in enumerate(found.gaps) if not one.gap.part_of]
    works = effects(build, candidates, model_of, factors)[counted]
    useful = [c for c in range(len(candidates)) if works[:, c].max(initial=0) > FEWEST_EFFECT]
    if not useful:
        return Plan((), joint, joint, found.wanted, "no cut of this console changes what is short")
    chosen = tuple(candidates[c] for c in useful)
    best = least_shift(
        np.nan_to_num(found.draws.margins[:, counted], nan=-1e3),
        works[:, useful],
        np.array([c.wood_mm for c in chosen]),
        np.array([c.most_mm for c in chosen]),
        found.wanted,
    )
    amounts = best.best if isinstance(best, Unreachable) else best.amounts
    return _verified(build, found, chosen, np.asarray(amounts, dtype=np.float64), model_of)


def _verified(
    build: Build, found: Outcome, chosen: tuple[Cut, ...], amounts: Floats, model_of: ModelOf
) -> Plan:
    """Return the plan with amounts on the saw's step, grown until it truly reaches what it must."""
    joint = found.joint
    assert joint is not None  # noqa: S101  least_cut has asked
    for _ in range(ROUNDS):
        made = tuple(
            (cut, min(stepped(float(a), build.unit), cut.most_mm))
            for cut, a in zip(chosen, amounts, strict=True)
            if a > 1e-3  # noqa: PLR2004  mm; below what any tool can cut
        )
        plan = Plan(made, joint, joint, found.wanted)
        model = model_of(plan.applied(build))
        margins = model.evaluate(found.draws.scores).margins(model.gaps)
        reached = certainty(kept(margins, model.gaps), SCRAMBLES)
        plan = Plan(made, joint, reached, found.wanted)
        if reached.value >= found.wanted:
            return plan
        amounts = amounts * GROWTH
    return Plan(made, joint, reached, found.wanted, _why_short(plan))


def _why_short(plan: Plan) -> str:
    """Return which cuts are at their bound, or that the doubts are too wide for any cut."""
    if not plan.cuts:
        return "no cut within its bounds is enough"
    at_end = [f"{cut.name} ({cut.bound})" for cut, a in plan.cuts if a >= cut.most_mm - 1e-6]
    return "as far as " + ", ".join(at_end) + " allows" if at_end else "the doubts are too wide"


def singles(
    build: Build, found: Outcome, candidates: tuple[Cut, ...], works: Floats
) -> tuple[Single, ...]:
    """Return, gap by gap, every cut that alone could make that gap as sure as wanted.

    The amount is the gap's percentile over the cut's effect, to the saw's next step.
    """
    rows: list[Single] = []
    for place, one in enumerate(found.gaps):
        if one.sure.value >= found.wanted:
            continue
        margins = np.nan_to_num(found.draws.margins[:, place], nan=-1e3)
        short = -float(np.quantile(margins, 1 - found.wanted))
        for cut, effect in zip(candidates, works[place], strict=True):
            amount = stepped(short / effect, build.unit) if effect > FEWEST_EFFECT else np.inf
            if amount <= cut.most_mm:
                reached = float(np.mean(margins + effect * amount >= 0))
                rows.append(Single(one.gap.name, cut, amount, reached))
    return tuple(sorted(rows, key=lambda s: (s.gap, s.amount * s.cut.wood_mm, s.cut.name)))
