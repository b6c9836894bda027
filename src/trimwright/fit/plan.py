"""The least wood to take off before covering so that all of it fits as surely as wanted."""

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.chance import Estimate, LeastCut, Unreachable, certainty, least_shift
from trimwright.findings import Edit
from trimwright.fit.cut import LEFT, Cut, cut_edits, stepped, stepped_down
from trimwright.fit.verdict import SCRAMBLES, ModelOf, Outcome, kept

Floats = NDArray[np.float64]
TRIAL_MM = 4.0  # amount at which a cut's effect on every gap is found
ROUNDS = 4  # each evaluates the cuts made and seeks them again from there
NEARLY = 0.01  # of the certainty that may be given up for less wood where no cut is enough
NUDGE = 0.01  # most a round aims higher than the one before, where cuts fell short
DIGITS = 6  # of a mm that the search looks at
FINEST_MM = 0.01  # below what any tool can cut
SPARINGS = 4  # amounts tried of each cut of a plan that falls short: none, then halfway
RETREATS = 4  # halvings on the way back from cuts that leave no console with these gaps
NO_CUT = "no cut of this console changes what is short"
COVERED = "it is covered, and of what is covered nothing is cut"
FEWEST_EFFECT = 0.02  # mm of gap per mm of cut below which a cut does nothing for a gap


class Plan(Struct, frozen=True):
    """Cuts with their amounts [mm], rounded up to what a saw is set to, and what they reach.

    `reached` is evaluated with the cuts made, not extrapolated. `before` is today's certainty.
    `short` is empty where `reached` is what was wanted, else says why it is not.
    """

    cuts: tuple[tuple[Cut, float], ...]
    before: Estimate
    reached: Estimate
    wanted: float
    short: str = ""

    @property
    def enough(self) -> bool:
        """Whether what is wanted is reached."""
        return self.reached.value >= self.wanted

    def applied(self, build: Build) -> Build:
        """Return the build with all cuts made."""
        for cut, amount in self.cuts:
            build = cut.applied(build, amount)
        return build

    def edits(self, build: Build) -> tuple[Edit, ...]:
        """Return the edits of the file that make all cuts."""
        return cut_edits(build, self.cuts)


def effects(build: Build, candidates: tuple[Cut, ...], model_of: ModelOf) -> Floats:
    """Return how each cut changes each margin, mm per mm, shape (gaps, cuts).

    Each cut is made on the nominal build by a trial amount and everything computed anew: carcass,
    scribe, resting pose, gaps.
    """
    model = model_of(build)
    now = model.nominal().margins(model.gaps)[0]
    columns = []
    for cut in candidates:
        trial = min(TRIAL_MM, cut.most_mm)
        after = model_of(cut.applied(build, trial))
        if len(after.gaps) != len(model.gaps):  # a gap comes or goes: no straight line to follow
            columns.append(np.zeros_like(now))
            continue
        columns.append((after.nominal().margins(after.gaps)[0] - now) / trial)
    found = np.array(columns, dtype=np.float64).reshape(len(columns), len(model.gaps))
    found = np.nan_to_num(found).T
    return np.where(np.abs(found) < FEWEST_EFFECT, 0.0, found)


def least_cut(
    build: Build, found: Outcome, candidates: tuple[Cut, ...], works: Floats, model_of: ModelOf
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
    works : ndarray, shape (gaps, cuts)
        Their `effects`.
    model_of : callable
        Gives the gap model of a build.
    """
    joint = found.joint
    if joint is None or joint.value >= found.wanted:
        return None
    works = works[[place for place, one in enumerate(found.gaps) if not one.gap.part_of]]
    useful = [c for c in range(len(candidates)) if works[:, c].max(initial=0) > FEWEST_EFFECT]
    if not useful:
        covered = "covering" in build.locks
        return Plan((), joint, joint, found.wanted, COVERED if covered else NO_CUT)
    task = _Task(build, found, tuple(candidates[c] for c in useful), works[:, useful], model_of)
    return task.plan(joint)


class _Task(Struct, frozen=True):
    """One search: the build, its draws, the cuts that help and their effects on counted gaps."""

    build: Build
    found: Outcome
    cuts: tuple[Cut, ...]
    works: Floats
    model_of: ModelOf

    def plan(self, joint: Estimate) -> Plan:
        """Return the plan, its cuts found along straight lines and corrected where they bend.

        Each round makes the cuts, evaluates everything anew over the same draws, carries those
        margins back along the straight lines to no cuts, and seeks the least cuts again: more
        where they fell short, fewer where more was cut than it takes.
        """
        wanted = aim = self.found.wanted
        margins = self._counted(self.found.draws.margins, self.found)
        best, task = Plan((), joint, joint, wanted), self
        for _ in range(ROUNDS):
            amounts, least = task._least(margins, aim)
            plan, whole = task._made(amounts, joint)
            if whole.shape[1] != len(self.found.gaps):
                task = task._drawn_in(amounts)
                continue
            best = min(best, plan, key=_rank)
            if least and plan.enough:
                break
            aim = min(aim + min(max(wanted - plan.reached.value, 0.0), NUDGE), 1.0)
            margins = self._counted(whole, self.found) - self.works @ amounts
        return best if best.enough else replace(task.spared(best), short=_why_short(best))

    def spared(self, plan: Plan) -> Plan:
        """Return a plan that falls short with each cut taken back as far as hardly matters.

        The last hundredth of a certainty that is out of reach would take most of the wood.
        """
        floor = plan.reached.value - NEARLY
        for cut, _ in sorted(plan.cuts, key=lambda one: -one[0].wood_mm * one[1]):
            low, high, amount = 0.0, dict(plan.cuts)[cut], 0.0
            for _ in range(SPARINGS):
                amounts = {**dict(plan.cuts), cut: amount}
                made = np.array([amounts.get(one, 0.0) for one in self.cuts])
                other = self._made(made, plan.before)[0]
                if other.reached.value >= floor:
                    plan, high = other, amount
                else:
                    low = amount
                amount = stepped(0.5 * (low + high), self.build.unit)
                if not low < amount < high:
                    break
        return plan

    def _made(self, amounts: Floats, joint: Estimate) -> tuple[Plan, Floats]:
        """Return the plan of these cuts, evaluated with them made, and the margins it leaves."""
        made = tuple((c, float(a)) for c, a in zip(self.cuts, amounts, strict=True) if a > 0)
        plan = Plan(made, joint, joint, self.found.wanted)
        model = self.model_of(plan.applied(self.build))
        draws = self.found.draws
        whole = model.evaluate(draws.scores, draws.table.rests).margins(model.gaps)
        return replace(plan, reached=certainty(kept(whole, model.gaps), SCRAMBLES)), whole

    def _drawn_in(self, amounts: Floats) -> "_Task":
        """Return the search with bounds at which these cuts together leave a console with its gaps.

        Each cut's bound is found with the others not made; together they may be too much.
        """
        unit, low, high = self.build.unit, 0.0, 1.0
        for _ in range(RETREATS):
            middle = 0.5 * (low + high)
            build = self.build
            for cut, amount in zip(self.cuts, middle * amounts, strict=True):
                build = cut.applied(build, stepped_down(float(amount), unit))
            same = len(self.model_of(build).gaps) == len(self.found.gaps)
            low, high = (middle, high) if same else (low, middle)
        bounds = [stepped_down(low * float(a), unit) for a in amounts]
        cuts = tuple(
            replace(c, most_mm=most, bound=LEFT) if a > 0 else c
            for c, a, most in zip(self.cuts, amounts, bounds, strict=True)
        )
        return replace(self, cuts=cuts)

    def _least(self, margins: Floats, aim: float) -> tuple[Floats, bool]:
        """Return the least cuts along straight lines, on the saw's steps, and whether they do.

        Where no cuts do, the least that come as near: not all the wood that may be taken.
        """
        found = self._sought(margins, aim)
        if isinstance(found, LeastCut):
            return self._stepped(np.array(found.amounts)), True
        near = self._sought(margins, found.reached) if found.reached > 0 else found
        amounts = near.amounts if isinstance(near, LeastCut) else near.best
        return self._stepped(np.array(amounts)), False

    def _sought(self, margins: Floats, aim: float) -> LeastCut | Unreachable:
        """Return what is found along straight lines for a certainty."""
        # the last digits differ between machines, and many cuts cost nearly the same
        return least_shift(
            np.round(margins, DIGITS),
            np.round(self.works, DIGITS),
            np.array([c.wood_mm for c in self.cuts]),
            np.array([c.most_mm for c in self.cuts]),
            aim,
        )

    def _stepped(self, amounts: Floats) -> Floats:
        """Return amounts rounded up to what a saw is set to, none beyond its most."""
        unit = self.build.unit
        return np.array(
            [
                min(stepped(float(a), unit), c.most_mm) if a > FINEST_MM else 0.0
                for a, c in zip(amounts, self.cuts, strict=True)
            ]
        )

    @staticmethod
    def _counted(margins: Floats, found: Outcome) -> Floats:
        """Return the margins of the gaps that count, a row that tips never clearing."""
        counted = [place for place, one in enumerate(found.gaps) if not one.gap.part_of]
        return np.nan_to_num(margins[:, counted], nan=-1e3)


def _rank(plan: Plan) -> tuple[bool, float]:
    """Return what the better of two plans has less of: being short, then wood, or doubt."""
    wood = sum(cut.wood_mm * amount for cut, amount in plan.cuts)
    return not plan.enough, wood if plan.enough else -plan.reached.value


def _why_short(plan: Plan) -> str:
    """Return which cuts are at their bound, or that the doubts are too wide for any cut."""
    if not plan.cuts:
        return "no cut within its bounds is enough"
    at_end = [f"{cut.name} ({cut.bound})" for cut, a in plan.cuts if a >= cut.most_mm - 1e-6]
    return "as far as " + ", ".join(at_end) + " allows" if at_end else "the doubts are too wide"
