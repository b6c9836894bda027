"""The worst case: all doubts at their 19-to-1 ends at once, whichever way hurts each gap most."""

import numpy as np
from numpy.typing import NDArray

from trimwright.chance import Ledger
from trimwright.fit.model import GapModel
from trimwright.quantities import Doubt, normal_cdf, normal_quantile

Floats = NDArray[np.float64]
FURTHEST_SCORE = 9.0  # a uniform doubt has all but reached its end here


def end_scores(ledger: Ledger) -> Floats:
    """Return the scores that put each factor at its lower and upper end, shape (2, factors).

    Examples
    --------
    >>> from trimwright.chance import Factor
    >>> one = Factor("a", "a", Doubt("normal", 2.0, 2.0), "reading", 1.0, 1.0)
    >>> end_scores(Ledger((one,))).round(6).tolist()
    [[-2.0], [2.0]]
    """
    ends = [[_score_at(f.doubt, sign) for f in ledger.factors] for sign in (-1, 1)]
    return np.array(ends, dtype=np.float64).reshape(2, len(ledger))


def _score_at(doubt: Doubt, sign: int) -> float:
    """Return the score at which a doubt's deviation is its end on one side."""
    if doubt.kind == "normal":
        return 2.0 * sign
    if doubt.kind == "uniform" or doubt.minus + doubt.plus == 0:
        return sign * FURTHEST_SCORE
    # a two-piece normal has 2 s/(s1+s2) Phi(-2) of its area beyond the end of the side of s
    half = doubt.plus if sign > 0 else doubt.minus
    beyond = 2 * half / (doubt.minus + doubt.plus) * float(normal_cdf(-2.0))
    return -sign * float(normal_quantile(beyond)) if beyond > 0 else sign * FURTHEST_SCORE


def worst_case(model: GapModel, ledger: Ledger) -> Floats:
    """Return each gap's margin [mm] when every doubt stands at its end against it, shape (gaps,).

    The side that hurts is found from one evaluation per factor and end; the gap is then evaluated
    once more with all of them together, so nothing is assumed linear but the choice of side.
    """
    ends, factors = end_scores(ledger), len(ledger)
    if not factors:
        return np.asarray(model.evaluate(np.zeros((1, 0))).margins(model.gaps)[0])
    single = np.zeros((2, factors, factors))
    single[0][np.diag_indices(factors)] = ends[0]
    single[1][np.diag_indices(factors)] = ends[1]
    margins = model.evaluate(single.reshape(-1, factors)).margins(model.gaps)
    low, high = margins.reshape(2, factors, -1)
    hurts = np.where(low < high, ends[0][:, None], ends[1][:, None])
    rows = np.where(np.isclose(low, high), 0.0, hurts).T
    together = model.evaluate(rows).margins(model.gaps)
    return np.asarray(np.diagonal(together))
