"""What is worth doing before a lock: hours that each test would save against hours it takes."""

import numpy as np
from msgspec import Struct

from trimwright.cabin import Cabin
from trimwright.checks import measure_again
from trimwright.findings import LOCKS, Lock
from trimwright.fit import Again, GapOutcome, Outcome
from trimwright.quantities import (
    normal_both_below,
    normal_quantile,
    shown_hours,
    shown_sure,
)

IN_THE_CAR = "Try it in the car, bare."
READINGS_BEFORE: Lock = "wood is cut"  # a reading is worth most while nothing is sawn
WIRES_BEFORE: Lock = "carpet"  # no gap hangs on a wire
BARE_BEFORE: Lock = "covering"  # what is covered cannot be tried bare any more
FULL, NONE = 1 - 1e-9, 1e-9  # a reading that says all, or nothing, about a gap


class Test(Struct, frozen=True):
    """One test before a lock.

    Attributes
    ----------
    says : str
        What to do.
    place : str
        The place of the finding that tells of it; empty for trying it in the car.
    takes_h : float or None
        What it takes [h]; None where nobody wrote it.
    catches : float
        Chance that it catches a gap that fails and that no finding tells of yet.
    saves_h : float or None
        Hours of doing it again that it saves on average; None where nobody wrote those.
    why : str
        Where that comes from, in one sentence.
    """

    __test__ = False  # of the trade's tests, none of ours

    says: str
    place: str
    takes_h: float | None
    catches: float
    saves_h: float | None
    why: str


def redoing_h(cabin: Cabin, lock: Lock) -> float | None:
    """Return what doing it again takes after a lock [h]; None where nobody wrote it."""
    hours = cabin.build.hours
    found = None if hours is None else hours.redoing(lock)
    return None if found is None else found.value


def worth_before(cabin: Cabin, lock: Lock) -> tuple[Test, ...]:
    """Return the tests that are worth doing before a lock, the most hours saved first.

    What a test saves is the chance that it catches a failure, times the hours of doing it again
    after the lock. Only a failure that no finding tells of yet counts: of a gap that is known to
    be short the findings say so for nothing. Where nobody wrote the hours, the order is that of
    what each test decides.
    """
    outcome, locked = cabin.outcome, cabin.build.locks
    if outcome is None or lock in locked or lock == WIRES_BEFORE:
        return ()
    redoing, found = redoing_h(cabin, lock), []
    if LOCKS.index(lock) >= LOCKS.index(BARE_BEFORE) and BARE_BEFORE not in locked:
        found += _in_the_car(cabin, outcome, redoing)
    if READINGS_BEFORE not in locked:
        findings = zip(measure_again.findings(cabin), cabin.again, strict=True)
        found += [_again(cabin, says.says, one, redoing) for says, one in findings]
    return tuple(sorted(found, key=lambda one: -(one.saves_h or 0.0)))


def caught(today: float, wanted: float, explained: float) -> float:
    """Return the chance that a gap fails and that one reading shows it, all taken as normal.

    The reading shows it where it leaves the gap less sure than wanted, so that a finding says so.

    Parameters
    ----------
    today, wanted : float
        How sure the gap is, and is to be; above 0 and below 1.
    explained : float
        Part of the gap's variance that the reading takes away, from 0 to 1.

    Returns
    -------
    float
        0 where the gap is less sure than wanted today: that is told already.

    Examples
    --------
    >>> round(caught(0.97, 0.95, 1.0), 3), caught(0.97, 0.95, 0.0), caught(0.5, 0.95, 0.9)
    (0.03, 0.0, 0.0)
    """
    if today < wanted or today >= 1 or explained < NONE:
        return 0.0
    if explained > FULL:
        return 1 - today
    room, asked = (float(normal_quantile(p)) for p in (today, wanted))
    link = float(np.sqrt(explained))
    # with x the reading's score, the gap is then Phi((room + link x) / sqrt(1 - link^2)) sure
    shown_below = (asked * float(np.sqrt(1 - explained)) - room) / link
    return normal_both_below(-room, shown_below, link)


def caught_again(one: Again, wanted: float) -> float:
    """Return the chance that a reading taken again catches a failure of the gap it decides."""
    doubt = one.factor.doubt
    ratio = one.factor.again / max(doubt.plus, doubt.minus)
    # the new reading joins the old: 1 / (1 + ratio^2) of the doubt's variance is forecast to go
    return caught(one.worth.today, wanted, min(one.share, 1.0) / (1 + ratio**2))


def missed(outcome: Outcome) -> float:
    """Return the chance that a gap fails that is as sure today as wanted."""
    trusted = [place for place, one in enumerate(outcome.gaps) if _trusted(one, outcome.wanted)]
    return float(np.mean(~(outcome.draws.margins[:, trusted] >= 0).all(axis=1)))


def _trusted(one: GapOutcome, wanted: float) -> bool:
    """Return whether a gap counts by itself and no finding calls it short."""
    return not one.gap.part_of and one.sure.value >= wanted


def _in_the_car(cabin: Cabin, outcome: Outcome, redoing: float | None) -> list[Test]:
    """Return trying it in the car, if there is a gap to try."""
    if not outcome.gaps:
        return []
    hours, chance = cabin.build.hours, missed(outcome)
    takes = None if hours is None or hours.test_fit is None else hours.test_fit.value
    why = f"Chance that a gap fails which is found good today: {shown_sure(chance)}."
    if not any(_trusted(one, outcome.wanted) for one in outcome.gaps):
        why = "No gap is found good today: what is found short needs no test to be mended."
    return [Test(IN_THE_CAR, "", takes, chance, _saved(chance, redoing), why)]


def _again(cabin: Cabin, says: str, one: Again, redoing: float | None) -> Test:
    """Return taking one reading again."""
    factor, wanted = one.factor, cabin.build.wanted.certainty.value
    chance = caught_again(one, wanted)
    why = f"Chance that {one.gap} fails and that this shows it: {shown_sure(chance)}."
    if one.worth.today < wanted:
        why = f"Of {one.gap} a finding tells already: mending that needs no reading."
    return Test(says, factor.says, factor.minutes / 60, chance, _saved(chance, redoing), why)


def _saved(chance: float, redoing: float | None) -> float | None:
    """Return the hours saved on average."""
    return None if redoing is None else chance * redoing


def hours_told(value_h: float | None) -> str:
    """Return hours in words; nothing where nobody wrote them."""
    return "" if value_h is None else shown_hours(value_h)
