"""Which reading to take again: what decides whether all of it fits, and what it would be worth."""

import numpy as np
from msgspec import Struct

from trimwright.build import Build
from trimwright.chance import Factor, Ledger, ReMeasure, re_measure
from trimwright.fit.verdict import FEWEST_SHARE, Outcome

MOST, MOST_GAPS, MOST_READINGS = 3, 4, 5
SETTLED = 0.001  # nearer to 0 or 1 than this nothing is left open


class Again(Struct, frozen=True):
    """One reading worth taking again: its factor, its share in what decides, and its worth.

    `gap` is the gap that decides: the one least sure of those whose fate is not settled.
    """

    factor: Factor
    gap: str
    share: float
    worth: ReMeasure


def unsettled(found: Outcome) -> tuple[int, ...]:
    """Return the places of the gaps whose fate is open, the least settled first.

    A gap that surely clears or surely does not is not decided by a reading but by a saw.
    """
    open_gaps = [
        (abs(one.sure.value - 0.5), place)
        for place, one in enumerate(found.gaps)
        if not one.gap.part_of and one.shares and SETTLED < one.sure.value < 1 - SETTLED
    ]
    return tuple(place for _, place in sorted(open_gaps))[:MOST_GAPS]


def measure_next(build: Build, ledger: Ledger, found: Outcome) -> tuple[Again, ...]:
    """Return up to three readings, the most worth for the effort first.

    For each unsettled gap the readings with the largest shares in its spread are tried; ranked by
    the expected saving in the gap's least cut for each minute of measuring, then by the part of
    the gap's risk that they explain. The certainty expected
    after a reading is today's and is not a reason to take it.

    Parameters
    ----------
    build : Build
        Its wanted certainty.
    ledger : Ledger
        Its doubts, with the effort and half width of reading each again.
    found : Outcome
        Of that build.
    """
    if found.taught is not None:
        return ()  # after a test fit the doubts hang together: another probe says more than a tape
    rows = [again for place in unsettled(found) for again in _of_gap(build, ledger, found, place)]
    rows.sort(key=lambda a: (-_saving(a), -_risk(a), a.factor.key))
    best: dict[str, Again] = {}
    for again in rows:
        best.setdefault(again.factor.key, again)
    return tuple(best.values())[:MOST]


def _of_gap(build: Build, ledger: Ledger, found: Outcome, place: int) -> list[Again]:
    """Return the worth of the readings that matter most to one gap."""
    one, margin = found.gaps[place], found.draws.margins[:, place]
    stands = np.isfinite(margin)
    rows = []
    for key, share in one.shares[:MOST_READINGS]:
        column = ledger.index(key)
        factor = ledger.factors[column]
        widest = max(factor.doubt.plus, factor.doubt.minus)
        if factor.minutes <= 0 or widest <= 0 or share < FEWEST_SHARE:
            continue
        worth = re_measure(
            found.draws.prior[stands, column, None],
            margin[stands],
            0,
            factor.again / widest,
            build.wanted.certainty.value,
        )
        rows.append(Again(factor, one.gap.name, share, worth))
    return rows


def _saving(again: Again) -> float:
    """Return the cut expected to be saved [mm] for each minute; 0 where no cut is asked for."""
    return max(0.0, again.worth.cut_before - again.worth.cut_after) / again.factor.minutes


def _risk(again: Again) -> float:
    """Return the part of the gap's remaining risk that the factor explains, for each minute."""
    return again.share * (1.0 - again.worth.today) / again.factor.minutes
