"""The least cuts that make all gaps clear together with the wanted certainty."""

from itertools import combinations

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright.chance.sweep import clear_intervals, fullest_place, smallest_place
from trimwright.chance.trade import TOUCH_MM, Trade

STEPS = 300  # of the descent that looks for a place where most rows clear
PASSES = 12  # rounds of trades at most
LEVELS = (33, 9, 9)  # amounts tried in a trade: over all a cut may take, then closer in, twice
GAIN = 1e-3  # trades stop when a round saves less than this share of the cost
POLISHED = 2  # starts followed to the end

Floats = NDArray[np.float64]


class LeastCut(Struct, frozen=True):
    """Cuts that reach the wanted certainty.

    `amounts` [mm], one for each cut asked about; `reached` the share of rows that clear with
    them; `at_bound` the cuts used up to the most they may take; `cost` amounts times costs.
    """

    amounts: tuple[float, ...]
    reached: float
    at_bound: tuple[int, ...]
    cost: float


class Unreachable(Struct, frozen=True):
    """No cuts within their bounds were found to reach the certainty: the best found [mm]."""

    best: tuple[float, ...]
    reached: float


class _Task(Struct, frozen=True):
    """The inputs of one search, margins with the rows last; `needed` rows have to clear."""

    margins: Floats
    effects: Floats
    costs: Floats
    most: Floats
    needed: int

    def narrowed(self) -> "_Task":
        """Return the search over the gaps alone that may be short, whatever is cut."""
        cost = np.minimum(self.effects * self.most, 0.0).sum(axis=1)
        may = ~np.all(self.margins >= -cost[:, None], axis=1)
        return replace(self, margins=self.margins[may], effects=self.effects[may])

    def shifted(self, amounts: Floats) -> Floats:
        """Return the margins with these cuts made."""
        return np.asarray(self.margins + (self.effects @ amounts)[:, None])

    def clearing(self, amounts: Floats) -> int:
        """Return how many rows clear with these cuts made."""
        return int(np.count_nonzero(self.shifted(amounts).min(axis=0) >= -TOUCH_MM))

    def along(self, amounts: Floats, cut: int) -> tuple[Floats, Floats]:
        """Return between which amounts of one cut each row clears, the others as they are."""
        others = amounts.copy()
        others[cut] = 0.0
        margins = self.shifted(others)
        margins[(margins < 0) & (margins > -TOUCH_MM)] = 0.0
        return clear_intervals(margins, self.effects[:, cut])


def _settled(task: _Task, amounts: Floats, order: list[int]) -> Floats | None:
    """Return the amounts with each cut in turn made as small as it can be; None if one fails."""
    now = amounts.copy()
    for cut in order:
        place = smallest_place(*task.along(now, cut), task.needed, float(task.most[cut]))
        if place is None:
            return None
        now[cut] = place
    return now


def _hopeful(task: _Task) -> Floats:
    """Return the amounts with the least sum of squared shortfalls: a convex problem.

    Accelerated projected gradient from no cuts at all; most rows clear at its end if they can.
    """
    able = task.margins[:, np.isfinite(task.margins).all(axis=0)]
    rows = max(able.shape[1], 1)
    step = 1 / max(float(np.linalg.norm(task.effects, 2)) ** 2, TOUCH_MM)
    now = ahead = np.zeros_like(task.most)
    shifted = np.empty_like(able)
    for k in range(STEPS):
        np.add(able, (task.effects @ ahead)[:, None], out=shifted)
        short = np.minimum(shifted, 0.0, out=shifted).sum(axis=1) / rows
        new = np.minimum(np.maximum(ahead - step * (short @ task.effects), 0.0), task.most)
        ahead = new + k / (k + 3) * (new - now)
        now = new
    return now


def _fullest(task: _Task, amounts: Floats) -> Floats:
    """Return amounts where no single cut changed makes more rows clear."""
    now, count = amounts.copy(), task.clearing(amounts)
    for _ in range(PASSES):
        for cut in range(now.size):
            now[cut] = fullest_place(*task.along(now, cut), float(task.most[cut]))
        better = task.clearing(now)
        if better <= count:
            break
        count = better
    return now


def _feasible(task: _Task) -> tuple[list[Floats], Floats]:
    """Return amounts that reach the certainty, from several starts, and the fullest found."""
    hopeful = _hopeful(task)
    # on from there towards every cut at its most: rows that clear late may still be won
    way = clear_intervals(task.shifted(hopeful), task.effects @ (task.most - hopeful))
    onward = hopeful + fullest_place(*way, 1.0) * (task.most - hopeful)
    starts = [hopeful, onward, task.most, np.zeros_like(task.most)]
    ends = [_fullest(task, start) for start in starts]
    every = [*starts, *ends]
    found = [amounts for amounts in every if task.clearing(amounts) >= task.needed]
    return found, max(every, key=task.clearing)


def _traded(task: _Task, amounts: Floats, one: int, other: int) -> Floats:
    """Return the cheapest amounts over levels of one cut, another settled exactly at each."""
    rest = amounts.copy()
    rest[[one, other]] = 0.0
    spent = task.costs @ (amounts - rest)  # dearer than now is of no use
    cheaper = np.minimum(task.most, spent / np.maximum(task.costs, TOUCH_MM))
    bounds = float(cheaper[one]), float(cheaper[other])
    trade = Trade.of(task.shifted(rest), task.effects[:, one], task.effects[:, other], bounds)
    best, low, high = amounts, 0.0, float(task.most[one])
    for levels in LEVELS:
        for level in trade.open(np.linspace(low, high, levels), task.needed).tolist():
            tried = rest.copy()
            tried[one] = level
            saved = float(task.costs @ (best - tried))
            if saved <= TOUCH_MM:
                break  # dearer already, and the levels rise
            within = saved / max(float(task.costs[other]), TOUCH_MM)
            place = trade.least(level, task.needed, min(bounds[1], within))
            if place is not None and saved - place * task.costs[other] > TOUCH_MM:
                tried[other] = place
                best = tried
        span = (high - low) / (levels - 1)
        low, high = max(0.0, best[one] - span), min(float(task.most[one]), best[one] + span)
    return best


def _polished(task: _Task, amounts: Floats) -> Floats:
    """Return amounts that no trade between two cuts makes noticeably cheaper."""
    order = sorted(range(amounts.size), key=lambda cut: -float(task.costs[cut]))
    settled = _settled(task, amounts, order)
    now = amounts if settled is None else settled  # None: rounding at the edge of the certainty
    for _ in range(PASSES):
        before = float(task.costs @ now)
        for one, other in combinations(range(amounts.size), 2):
            now = _traded(task, now, one, other)
        settled = _settled(task, now, order)
        now = now if settled is None else settled
        if before - float(task.costs @ now) <= GAIN * before:
            break
    return now


def least_shift(
    margins: Floats, effects: Floats, costs: Floats, most: Floats, wanted: float
) -> LeastCut | Unreachable:
    """Return the cheapest cuts that make all gaps clear together with the wanted certainty.

    Exact over the rows for one cut. For several, rows are clear or not, so the problem is not
    convex: from the two cheapest of up to eight starts, each cut is settled exactly with the
    others held, then pairs of cuts are traded, one over levels down to about 1/2000 of its most,
    the other settled exactly, until a round saves less than 0.1 %. The result reaches the
    certainty; it is not proved cheapest.

    Parameters
    ----------
    margins : ndarray, shape (rows, gaps)
        Gap less what is wanted of it [mm]; 0 or more clears. Minus infinity, or not a number, is
        a row that no cut helps.
    effects : ndarray, shape (gaps, cuts)
        What each gap gains for 1 mm of each cut; negative where a cut costs a gap.
    costs : ndarray, shape (cuts,)
        Cost of 1 mm of each cut, 0 or more.
    most : ndarray, shape (cuts,)
        The most each may take [mm], 0 or more.
    wanted : float
        Share of the rows in which all gaps have to clear, above 0 and up to 1.

    Raises
    ------
    ValueError
        If shapes disagree or an argument is out of range.

    References
    ----------
    beck-teboulle-2009 (the descent that looks for a start)

    Examples
    --------
    >>> margins = np.array([[-2.0], [-1.0], [0.5], [1.0]])
    >>> one = np.ones(1)
    >>> least_shift(margins, np.ones((1, 1)), one, 5 * one, 0.75).amounts
    (1.0,)
    """
    _refuse(margins, effects, costs, most)
    rows, cuts = margins.shape[0], costs.size
    if not 0 < wanted <= 1:
        raise ValueError(f"wanted must be above 0 and up to 1, got {wanted:g}")
    needed = int(np.ceil(wanted * rows - TOUCH_MM))
    task = _Task(np.ascontiguousarray(margins.T), effects, costs, most, needed)
    nothing = np.zeros(cuts)
    if task.clearing(nothing) >= needed:
        return _least(task, nothing)
    task = task.narrowed()
    if cuts == 1:
        settled = _settled(task, nothing, [0])
        best = nothing if settled is not None else _fullest(task, nothing)
        found = [settled] if settled is not None else []
    else:
        found, best = _feasible(task)
        found.sort(key=lambda amounts: (float(costs @ amounts), _tuple(amounts)))
        found = [_polished(task, amounts) for amounts in found[:POLISHED]]
    if not found:
        return Unreachable(_tuple(best), task.clearing(best) / rows)
    return _least(task, min(found, key=lambda amounts: (float(costs @ amounts), _tuple(amounts))))


def _refuse(margins: Floats, effects: Floats, costs: Floats, most: Floats) -> None:
    """Raise for arrays that do not belong together."""
    gaps = margins.shape[1] if margins.ndim == 2 else -1  # noqa: PLR2004  rows x gaps
    if effects.shape != (gaps, costs.size) or most.shape != costs.shape or not margins.size:
        raise ValueError(
            "margins, effects, costs, most must be (rows, gaps), (gaps, cuts), (cuts,), (cuts,),"
            f" got {margins.shape}, {effects.shape}, {costs.shape}, {most.shape}"
        )
    if np.any(costs < 0) or np.any(most < 0):
        raise ValueError(f"costs and most must be 0 or more, got {costs} and {most}")


def _tuple(amounts: Floats) -> tuple[float, ...]:
    """Return the amounts as plain numbers."""
    return tuple(float(amount) for amount in amounts)


def _least(task: _Task, amounts: Floats) -> LeastCut:
    """Return the result for amounts that reach the certainty."""
    used = (amounts > 0) & (amounts >= task.most - TOUCH_MM)
    reached = task.clearing(amounts) / task.margins.shape[1]
    bound = tuple(int(cut) for cut in np.flatnonzero(used))
    return LeastCut(_tuple(amounts), reached, bound, float(task.costs @ amounts))
