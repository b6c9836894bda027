"""Half widths that do not fit their neighbours: along the car, across it, and the girth."""

from dataclasses import dataclass, field
from typing import Final

import numpy as np
from numpy.typing import NDArray

from trimwright.chance import adjust
from trimwright.quantities import normal_quantile

Floats = NDArray[np.float64]

FALSE_ALARM: Final = 1e-4  # chance that one given good reading is named
SMOOTH: Final = 0.4  # mm: no tunnel is taken to be smoother than this (sigma)
MOST: Final = 4  # slips looked for in one car, one after the other
OUTSIDE: Final = 1.1  # a row may lie so much deeper, by ratio, than its neighbours' rows
FREE: Final = 1e6  # mm: sigma of a reading that has been named and is no longer believed
LOPSIDED: Final = 8.0  # mm: left less right, beyond what a gauge off the middle does
SWAP: Final = 4.0  # how much better, in sums of squares, a swap must explain two readings


@dataclass(frozen=True, slots=True, eq=False)
class Widths:
    """Half widths as read, one entry a reading: (n,) each; rows of a station in any order.

    `station` numbers the section, `depth` [mm] below its top, `side` -1 left, +1 right.
    """

    x: Floats  # (k,) places of the stations
    station: NDArray[np.intp]
    depth: Floats
    side: NDArray[np.intp]
    value: Floats
    sigma: Floats

    def at(self, station: int, side: int, depth: float) -> dict[int, float] | None:
        """Return a half width at a depth as weights of readings; None where none brackets it.

        Straight in the root of the depth: a round top goes with it.
        """
        own = np.flatnonzero((self.station == station) & (self.side == side))
        if len(own) < 2:  # noqa: PLR2004  a bracket
            return None
        own = own[np.argsort(self.depth[own], kind="stable")]
        deep = self.depth[own]
        if not deep[0] / OUTSIDE <= depth <= deep[-1] * OUTSIDE:
            return None
        step = int(np.clip(np.searchsorted(deep, depth) - 1, 0, len(own) - 2))
        low, high = np.sqrt(deep[step]), np.sqrt(deep[step + 1])
        share = float((np.sqrt(depth) - low) / (high - low))
        return {int(own[step]): 1 - share, int(own[step + 1]): share}


@dataclass(frozen=True, slots=True)
class Slip:
    """A reading that does not fit: its number, how far it is off (read less likely) [mm].

    Girths are numbered after the half widths. `w`: standardised residual. `partner`: the reading it looks swapped with.
    """

    reading: int
    slip_mm: float
    w: float
    partner: int | None = None


@dataclass(frozen=True, slots=True)
class SlipSearch:
    """What was found; `detectable` [mm] per reading, infinite where nothing checks it."""

    slips: tuple[Slip, ...]
    critical: float
    detectable: tuple[float, ...] = field(repr=False)


def _row(count: int, *parts: tuple[dict[int, float], float]) -> Floats:
    row = np.zeros(count)
    for weights, times in parts:
        for index, share in weights.items():
            row[index] += times * share
    return row


def along_rows(w: Widths) -> tuple[Floats, Floats]:
    """Return, per checkable reading, itself less the straight line between its neighbours.

    The second array (m, 3 k) is what a real change of shape at a station may add: one figure for
    all its rows, one that grows with the root of the depth, one that sends both sides one way.
    """
    rows, shape = [], []
    for n in range(len(w.value)):
        k = int(w.station[n])
        if not 0 < k < len(w.x) - 1:
            continue
        ends = [w.at(j, int(w.side[n]), float(w.depth[n])) for j in (k - 1, k + 1)]
        if ends[0] is None or ends[1] is None:
            continue
        share = float((w.x[k] - w.x[k - 1]) / (w.x[k + 1] - w.x[k - 1]))
        rows.append(_row(len(w.value), ({n: 1.0}, 1.0), (ends[0], share - 1), (ends[1], -share)))
        bend = np.zeros((3, len(w.x)))
        bend[:, k] = -1.0, -np.sqrt(w.depth[n]) / 10, -float(w.side[n])
        shape.append(bend.reshape(-1))
    wide = 3 * len(w.x)
    return np.array(rows).reshape(-1, len(w.value)), np.array(shape).reshape(-1, wide)


def across_rows(w: Widths) -> Floats:
    """Return, per row, left less right, less the straight line between the rows beside it."""
    rows = []
    for k in range(len(w.x)):
        pairs: list[tuple[float, int, int]] = []
        for n in np.flatnonzero((w.station == k) & (w.side < 0)):
            same = (w.station == k) & (w.side > 0) & (w.depth == w.depth[n])
            pairs += [(float(w.depth[n]), int(n), int(m)) for m in np.flatnonzero(same)]
        pairs.sort()
        for above, here, below in zip(pairs[:-2], pairs[1:-1], pairs[2:], strict=True):
            share = (here[0] - above[0]) / (below[0] - above[0])
            differences = [{one[1]: 1.0, one[2]: -1.0} for one in (above, here, below)]
            rows.append(
                _row(
                    len(w.value),
                    (differences[1], 1.0),
                    (differences[0], share - 1),
                    (differences[2], -share),
                )
            )
    return np.array(rows).reshape(-1, len(w.value))


def roughness(rows: Floats, shape: Floats, value: Floats, sigma: Floats) -> float:
    """Return how rough the tunnel itself is in these comparisons (sigma) [mm].

    From their median absolute value, which a slip or two do not move, less the readings' share.
    """
    if not len(rows):
        return SMOOTH
    off = rows @ value
    if shape.any():
        off = off - shape @ np.linalg.lstsq(shape, off, rcond=None)[0]
    spread = float(np.median(np.abs(off))) / float(normal_quantile(0.75))
    own = float(np.median((rows**2) @ sigma**2))
    return float(np.sqrt(max(spread**2 - own, SMOOTH**2)))


def slips(w: Widths, girths: tuple[tuple[Floats, float, float], ...] = ()) -> SlipSearch:
    """Return the readings that do not fit the others, worst first.

    Readings are adjusted by least squares against three kinds of comparison: along the car with
    the sections on both sides, left against right down a section, and girths. The reading with
    the largest standardised residual is named, no longer believed, and the rest tried again.

    Parameters
    ----------
    w : Widths
    girths : tuple of (row, read, sigma)
        Tapes over a section: `row` (n,) of the readings predicts `read`, less its constant [mm].

    References
    ----------
    baarda-1968, applied one slip at a time.
    """
    design, observed, sigma = _equations(w, girths)
    tested = np.arange(len(observed)) < len(w.value)
    tested[len(observed) - len(girths) :] = True
    found: list[Slip] = []
    detectable: tuple[float, ...] = ()
    critical = 0.0
    for _ in range(MOST):
        fit = adjust(design, observed, sigma, FALSE_ALARM)
        detectable, critical = detectable or fit.detectable, fit.critical
        scores = np.where(tested & (sigma < FREE), np.abs(np.array(fit.w)), 0.0)
        worst = int(np.argmax(scores.round(9)))
        if scores[worst] <= critical:
            break
        sigma[worst] = FREE
        free = adjust(design, observed, sigma, FALSE_ALARM)
        number = worst if worst < len(w.value) else worst - len(observed) + len(girths)
        number += 0 if worst < len(w.value) else len(w.value)
        found.append(Slip(number, float(free.residuals[worst]), float(fit.w[worst])))
    return SlipSearch(_paired(w, found), critical, detectable[: len(w.value)])


def _equations(
    w: Widths, girths: tuple[tuple[Floats, float, float], ...]
) -> tuple[Floats, Floats, Floats]:
    """Return design, observed and sigma: readings, comparisons along and across, girths."""
    along, shape = along_rows(w)
    across = across_rows(w)
    none = np.zeros((len(across), shape.shape[1]))
    blocks = [
        (np.eye(len(w.value)), w.value, w.sigma),
        (
            along,
            np.zeros(len(along)),
            np.full(len(along), roughness(along, shape, w.value, w.sigma)),
        ),
        (
            across,
            np.zeros(len(across)),
            np.full(len(across), roughness(across, none, w.value, w.sigma)),
        ),
    ]
    blocks += [(row[None], np.array([read]), np.array([one])) for row, read, one in girths]
    design, observed, sigma = (np.concatenate([one[k] for one in blocks]) for k in range(3))
    extra = np.zeros((len(design), shape.shape[1]))
    extra[len(w.value) : len(w.value) + len(along)] = shape
    return np.concatenate([design, extra], axis=1), observed, sigma


def _paired(w: Widths, found: list[Slip]) -> tuple[Slip, ...]:
    """Return the slips, two of one row that each read what the other should as one swap."""
    pairs: list[Slip] = []
    used: set[int] = set()
    for k, one in enumerate(found):
        if k in used:
            continue
        if one.reading >= len(w.value):
            pairs.append(one)
            continue
        partner = None
        for j, other in enumerate(found[k + 1 :], start=k + 1):
            a, b = one.reading, other.reading
            if b >= len(w.value):
                continue
            same = w.station[a] == w.station[b] and w.depth[a] == w.depth[b]
            if same and w.side[a] != w.side[b] and _swaps(w, one, other):
                partner = b
                used.add(j)
                break
        pairs.append(Slip(one.reading, one.slip_mm, one.w, partner))
    return tuple(pairs)


def _swaps(w: Widths, one: Slip, other: Slip) -> bool:
    """Return whether exchanging two readings explains most of what is off in both."""
    apart = float(w.value[one.reading] - w.value[other.reading])
    before = one.slip_mm**2 + other.slip_mm**2
    after = (one.slip_mm - apart) ** 2 + (other.slip_mm + apart) ** 2
    return before > SWAP * after


def swapped_stations(w: Widths) -> tuple[int, ...]:
    """Return the stations whose left and right, all of them, look exchanged.

    Such a station is as lopsided as its neighbours lead one to expect, to the other side. Only
    stations between two others can be told, and only where the tunnel is lopsided by far more
    than a gauge held off the middle.
    """
    lean = np.full(len(w.x), np.nan)
    for k in range(len(w.x)):
        sides = [w.value[(w.station == k) & (w.side == side)] for side in (-1, 1)]
        if len(sides[0]) == len(sides[1]) > 0:
            lean[k] = float(np.mean(sides[0] - sides[1]))
    found = []
    for k in range(1, len(w.x) - 1):
        share = (w.x[k] - w.x[k - 1]) / (w.x[k + 1] - w.x[k - 1])
        expected = (1 - share) * lean[k - 1] + share * lean[k + 1]
        as_read, turned = abs(lean[k] - expected), abs(lean[k] + expected)
        if as_read > LOPSIDED and turned < as_read / SWAP:
            found.append(k)
    return tuple(found)
