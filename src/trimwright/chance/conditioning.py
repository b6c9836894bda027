"""What a test fit teaches: every doubt updated at once by what was read."""

from collections.abc import Callable, Sequence
from typing import Literal

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.chance.truncated import truncated_normal, uniform_draws
from trimwright.quantities import normal_quantile

UNEXPLAINED = 3.3  # standardised surprise; one honest reading in a thousand exceeds 3.29
MOST_LIMITS = 10  # readings 'at least' or 'at most' at one test fit
READING = 2  # stream of the readings' errors

Floats = NDArray[np.float64]


class ProbeReading(Struct, frozen=True):
    """What a probe read at a test fit.

    `value` and its own standard deviation `sigma` in the unit of the prediction; `sense` says
    whether the figure is that, or only at least or at most that.

    Raises
    ------
    ValueError
        If `sigma` is not above 0: no reading is exact.
    """

    value: float
    sigma: float
    sense: Literal["is", "at least", "at most"] = "is"

    def __post_init__(self) -> None:
        """Refuse a reading without doubt."""
        if not self.sigma > 0:
            raise ValueError(f"sigma must be above 0, got {self.sigma:g}")


class Conditioned(Struct, frozen=True, eq=False):
    """The factors after a test fit.

    `scores`, shape (rows, factors): no longer independent nor of unit spread. `surprise`: how far
    each reading lies from what the build and the other exact readings lead one to expect, in
    standard deviations of that forecast; for 'at least' and 'at most' only on the wrong side.
    `unexplained`: index of the reading with the largest surprise, if beyond 3.3.
    """

    scores: Floats
    surprise: tuple[float, ...]
    unexplained: int | None


class _Line(Struct, frozen=True):
    """The predictions as a straight line in the scores: level + scores @ slopes, and its rest."""

    level: Floats
    slopes: Floats
    rest: Floats


def _line(scores: Floats, predicted: Floats) -> _Line:
    """Return the least-squares line of each prediction over all scores."""
    rows, factors = scores.shape
    if rows < 2 * (factors + 1):
        raise ValueError(f"scores must have at least {2 * (factors + 1)} rows, got {rows}")
    columns = np.column_stack([np.ones(rows), scores])
    found = np.asarray(np.linalg.lstsq(columns, predicted, rcond=None)[0], dtype=np.float64)
    rest = predicted - columns @ found
    return _Line(found[0], found[1:], np.asarray(rest.T @ rest / rows))


def _surprise(line: _Line, readings: Sequence[ProbeReading]) -> tuple[float, ...]:
    """Return each reading's residual against its forecast from all other exact readings."""
    values = np.array([reading.value for reading in readings])
    spread = _spread(line, readings)
    exact = [i for i, reading in enumerate(readings) if reading.sense == "is"]
    found = []
    for i, reading in enumerate(readings):
        others = [j for j in exact if j != i]
        gain = np.linalg.solve(spread[np.ix_(others, others)], spread[others, i])
        mean = line.level[i] + gain @ (values[others] - line.level[others])
        sigma = np.sqrt(spread[i, i] - gain @ spread[others, i])
        off = float((reading.value - mean) / sigma)
        side = {"is": off, "at least": max(0.0, off), "at most": min(0.0, off)}
        found.append(side[reading.sense])
    return tuple(found)


def _spread(line: _Line, readings: Sequence[ProbeReading]) -> Floats:
    """Return the covariance of what the probes would read: build, bend and their own doubt."""
    own = np.diag([reading.sigma**2 for reading in readings])
    return np.asarray(line.slopes.T @ line.slopes + line.rest + own)


def _read(spread: Floats, mean: Floats, readings: Sequence[ProbeReading], seed: int) -> Floats:
    """Return what each probe read exactly, drawn for every row where only a limit is known."""
    limits = np.array([reading.sense != "is" for reading in readings])
    values = np.array([reading.value for reading in readings])
    rows = mean.shape[0]
    found = np.tile(values, (rows, 1))
    if not limits.any():
        return found
    exact = ~limits
    gain = np.linalg.solve(spread[np.ix_(exact, exact)], spread[np.ix_(exact, limits)])
    left = spread[np.ix_(limits, limits)] - spread[np.ix_(limits, exact)] @ gain
    middle = mean[:, limits] + (values[exact] - mean[:, exact]) @ gain
    above = np.array([reading.sense == "at least" for reading in readings])[limits]
    found[:, limits] = truncated_normal(middle, left, values[limits], above, seed)
    return found


def condition(
    scores: Floats,
    predicted: Floats,
    readings: Sequence[ProbeReading],
    seed: int,
    evaluate: Callable[[Floats], Floats] | None = None,
) -> Conditioned:
    """Return the scores of all factors after the readings of a test fit.

    Every row is moved by Matheron's rule, z + K (y - (p(z) + e)), K the regression of the scores
    on what the probes would read, e their own errors, drawn. Readings known only as a limit are
    first drawn on their side of it by Gibbs sampling, given all others. Exact where predictions
    are linear in the scores; `evaluate` re-draws the line once round the updated rows where not.

    Parameters
    ----------
    scores : ndarray, shape (rows, factors)
        Independent standard normal scores, before the test fit.
    predicted : ndarray, shape (rows, probes)
        What the build predicts each probe to be, row by row.
    readings : sequence of ProbeReading
        One for each probe; at most 10 of them limits.
    seed : int
        Seed, 0 or above.
    evaluate : callable, optional
        Predictions, shape (rows, probes), for any scores: one Gauss-Newton step more.

    Returns
    -------
    Conditioned

    Raises
    ------
    ValueError
        If the shapes disagree, a prediction is not finite, rows are fewer than twice the
        factors, or limits more than 10.

    References
    ----------
    journel-huijbregts-1978, geweke-1991, emerick-reynolds-2013

    Examples
    --------
    >>> from trimwright.chance import sobol_scores
    >>> z = sobol_scores(2, seed=1)
    >>> found = condition(z, z[:, :1] + z[:, 1:], [ProbeReading(1.5, 1.0)], seed=1)
    >>> bool(np.allclose(found.scores.mean(axis=0), 0.5, atol=0.01)), found.unexplained
    (True, None)
    """
    rows, probes = scores.shape[0], len(readings)
    if predicted.shape != (rows, probes):
        raise ValueError(f"predicted must have shape {(rows, probes)}, got {predicted.shape}")
    if not np.isfinite(predicted).all():
        raise ValueError("predicted must be finite in every row, got one that is not")
    limits = sum(reading.sense != "is" for reading in readings)
    if limits > MOST_LIMITS:
        raise ValueError(f"readings must have at most {MOST_LIMITS} limits, got {limits}")
    if not probes:
        return Conditioned(_fixed(scores.copy()), (), None)
    line = _line(scores, predicted)
    surprise = _surprise(line, readings)
    new = _moved(scores, predicted, line, readings, seed)
    if evaluate is not None:
        there = evaluate(new)
        line = _line(new, there)
        new = _moved(scores, there + (scores - new) @ line.slopes, line, readings, seed)
    size = np.abs(surprise)
    worst = int(np.argmax(size))
    return Conditioned(_fixed(new), surprise, worst if size[worst] > UNEXPLAINED else None)


def _moved(
    scores: Floats, predicted: Floats, line: _Line, readings: Sequence[ProbeReading], seed: int
) -> Floats:
    """Return the rows moved by Matheron's rule."""
    rows = scores.shape[0]
    spread = _spread(line, readings)
    wanted = _read(spread, np.tile(line.level, (rows, 1)), readings, seed)
    errors = normal_quantile(uniform_draws(seed, READING, shape=predicted.shape))
    errors *= np.array([reading.sigma for reading in readings])
    gain = np.linalg.solve(spread, line.slopes.T)
    return np.asarray(scores + (wanted - predicted - errors) @ gain)


def _fixed(scores: Floats) -> Floats:
    """Return the rows, read-only."""
    scores.setflags(write=False)
    return scores
