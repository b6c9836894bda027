"""A smooth curve through the points of one section, for many variants of them at once."""

from itertools import pairwise
from typing import Self

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

Floats = NDArray[np.float64]

FLATTEST = 0.2  # an end that runs flatter than this (dz/ds) is carried on straight down instead
NEWTON = 5  # steps from a grid of DENSE to a foot: to 1e-9 mm where the curve is smooth
DENSE = 200  # points along a curve for its length; on a 150 mm half round it is 1e-5 short


def hermite(
    width: Floats, ends: tuple[Floats, Floats], slopes: tuple[Floats, Floats], t: Floats
) -> tuple[Floats, Floats]:
    """Return value and slope of a cubic at `t` (0..1) of a step `width` long."""
    (p0, p1), (d0, d1) = ends, slopes
    rise = (p1 - p0) / width
    c2 = 3 * rise - 2 * d0 - d1  # times width: the quadratic coefficient
    c3 = d0 + d1 - 2 * rise
    value = p0 + width * t * (d0 + t * (c2 + t * c3))
    return value, d0 + t * (2 * c2 + 3 * t * c3)


def spline_slopes(s: Floats, points: Floats) -> Floats:
    """Return the slopes at the knots of C2 cubics, `s` (b, n) and `points` (b, n, d).

    Ends are not-a-knot: a natural end is straight, 0.04 mm out on a 150 mm radius read every
    10 mm, where not-a-knot is out by less than 0.001 mm. Three points: a parabola; two: a line.
    """
    h = np.diff(s)
    rise = np.diff(points, axis=1) / h[..., None]
    count = s.shape[1]
    if count == 2:  # noqa: PLR2004  two points
        return np.repeat(rise, 2, axis=1)
    if count == 3:  # noqa: PLR2004  three points
        w = (h[:, :1] / h.sum(axis=1, keepdims=True))[..., None]
        middle = (1 - w) * rise[:, :1] + w * rise[:, 1:]
        return np.concatenate([2 * rise[:, :1] - middle, middle, 2 * rise[:, 1:] - middle], axis=1)
    a = np.zeros((*s.shape, count))
    b = np.empty_like(points)
    k = np.arange(1, count - 1)
    a[:, k, k - 1], a[:, k, k + 1] = h[:, 1:], h[:, :-1]
    a[:, k, k] = 2 * (h[:, 1:] + h[:, :-1])
    b[:, 1:-1] = 3 * (h[:, 1:, None] * rise[:, :-1] + h[:, :-1, None] * rise[:, 1:])
    for row, sign in ((0, 1), (count - 1, -1)):
        first, second = (0, 1) if sign == 1 else (-1, -2)
        h0, h1 = h[:, first, None], h[:, second, None]
        a[:, row, row], a[:, row, row + sign] = h1[:, 0], (h0 + h1)[:, 0]
        b[:, row] = ((3 * h0 + 2 * h1) * h1 * rise[:, first] + h0**2 * rise[:, second]) / (h0 + h1)
    return np.asarray(np.linalg.solve(a, b), dtype=np.float64)


class Curve(Struct, frozen=True, eq=False):
    """C2 cubics on chord length: knots `s` (b, n), `points` (b, n, 2), slopes per step."""

    s: Floats
    points: Floats
    start: Floats  # slope at the start of each step, (b, n - 1, 2)
    end: Floats

    @classmethod
    def through(cls, points: Floats, corners: tuple[int, ...] = ()) -> Self:
        """Return the curves through `points` (b, n, 2), left to right, broken at `corners`.

        Raises
        ------
        ValueError
            If there are fewer than two points or two neighbours coincide.

        Examples
        --------
        >>> curve = Curve.through(np.array([[[-50.0, 0], [0, 20], [50, 0]]]))
        >>> curve.at(curve.s[:, 1:2])[0].round(6)
        array([[ 0., 20.]])
        """
        if points.shape[1] < 2:  # noqa: PLR2004  a curve has two ends
            raise ValueError(f"a section needs 2 points or more, got {points.shape[1]}")
        chords = np.hypot(*np.moveaxis(np.diff(points, axis=1), 2, 0))
        if np.any(chords <= 0):
            raise ValueError("two neighbouring points of a section coincide")
        s = np.concatenate([np.zeros((len(points), 1)), np.cumsum(chords, axis=1)], axis=1)
        breaks = [0, *sorted(corners), points.shape[1] - 1]
        slopes = [spline_slopes(s[:, a : b + 1], points[:, a : b + 1]) for a, b in pairwise(breaks)]
        start = np.concatenate([piece[:, :-1] for piece in slopes], axis=1)
        end = np.concatenate([piece[:, 1:] for piece in slopes], axis=1)
        return cls(s, points, start, end)

    def both(self, s: Floats) -> tuple[Floats, Floats]:
        """Return points and slopes at `s` (b, m); beyond the ends the curve runs on straight."""
        inside = np.clip(s, 0, self.s[:, -1:])
        step = (inside[:, :, None] >= self.s[:, None, 1:-1]).sum(axis=2)
        steps = self.s.shape[1] - 1
        parts = (self.points[:, :-1], self.points[:, 1:], self.start, self.end)
        edges = (self.s[:, :-1, None], np.diff(self.s)[..., None])
        table = np.concatenate([*parts, *edges], axis=-1).reshape(-1, 10)
        found = table[step + steps * np.arange(len(s))[:, None]]
        p0, p1, d0, d1 = (found[..., k : k + 2] for k in (0, 2, 4, 6))
        width = found[..., 9:]
        t = (inside[..., None] - found[..., 8:9]) / width
        value, slope = hermite(width, (p0, p1), (d0, d1), t)
        beyond = (s - inside)[..., None]
        if not beyond.any():
            return value, slope
        slope = np.where(beyond != 0, self._running_on(slope, np.sign(beyond)), slope)
        return value + beyond * slope, slope

    @staticmethod
    def _running_on(slope: Floats, side: Floats) -> Floats:
        """Return the unit direction beyond an end; straight down where the end runs flat."""
        unit = slope / np.maximum(np.hypot(slope[..., :1], slope[..., 1:]), 1e-9)
        down = np.concatenate([np.zeros_like(side), -side], axis=2)
        return np.where(-side * unit[..., 1:] < FLATTEST, down, unit)

    def at(self, s: Floats) -> Floats:
        """Return the points at `s` (b, m)."""
        return self.both(s)[0]

    def normals(self, s: Floats) -> Floats:
        """Return the unit normals, outward (up on top) on a curve that runs left to right."""
        slope = self.both(s)[1]
        unit = slope / np.hypot(slope[..., :1], slope[..., 1:])
        return np.stack([-unit[..., 1], unit[..., 0]], axis=-1)

    def feet(self, height_mm: float) -> Floats:
        """Return where the curves, from their left and right ends, pass a height, (b, 2).

        Raises
        ------
        ValueError
            If a curve lies wholly below the height.
        """
        grid = np.linspace(0, 1, DENSE)[None] * self.s[:, -1:]
        above = self.at(grid)[..., 1] >= height_mm
        if not np.all(above.any(axis=1)):
            raise ValueError(f"a section lies wholly below {height_mm:g}")
        last = DENSE - 1 - np.argmax(above[:, ::-1], axis=1)
        first = np.stack([np.argmax(above, axis=1), last], axis=1)
        s = np.take_along_axis(grid, first, axis=1)
        up = np.array([1.0, -1.0])  # the curve rises from its left end and falls to its right
        for _ in range(NEWTON):
            value, slope = self.both(s)
            rise = np.where(up * slope[..., 1] < FLATTEST / 2, up * FLATTEST / 2, slope[..., 1])
            step = (height_mm - value[..., 1]) / rise
            reach = np.where((s <= 0) | (s >= self.s[:, -1:]), np.inf, 2 * grid[:, 1:2])
            s = s + np.clip(step, -reach, reach)
        return s

    def even(self, height_mm: float, count: int, marks: tuple[tuple[int, int], ...] = ()) -> Floats:
        """Return `count` points even in arc length between the two feet at a height.

        Parameters
        ----------
        height_mm : float
        count : int
        marks : tuple of (knot, number)
            Knots, in order, that become the points of these numbers; even from one to the next.

        Returns
        -------
        ndarray, shape (b, count, 2)
        """
        s, run = self._lengths(height_mm)
        number = np.arange(count)
        fixed = [0, *(place for _, place in marks), count - 1]
        where = []
        for row, lengths, knots in zip(s, run, self.s, strict=True):
            at = np.interp([knots[knot] for knot, _ in marks], row, lengths)
            wanted = np.interp(number, fixed, [0.0, *at, lengths[-1]])
            where.append(np.interp(wanted, lengths, row))
        return self.at(np.array(where))

    def shares(self, height_mm: float, knots: tuple[int, ...]) -> Floats:
        """Return where knots lie, as shares of the length between the feet, (b, knots)."""
        s, run = self._lengths(height_mm)
        rows = zip(s, run, self.s, strict=True)
        return np.array([np.interp(own[list(knots)], a, b) / b[-1] for a, b, own in rows])

    def _lengths(self, height_mm: float) -> tuple[Floats, Floats]:
        """Return parameters (b, m) between the feet at a height, and the length up to each."""
        left, right = self.feet(height_mm).T
        s = left[:, None] + np.linspace(0, 1, DENSE) * (right - left)[:, None]
        dense = self.at(s)
        steps = np.hypot(*np.moveaxis(np.diff(dense, axis=1), 2, 0))
        return s, np.concatenate([np.zeros((len(s), 1)), np.cumsum(steps, axis=1)], axis=1)

    def length(self, height_mm: float | None = None) -> Floats:
        """Return the arc lengths, (b,), end to end or between the feet at a height."""
        if height_mm is None:
            left, right = np.zeros(len(self.s)), self.s[:, -1]
        else:
            left, right = self.feet(height_mm).T
        s = left[:, None] + np.linspace(0, 1, DENSE) * (right - left)[:, None]
        dense = self.at(s)
        steps = np.hypot(*np.moveaxis(np.diff(dense, axis=1), 2, 0))
        return np.asarray(steps.sum(axis=1))
