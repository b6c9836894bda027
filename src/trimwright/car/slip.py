"""Readings of the tunnel that do not fit: along the car, across it, and by a second way."""

from typing import Final

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.car.half_width import ALIKE, Widths, across_rows, along_rows, opposite, roughness
from trimwright.chance import Adjustment, adjust

Floats = NDArray[np.float64]

FALSE_ALARM: Final = 1e-4  # chance that one given good reading is named
WHOLE_CAR: Final = 0.008  # chance that any reading of a good car is named
MOST: Final = 4  # slips looked for in one car, one after the other
FREE: Final = 1e6  # mm: sigma of a reading that has been named and is no longer believed
LOPSIDED: Final = 8.0  # mm: left less right, beyond what a gauge off the middle does
SWAP: Final = 4.0  # how much better, in sums of squares, a swap must explain two readings
LEAST: Final = 1e-4  # share of a reading that the others check: below it, none is named
AS_LIKELY: Final = 0.99  # of the largest standardised residual: beyond it, two cannot be told apart


class Tie(Struct, frozen=True, eq=False):
    """A second way to a figure: what it reads more than the readings make it, `miss` [mm].

    `row` (m,): how the figure they make follows them. `key` is empty for what nobody read, such
    as how far a tunnel may bend; such a tie is weighed in and never named.
    """

    key: str
    words: str
    row: Floats
    reads_mm: float
    miss: float
    sigma: float


class Slip(Struct, frozen=True):
    """A reading that does not fit: its number, how far it is off (read less likely) [mm].

    Ties are numbered after the readings. `w`: standardised residual. `instead`: readings that
    would explain it as well, with their slips. `partner`: the reading it looks swapped with.
    """

    reading: int
    slip_mm: float
    w: float
    instead: tuple[tuple[int, float], ...] = ()
    partner: int | None = None


class SlipSearch(Struct, frozen=True):
    """What was found; `detectable` [mm] per reading, infinite where nothing checks it."""

    slips: tuple[Slip, ...]
    critical: float
    detectable: tuple[float, ...]


def slips(w: Widths, ties: tuple[Tie, ...] = ()) -> SlipSearch:
    """Return the readings that do not fit the others, worst first.

    Readings are adjusted by least squares against three kinds of comparison: along the car with
    the sections on both sides, left against right down a section, and every second way to a
    figure. The reading with the largest standardised residual is named, no longer believed, and
    the rest tried again.

    Parameters
    ----------
    w : Widths
    ties : tuple of Tie
        Girths, diagonals, heights.

    References
    ----------
    baarda-1968, applied one slip at a time.
    """
    design, observed, sigma, tested = _equations(w, ties)
    level = min(FALSE_ALARM, WHOLE_CAR / max(int(tested.sum()), 1))
    found: list[Slip] = []
    detectable: tuple[float, ...] = ()
    critical = 0.0
    for _ in range(MOST):
        fit = adjust(design, observed, sigma, level)
        detectable, critical = detectable or fit.detectable, fit.critical
        one = _worst(fit, tested & (sigma < FREE))
        if one is None:
            break
        sigma[one.reading] = FREE
        found.append(one)
    return SlipSearch(_paired(w, found), critical, detectable[: len(w.sigma)])


def _worst(fit: Adjustment, tested: NDArray[np.bool_]) -> Slip | None:
    """Return what fits least, of those that cannot be told apart the one the least slip explains."""
    redundancy = np.array(fit.redundancy)
    scores = np.where(tested & (redundancy > LEAST), np.abs(np.array(fit.w)), 0.0)
    if scores.max() <= fit.critical:
        return None
    alike = np.flatnonzero(scores >= AS_LIKELY * scores.max())
    named = int(alike[np.argmax(redundancy[alike].round(9))])
    sizes = {int(one): float(fit.residuals[one] / redundancy[one]) for one in alike}
    instead = tuple((one, size) for one, size in sizes.items() if one != named)
    return Slip(named, sizes[named], float(fit.w[named]), instead)


def _equations(
    w: Widths, ties: tuple[Tie, ...]
) -> tuple[Floats, Floats, Floats, NDArray[np.bool_]]:
    """Return design, observed and sigma of readings, ties and comparisons; which may be named.

    The unknowns are how far the readings are really off what is written, then how each station
    may bend.
    """
    count = len(w.sigma)
    along, shape = along_rows(w)
    across = across_rows(w)
    none = np.zeros((len(across), shape.shape[1]))
    blocks = [(np.eye(count), np.zeros(count), w.sigma)]
    blocks += [(tie.row[None], np.array([tie.miss]), np.array([tie.sigma])) for tie in ties]
    for rows, bend in ((along, shape), (across, none)):
        rough = np.full(len(rows), roughness(rows, bend, w))
        blocks.append((rows @ w.share, -rows @ w.value, rough))
    design, observed, sigma = (np.concatenate([one[k] for one in blocks]) for k in range(3))
    extra = np.zeros((len(design), shape.shape[1]))
    after = count + len(ties)
    extra[after : after + len(along)] = shape
    tested = np.arange(len(observed)) < after
    tested[count:after] = [bool(tie.key) for tie in ties]
    return np.concatenate([design, extra], axis=1), observed, sigma, tested


def _paired(w: Widths, found: list[Slip]) -> tuple[Slip, ...]:
    """Return the slips, two of one row that each read what the other should as one swap."""
    pairs: list[Slip] = []
    used: set[int] = set()
    sideways = [_sideways(w, one) for one in found]
    for k, one in enumerate(found):
        if k in used:
            continue
        mine, paired = sideways[k], one
        for j in range(k + 1, len(found)):
            theirs = sideways[j]
            if mine and theirs and _swaps(w, mine, theirs):
                paired = Slip(mine[0], mine[2] * w.share[mine[1], mine[0]], one.w, (), theirs[0])
                used.add(j)
                break
        pairs.append(paired)
    return tuple(pairs)


def _sideways(w: Widths, slip: Slip) -> tuple[int, int, float] | None:
    """Return the reading of a half width that a slip may be in, its place, and the slip of it."""
    for reading, size in ((slip.reading, slip.slip_mm), *slip.instead):
        if reading >= len(w.sigma):
            continue
        places = np.flatnonzero(w.share[:, reading])
        if len(places) == 1 and abs(w.share[places[0], reading]) == 1.0:
            place = int(places[0])
            return reading, place, size * float(w.share[place, reading])
    return None


def _swaps(w: Widths, one: tuple[int, int, float], other: tuple[int, int, float]) -> bool:
    """Return whether exchanging two readings of a row explains most of what is off in both."""
    (_, a, mine), (_, b, theirs) = one, other
    row = w.station[a] == w.station[b] and abs(w.depth[a] - w.depth[b]) < ALIKE
    if not row or w.side[a] == w.side[b]:
        return False
    apart = float(w.value[a] - w.value[b])
    after = (mine - apart) ** 2 + (theirs + apart) ** 2
    return mine**2 + theirs**2 > SWAP * after


def swapped_stations(w: Widths) -> tuple[int, ...]:
    """Return the stations whose left and right, all of them, look exchanged.

    Such a station is as lopsided as its neighbours lead one to expect, to the other side. Only
    stations between two others can be told, and only where the tunnel is lopsided by far more
    than a gauge held off the middle.
    """
    lean = np.full(len(w.x), np.nan)
    for k in range(len(w.x)):
        lefts = np.flatnonzero((w.station == k) & (w.side < 0))
        overs = [(n, opposite(w, int(n))) for n in lefts]
        apart = [
            w.value[n] - sum(w.value[m] * part for m, part in over.items())
            for n, over in overs
            if over is not None
        ]
        if apart:
            lean[k] = float(np.mean(apart))
    found = []
    for k in range(1, len(w.x) - 1):
        share = (w.x[k] - w.x[k - 1]) / (w.x[k + 1] - w.x[k - 1])
        expected = (1 - share) * lean[k - 1] + share * lean[k + 1]
        as_read, turned = abs(lean[k] - expected), abs(lean[k] + expected)
        if as_read > LOPSIDED and turned < as_read / SWAP:
            found.append(k)
    return tuple(found)
