"""Which reading to take again: what decides whether all of it fits, and what it would be worth."""

from dataclasses import dataclass

import numpy as np

from trimwright.build import Build
from trimwright.chance import Factor, Ledger, ReMeasure, re_measure, shares
from trimwright.fit.outcome import FEWEST_SHARE, Outcome

MOST = 3


@dataclass(frozen=True, slots=True)
class Again:
    """One reading worth taking again: its factor, its share in what decides, and its worth.

    `gap` is the gap that decides: the one least sure of those whose fate is not settled.
    """

    factor: Factor
    gap: str
    share: float
    worth: ReMeasure


def deciding_gap(found: Outcome) -> int | None:
    """Return the place of the gap nearest to even chances, None where every gap is settled.

    A gap that surely clears or surely does not is not decided by a reading but by a saw.
    """
    open_gaps = [
        (abs(one.sure.value - 0.5), place)
        for place, one in enumerate(found.gaps)
        if not one.gap.part_of and one.shares and 0.005 < one.sure.value < 0.995  # noqa: PLR2004  settled
    ]
    return min(open_gaps)[1] if open_gaps else None


def measure_next(build: Build, ledger: Ledger, found: Outcome) -> tuple[Again, ...]:
    """Return up to three readings, the most worth for the effort first.

    Ranked by the expected saving in the least cut for each minute of measuring; the certainty
    expected after a reading is today's and is not a reason to take it.

    Parameters
    ----------
    build : Build
        Its wanted certainty.
    ledger : Ledger
        Its doubts, with the effort and half width of reading each again.
    found : Outcome
        Of that build.
    """
    place = deciding_gap(found)
    if place is None or found.taught is not None:
        return ()  # after a test fit the doubts hang together: another probe says more than a tape
    scores, one = found.draws.prior, found.gaps[place]
    margin = found.draws.margins[:, place]
    stands = np.isfinite(margin)
    part = shares(scores[stands], margin[stands])
    rows = []
    for column, factor in enumerate(ledger.factors):
        if factor.minutes <= 0 or part[column] < FEWEST_SHARE or factor.doubt.plus <= 0:
            continue
        ratio = factor.again / max(factor.doubt.plus, factor.doubt.minus)
        worth = re_measure(
            scores[stands], margin[stands], column, ratio, build.wanted.certainty.value
        )
        rows.append(Again(factor, one.gap.name, float(part[column]), worth))
    rows.sort(key=lambda a: (-_saving(a), -a.share, a.factor.key))
    return tuple(rows[:MOST])


def _saving(again: Again) -> float:
    """Return the cut expected to be saved [mm] for each minute."""
    return (again.worth.cut_before - again.worth.cut_after) / again.factor.minutes
