"""Half widths of the tunnel as read, and what they are compared with: along the car, across it."""

from typing import Final

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.quantities import normal_quantile

Floats = NDArray[np.float64]

SMOOTH: Final = 0.4  # mm: no tunnel is taken to be smoother than this (sigma)
OUTSIDE: Final = 1.1  # a row may lie so much deeper, by ratio, than its neighbours' rows
ALIKE: Final = 0.5  # mm of depth within which two places are one row


class Widths(Struct, frozen=True, eq=False):
    """Half widths as read, one entry a place: (n,) each; places of a station in any order.

    `station` numbers the section, `depth` [mm] below its top, `side` -1 left, +1 right. `share`
    (n, m): how far a half width, taken at its depth as written, grows for each mm of a reading;
    `sigma` (m,) of the readings. `weight`: what a mm of half width is square to the surface.
    """

    x: Floats  # (k,) places of the stations
    station: NDArray[np.intp]
    depth: Floats
    side: NDArray[np.intp]
    value: Floats
    share: Floats
    sigma: Floats
    weight: Floats

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
        share = 0.5 if high == low else float((np.sqrt(depth) - low) / (high - low))
        return {int(own[step]): 1 - share, int(own[step + 1]): share}


def _row(count: int, *parts: tuple[dict[int, float], float]) -> Floats:
    row = np.zeros(count)
    for weights, times in parts:
        for index, share in weights.items():
            row[index] += times * share
    return row


def along_rows(w: Widths) -> tuple[Floats, Floats]:
    """Return, per checkable place, itself less the straight line between its neighbours.

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
        row = _row(len(w.value), ({n: 1.0}, 1.0), (ends[0], share - 1), (ends[1], -share))
        bend = np.zeros((3, len(w.x)))
        bend[:, k] = -1.0, -np.sqrt(w.depth[n]) / 10, -float(w.side[n])
        rows.append(w.weight[n] * row)
        shape.append(w.weight[n] * bend.reshape(-1))
    wide = 3 * len(w.x)
    return np.array(rows).reshape(-1, len(w.value)), np.array(shape).reshape(-1, wide)


def opposite(w: Widths, place: int) -> dict[int, float] | None:
    """Return the half width across from a place as weights; None where there is none."""
    side = -int(w.side[place])
    own = np.flatnonzero((w.station == w.station[place]) & (w.side == side))
    same = own[np.abs(w.depth[own] - w.depth[place]) < ALIKE]
    if len(same):
        return {int(same[0]): 1.0}
    return w.at(int(w.station[place]), side, float(w.depth[place]))


def across_rows(w: Widths) -> Floats:
    """Return, per row, left less right, less the straight line between the rows beside it."""
    rows = []
    for k in range(len(w.x)):
        pairs: list[tuple[float, int, Floats]] = []
        for n in np.flatnonzero((w.station == k) & (w.side < 0)):
            over = opposite(w, int(n))
            if over is not None:
                apart = _row(len(w.value), ({int(n): 1.0}, 1.0), (over, -1.0))
                pairs.append((float(w.depth[n]), int(n), apart))
        pairs.sort(key=lambda one: one[:2])
        for above, here, below in zip(pairs[:-2], pairs[1:-1], pairs[2:], strict=True):
            deep = below[0] - above[0]
            share = (here[0] - above[0]) / deep if deep > 0 else 0.5
            row = here[2] + (share - 1) * above[2] - share * below[2]
            rows.append(w.weight[here[1]] * row)
    return np.array(rows).reshape(-1, len(w.value))


def roughness(rows: Floats, shape: Floats, w: Widths) -> float:
    """Return how rough the tunnel itself is in these comparisons (sigma) [mm].

    From their median absolute value, which a slip or two do not move, less the readings' share.
    """
    if not len(rows):
        return SMOOTH
    off = rows @ w.value
    if shape.any():
        off = off - shape @ np.linalg.lstsq(shape, off, rcond=None)[0]
    spread = float(np.median(np.abs(off))) / float(normal_quantile(0.75))
    own = float(np.median(((rows @ w.share) ** 2) @ w.sigma**2))
    return float(np.sqrt(max(spread**2 - own, SMOOTH**2)))
