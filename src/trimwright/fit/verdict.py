"""How sure each gap is, and all of them together."""

from collections.abc import Callable

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.chance import Estimate, Ledger, certainty, shares, sobol_scores
from trimwright.fit.gap import Gap, Unknown
from trimwright.fit.model import GapModel, GapTable
from trimwright.fit.probing import Taught, models_as_read, taught
from trimwright.fit.worst import worst_case

Floats = NDArray[np.float64]
Point = tuple[float, float, float]
ModelOf = Callable[[Build], GapModel]
SCRAMBLES, EACH, MOST_EACH = 8, 256, 2048
STANDARD_ERROR = 0.004  # of the joint certainty, at which drawing stops
SHARE_DEGREE = 2  # of the regression that shares out the spread
FEWEST_SHARE = 0.02  # a doubt with a smaller part in the spread is not worth naming


class GapOutcome(Struct, frozen=True):
    """One gap over all doubts [mm].

    `sure` is the certainty that the wanted gap is kept, `clear` that the bodies do not touch;
    `low` and `high` are the 5 % and 95 % figures; `worst` has every doubt at its end against it;
    `shares` names the keys of the doubts the spread comes from, largest first.
    """

    gap: Gap
    nominal: float
    worst: float
    low: float
    high: float
    sure: Estimate
    clear: Estimate
    shares: tuple[tuple[str, float], ...]
    at: Point | None
    on: Point | None

    @property
    def margin(self) -> float:
        """Return what the figure has to spare over the wanted gap [mm], negative when short."""
        short_by = self.gap.wanted - self.nominal
        return -short_by if self.gap.sense == "at least" else short_by


class Draws(Struct, frozen=True):
    """The rows everything is judged on; `prior` are the scores before any test fit."""

    scores: Floats
    prior: Floats
    table: GapTable
    margins: Floats


class Outcome(Struct, frozen=True, eq=False):
    """Each gap, all of them together, what could not be evaluated, what a test fit taught.

    `tips`, `lifts` and `full` are the shares of draws in which the console tips, an edge lifts
    off the carpet, or the carpet is squeezed flat.
    """

    gaps: tuple[GapOutcome, ...]
    unknown: tuple[Unknown, ...]
    joint: Estimate | None
    wanted: float
    tips: float
    lifts: float
    full: float
    taught: Taught | None
    draws: Draws


def outcome(build: Build, ledger: Ledger, model_of: ModelOf) -> Outcome:
    """Return how the fit comes out over all doubts.

    Draws 8 independent scrambles of 256 Sobol points, and doubles them until the standard error
    of the joint certainty is at most 0.004 or each scramble holds 2048.

    Parameters
    ----------
    build : Build
        With a console.
    ledger : Ledger
        Its doubts.
    model_of : callable
        Gives the gap model of a build; called for the build as it is and, for a test fit, bare
        and cut as it was when each reading was taken.

    References
    ----------
    JCGM 101:2008 clause 7 (propagation by draws), 7.9 (adaptive number of draws)
    """
    model = model_of(build)
    bares = models_as_read(build, model_of)
    each, draws = EACH, None
    while True:
        draws, learned = _drawn(build, model, bares, each, draws)
        joint = certainty(kept(draws.margins, model.gaps), SCRAMBLES)
        if joint.error <= STANDARD_ERROR or each >= MOST_EACH:
            break
        each *= 2
    table = draws.table
    return Outcome(
        _gap_outcomes(model, ledger, draws),
        model.unknown,
        joint if model.gaps else None,
        build.wanted.certainty.value,
        float(np.mean(table.tips)),
        float(np.mean(table.lifts)),
        float(np.mean(table.full)),
        learned,
        draws,
    )


def kept(margins: Floats, gaps: tuple[Gap, ...]) -> NDArray[np.bool_]:
    """Return the rows in which every gap is kept; places to probe count in their whole."""
    counted = [place for place, gap in enumerate(gaps) if not gap.part_of]
    if not counted:
        return np.zeros(len(margins), dtype=bool)  # nothing evaluated is nothing kept
    return np.asarray((margins[:, counted] >= 0).all(axis=1))


def _drawn(
    build: Build, model: GapModel, bares: tuple[GapModel, ...], each: int, before: Draws | None
) -> tuple[Draws, Taught | None]:
    """Return the evaluated rows, taught by the test fit where there is one.

    `before` are the rows of half as many draws: without a test fit they are the first half of
    each scramble, and only the second is evaluated.
    """
    prior = sobol_scores(len(model.ledger), scrambles=SCRAMBLES, each=each, seed=build.seed)
    if bares:
        scores, learned = taught(build, bares, prior, build.seed)
        table = model.evaluate(scores)
        return Draws(scores, prior, table, table.margins(model.gaps)), learned
    if before is None:
        table = model.evaluate(prior)
    else:
        fresh = prior.reshape(SCRAMBLES, each, -1)[:, each // 2 :]
        second = model.evaluate(fresh.reshape(-1, prior.shape[1]))
        table = before.table.followed_by(second, SCRAMBLES)
    return Draws(prior, prior, table, table.margins(model.gaps)), None


def _gap_outcomes(model: GapModel, ledger: Ledger, draws: Draws) -> tuple[GapOutcome, ...]:
    """Return the outcome of every gap, in the model's order."""
    if not model.gaps:
        return ()
    nominal = model.nominal()
    worst, parts = worst_case(model, ledger), _shares(model, draws)
    return tuple(
        _gap_outcome(gap, place, draws, nominal, (worst[place], _named(parts[:, place], ledger)))
        for place, gap in enumerate(model.gaps)
    )


def _shares(model: GapModel, draws: Draws) -> Floats:
    """Return each factor's share in each gap's spread before any test fit, (factors, gaps)."""
    prior_rows = draws.scores is draws.prior
    values = draws.table.values if prior_rows else model.evaluate(draws.prior).values
    stands = np.isfinite(values).all(axis=1)
    factors = draws.prior.shape[1]
    if np.count_nonzero(stands) < 2 * (SHARE_DEGREE * factors + 1):
        return np.zeros((factors, values.shape[1]))  # it tips nearly always: no spread to share
    return np.asarray(shares(draws.prior[stands], values[stands], SHARE_DEGREE))


def _named(parts: Floats, ledger: Ledger) -> tuple[tuple[str, float], ...]:
    """Return the keys of the factors that matter with their shares, largest first."""
    found = [(f.key, float(part)) for f, part in zip(ledger.factors, parts, strict=True)]
    return tuple(
        sorted((one for one in found if one[1] >= FEWEST_SHARE), key=lambda one: (-one[1], one[0]))
    )


def _gap_outcome(
    gap: Gap,
    place: int,
    draws: Draws,
    nominal: GapTable,
    ends: tuple[float, tuple[tuple[str, float], ...]],
) -> GapOutcome:
    """Return one gap's figures from the rows."""
    values, margins = draws.table.values[:, place], draws.margins[:, place]
    stands = np.isfinite(values)
    low, high = np.quantile(values[stands], [0.05, 0.95]) if stands.any() else (np.nan, np.nan)
    worst = gap.wanted + ends[0] if gap.sense == "at least" else gap.wanted - ends[0]
    points = nominal.witness[place]
    return GapOutcome(
        gap,
        float(nominal.values[0, place]),
        float(worst),
        float(low),
        float(high),
        certainty(margins >= 0, SCRAMBLES),
        certainty(values > 0, SCRAMBLES),
        ends[1],
        *(points if points is not None else (None, None)),
    )
