"""Remedies of a build taken one after another, and what must hold from each file to the next."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from trimwright.build import Build, edited, parse
from trimwright.cabin import Cabin, cabin
from trimwright.checks import all_findings
from trimwright.findings import GRADES, Finding, Grade, Remedy, counts

ROUNDS = 10
CORRECTS = "reading fits the others"  # its remedies change what was measured, not the wood
MOST_MM = {"nose": 40.0, "front": 25.0, "left": 25.0, "right": 25.0, "scribe": 25.0}
Way = tuple[Finding, Remedy]
Pick = Callable[[Sequence[Way]], Way]


@dataclass(frozen=True)
class Round:
    """One file, how sure all of it is (None: not evaluated), its findings, the way taken if any."""

    text: str
    cabin: Cabin
    sure: float | None
    findings: tuple[Finding, ...]
    taken: Way | None

    @property
    def worst(self) -> int:
        """Return the place of the worst grade there is, 0 for a stop."""
        return min(GRADES.index(one.grade) for one in self.findings)

    @property
    def counts(self) -> dict[Grade, int]:
        """Return how many findings there are of each grade."""
        return counts(self.findings)


def ways(findings: tuple[Finding, ...]) -> list[Way]:
    """Return every remedy that can be written, of what stops first."""
    return [
        (one, remedy)
        for grade in ("stop", "change")
        for one in findings
        for remedy in one.remedies
        if one.grade == grade and remedy.edits
    ]


def walk(text: str, pick: Pick) -> list[Round]:
    """Return every file on the way, the last one without a remedy or past the last round."""
    rounds: list[Round] = []
    for _ in range(ROUNDS + 1):
        found = cabin(parse(text).build)
        findings = all_findings(found)
        sure = found.outcome.joint.value if found.outcome and found.outcome.joint else None
        open_ways = ways(findings)
        taken = pick(open_ways) if open_ways else None
        rounds.append(Round(text, found, sure, findings, taken))
        if taken is None:
            break
        text = edited(text, taken[1].edits)
    return rounds


def faults(rounds: Sequence[Round], same: float) -> list[str]:
    """Return what does not hold; `same` is the share of rows that rounding may turn."""
    found = [fault for before, after in pairwise(rounds) for fault in _step(before, after, same)]
    if len({one.text for one in rounds}) < len(rounds):
        found.append("back where it was")
    last = rounds[-1]
    if last.taken is not None:
        found.append(f"still at it after {ROUNDS} rounds")
    plan = last.cabin.plan
    for one in last.findings:
        if one.rule == "all together" and one.grade != "good":
            said = bool(plan and plan.short and any(plan.short in line for line in one.why))
            if not said:
                found.append("ends short of what is wanted without saying why")
    return found


def _step(before: Round, after: Round, same: float) -> list[str]:
    """Return what got worse from one file to the next."""
    assert before.taken is not None
    says = f"{before.taken[0].place}: {before.taken[1].says}"
    if before.taken[0].rule == CORRECTS:
        return []  # the car is another one now
    found = []
    if before.sure is not None and (after.sure is None or after.sure < before.sure - same):
        found.append(f"{says} {before.sure} -> {after.sure}")
    if after.worst < before.worst or after.counts["stop"] > before.counts["stop"]:
        found.append(f"{says} {before.counts} -> {after.counts}")
    if not same_scores(before.cabin, after.cabin):
        found.append(f"{says} changes what the test fit taught")
    cut = [taken_off(one.cabin.build) for one in (before, after)]
    back = [key for key, amount in cut[0].items() if cut[1][key] < amount]
    far = [key for key, most in MOST_MM.items() if cut[1][key] > max(most, cut[0][key])]
    found += [f"{says} takes too much off: {key}" for key in far]
    return found + [f"{says} puts back {key}" for key in back]


def same_scores(before: Cabin, after: Cabin) -> bool:
    """Return whether two builds of one car are judged on the same rows."""
    if before.outcome is None or after.outcome is None:
        return True
    rows = before.outcome.draws.scores, after.outcome.draws.scores
    return bool(np.allclose(*rows, rtol=0, atol=1e-9))


def taken_off(build: Build) -> dict[str, float]:
    """Return all that is cut off so far, by name; openings by their size [mm]."""
    console = build.console
    assert console is not None
    trims = console.trims
    held = {
        "nose": trims.nose_lower_by,
        "front": trims.front_shorter_by,
        "left": trims.left_in_by,
        "right": trims.right_in_by,
        "scribe": console.scribe.deeper_by,
    }
    for number, opening in enumerate(console.openings):
        held |= {f"opening {number} long": opening.long, f"opening {number} wide": opening.wide}
    return {key: one.value for key, one in held.items()}
