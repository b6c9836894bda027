"""The tunnel's skin from its sections: cut at one height, matched by arc length, run along x."""

from collections.abc import Iterator
from functools import lru_cache

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.car.along import between, slopes, throughout
from trimwright.car.curve import hermite
from trimwright.car.section import Rail, SectionShape, nominal_curve, rail

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Places = NDArray[np.intp]

POINTS = 161  # across a section: about 3 mm apart
CARRIED_ON = 25.0  # mm of height by which a section that stops short may be run on straight
REACH = 80.0  # mm beyond the outer sections that the skin is run on straight
ALONE = 1500.0  # mm either way for a single section, taken as constant
OUT_SHARE = 0.25  # of the leave-one-section-out error: measured against known tunnels, 4-6 x over
GRID_STEP = 10.0  # mm along the car
BEYOND = 2  # rails either side of the nearest two that a height may hang on
WIDE = 10  # points skipped where a plumb line is sought
PARTS = 4  # of a gap between rails, looked at each by itself
APART_MM = 1e-6  # of two points of which one lies right of the other
NEWTON = 6  # steps to where a plumb line meets the curve between two points
UPRIGHT = 1e-6  # mm across for a step along, below which a curve counts as leading this far
STEEPEST = 0.05  # least upward part of a normal for which a height is followed


def common_foot(shapes: tuple[SectionShape, ...], floor_mm: float | None = None) -> float:
    """Return the height at which all sections are cut.

    No section is run on by more than `CARRIED_ON` and none is cut above where it ends, so far as
    both can be had; never below the floor.
    """
    ends = [nominal_curve(shape).points[0, [0, -1], 1] for shape in shapes]
    low = float(np.min(ends))
    foot = max(low, float(np.max(ends)) - CARRIED_ON)
    return foot if floor_mm is None else max(foot, floor_mm)


class Loft(Struct, frozen=True, eq=False):
    """The skin through rails: at every place along, `count` points even in arc length.

    A point is named by x [mm] and t, its number along the section, 0 to count - 1, with fractions.
    """

    stations: Floats  # (k,)
    rails: Floats  # (k, m, 2)
    slopes: Floats  # (k, m, 2) along the car

    @classmethod
    def through(cls, rails: tuple[Rail, ...]) -> "Loft":
        """Return the loft through rails in order along the car."""
        stations = np.array([one.at for one in rails])
        points = np.stack([one.points for one in rails])
        return cls(stations, points, slopes(stations, points))

    @property
    def span(self) -> tuple[float, float]:
        """Where the skin is given [mm along]: a little beyond the outer sections."""
        reach = ALONE if len(self.stations) == 1 else REACH
        return float(self.stations[0]) - reach, float(self.stations[-1]) + reach

    def rows(self, x: Floats) -> tuple[Floats, Floats]:
        """Return points and their change along the car at each x, both (n, m, 2)."""
        return throughout(self.stations, self.rails, self.slopes, x)

    def across(self, x: Floats, number: Places | None = None) -> Floats:
        """Return how far across the middle plane every point lies at each x, (n, m), or some."""
        return throughout(self.stations, *_aside(self), x, number)[0]

    def numbered(self, x: Floats, number: Places) -> tuple[Floats, Floats]:
        """Return what `rows` does for some points at each x, (n, j, 2) by their numbers (n, j)."""
        return throughout(self.stations, self.rails, self.slopes, x, number)

    def on_rails(self, t: Floats) -> Floats:
        """Return the points numbered `t` (n,) on each rail, (k, n, 2)."""
        step, part = _split(t, self.rails.shape[1])
        d = np.gradient(self.rails, axis=1, edge_order=2)
        ends = (self.rails[:, step], self.rails[:, step + 1])
        return hermite(np.ones(1), ends, (d[:, step], d[:, step + 1]), part[:, None])[0]


@lru_cache(maxsize=8)
def _aside(loft: Loft) -> tuple[Floats, Floats]:
    """Return how far across the points of the rails lie, and how that changes along the car."""
    return loft.rails[..., 0].copy(), loft.slopes[..., 0].copy()


def _split(t: Floats, count: int) -> tuple[Places, Floats]:
    step = np.clip(np.floor(t).astype(np.intp), 0, count - 2)
    return step, t - step


class Spot(Struct, frozen=True, eq=False):
    """Where rays from above meet the skin: `t`, `z`, `normal` (n, 3), and which missed it."""

    x: Floats
    t: Floats
    z: Floats
    normal: Floats
    missed: Flags


def dropped(loft: Loft, x: Floats, y: Floats, near: Spot | None = None) -> Spot:
    """Return where plumb lines from above at x, y (n,) meet the skin first.

    Heights are NaN where a line misses it or x lies outside the span. Lines that run close to
    where others met it, `near`, are found sooner.
    """
    steps = None if near is None else np.floor(near.t).astype(np.intp)
    step, missed = _met(loft, x, y, steps)
    number = np.stack([step, step + 1], axis=1)
    middle = np.clip(number, 1, loft.rails.shape[1] - 2)
    points, run = (
        part.reshape(len(x), 2, 3, 2)
        for part in loft.numbered(x, (middle[..., None] + np.arange(-1, 2)).reshape(len(x), -1))
    )
    side = (number - middle)[..., None]  # of 3 points: 0 is the middle one, else it is an end
    pick = np.arange(len(x))[:, None], np.arange(2), number - middle + 1
    slope = _slope_at(points, side)
    ends, slopes_there = _pair(points[pick]), _pair(slope)
    part = _share_at(
        (ends[0][:, 0], ends[1][:, 0]), (slopes_there[0][:, 0], slopes_there[1][:, 0]), y
    )
    value, across = hermite(np.ones(1), ends, slopes_there, part[:, None])
    before, after = _pair(run[pick])
    normal = facing_out(before * (1 - part[:, None]) + after * part[:, None], across)
    z = np.where(missed, np.nan, value[:, 1])
    return Spot(x, step + part, z, normal, missed)


def _share_at(ends: tuple[Floats, Floats], slopes: tuple[Floats, Floats], y: Floats) -> Floats:
    """Return the share of a step at which its cubic, as `hermite` runs it, passes y, (n,) each."""
    (p0, p1), (d0, d1) = ends, slopes
    rise = p1 - p0
    c2, c3 = 3 * rise - 2 * d0 - d1, d0 + d1 - 2 * rise
    part = np.full(len(y), 0.5)
    for _ in range(NEWTON):
        across = d0 + part * (2 * c2 + 3 * part * c3)
        lean = np.where(np.abs(across) < UPRIGHT, UPRIGHT, across)
        off = p0 + part * (d0 + part * (c2 + part * c3)) - y
        before, part = part, np.minimum(np.maximum(part - off / lean, 0), 1)
        if np.array_equal(before, part):
            break
    return part


def _pair(of: Floats) -> tuple[Floats, Floats]:
    return of[:, 0], of[:, 1]


def _met(loft: Loft, x: Floats, y: Floats, near: Places | None = None) -> tuple[Places, Flags]:
    """Return the step of the skin that each plumb line meets first, 0 if none, and which miss."""
    found, missed, told = _met_once(loft, x, y, near)
    rest = np.flatnonzero(~told)
    if len(rest):
        seek = _met_first if near is None else _met
        found[rest], missed[rest] = seek(loft, x[rest], y[rest])
    return found, missed | (x < loft.span[0]) | (x > loft.span[1])


def _met_once(loft: Loft, x: Floats, y: Floats, near: Places | None) -> tuple[Places, Flags, Flags]:
    """Return the step each line meets, which miss, and for which of them that holds.

    Where the skin leads on to the right from point to point, a line meets it once or not at all:
    among every tenth point first, then among those between; or among the ten about a step that is
    `near` (n,), if it passes there.
    """
    last = loft.rails.shape[1] - 1
    missed = touches = np.zeros(len(x), dtype=np.bool_)
    if near is None:
        coarse = np.append(np.arange(0, last, WIDE), last)[None]
        across = loft.across(x, coarse)
        under = (across < y[:, None]).sum(axis=1)
        missed = (under == 0) | (under == coarse.size)
        start = coarse[0, np.where(missed, 0, under - 1)]
        touches = (across == y[:, None]).any(axis=1)
    else:
        start = np.maximum(near - WIDE // 2, 0)
    across = loft.across(x, np.minimum(start[:, None] + np.arange(WIDE + 1), last))
    under = (across < y[:, None]).sum(axis=1)
    passes = missed | (under > 0) & (under <= WIDE)
    touches = touches | (across == y[:, None]).any(axis=1)  # then it meets two steps
    told = passes & _rising(loft)[_gap_at(loft, x)] & ~touches
    return np.where(missed, 0, start + under - 1), missed, told


def _gap_at(loft: Loft, x: Floats) -> Places:
    """Return the gap between rails that each place lies in, or is run on from."""
    before = np.searchsorted(loft.stations, x, side="right") - 1
    return np.clip(before, 0, max(len(loft.stations) - 2, 0))


@lru_cache(maxsize=8)
def _rising(loft: Loft) -> Flags:
    """Return for each gap between rails whether each point lies right of the one before it.

    It does wherever the four Bezier values of their distance, a cubic along the car, are above 0;
    outside the rails it runs on straight.
    """
    apart, turns = np.diff(loft.rails[..., 0], axis=1), np.diff(loft.slopes[..., 0], axis=1)
    if len(loft.stations) == 1:
        return np.asarray((apart > APART_MM).all(axis=1))
    wide = np.diff(loft.stations)[:, None, None]
    share = np.arange(PARTS + 1) / PARTS
    ends, slopes_there = ((of[:-1, :, None], of[1:, :, None]) for of in (apart, turns))
    value, slope = hermite(wide, ends, slopes_there, share)
    bend = wide / PARTS / 3 * slope
    low, high = value[..., :-1] + bend[..., :-1], value[..., 1:] - bend[..., 1:]
    rises = np.minimum(np.minimum(low, high).min(axis=-1), value.min(axis=-1)) > APART_MM
    rises[0] &= apart[0] - REACH * turns[0] > APART_MM
    rises[-1] &= apart[-1] + REACH * turns[-1] > APART_MM
    return np.asarray(rises.all(axis=1))


def _met_first(loft: Loft, x: Floats, y: Floats) -> tuple[Places, Flags]:
    """Return the step each line meets first, among all it meets, 0 if none, and which miss."""
    unique, place = np.unique(x, return_inverse=True)
    off = loft.across(unique)[place] - y[:, None]
    line, step = np.nonzero(off[:, :-1] * off[:, 1:] <= 0)
    ends = loft.numbered(x[line], np.stack([step, step + 1], axis=1))[0]
    order = np.lexsort((step, -ends[..., 1].max(axis=1), line))
    met, first = np.unique(line[order], return_index=True)
    found = np.zeros(len(x), dtype=np.intp)
    found[met] = step[order][first]
    missed = np.ones(len(x), dtype=np.bool_)
    missed[met] = False
    return found, missed


def _slope_at(around: Floats, side: Places) -> Floats:
    """Return the change from point to point as `np.gradient` to 2nd order, (n, 2, 2).

    From three neighbours (n, 2, 3, 2): at the middle one, or at an end on a side of it, -1 or 1.
    """
    before, here, after = (around[:, :, k] for k in range(3))
    # at either end the parabola through the outer three
    return np.asarray((after - before) / 2 + side * (before - 2 * here + after))


def facing_out(run: Floats, across: Floats) -> Floats:
    """Return unit normals from the change along (1, y', z') and across (0, y', z'), (..., 3)."""
    normal = np.stack(
        [
            run[..., 0] * across[..., 1] - run[..., 1] * across[..., 0],
            -across[..., 1],
            across[..., 0],
        ],
        axis=-1,
    )
    return np.asarray(normal / np.linalg.norm(normal, axis=-1, keepdims=True))


def station_shares(loft: Loft, spot: Spot) -> tuple[Floats, Floats]:
    """Return how z at each spot follows each rail's points there, (k, n, 2), and its place, (k, n).

    Both per mm; by central differences of the run along the car, which is local and not linear.
    """
    at_rails = loft.on_rails(spot.t)
    up = np.maximum(spot.normal[:, 2], STEEPEST)
    lean = np.stack([spot.normal[:, 1] / up, np.ones_like(up)], axis=-1)
    shares, places = np.zeros_like(at_rails), np.zeros(at_rails.shape[:2])
    if len(loft.stations) == 1:
        return np.broadcast_to(lean, shares.shape), places
    for near, rails in _neighbours(loft.stations, spot.x):
        stations, values = loft.stations[rails], at_rails[rails, near]
        x = spot.x[near, None]
        shares[rails, near] = _value_shares(stations, values, x) * lean[near]
        places[rails, near] = (_place_shares(stations, values, x) * lean[near]).sum(axis=-1)
    return shares, places


def _neighbours(stations: Floats, x: Floats) -> Iterator[tuple[Places, slice]]:
    """Yield places that hang on the same few rails, and these; every place once.

    A slope hangs on the rails either side, and a rail that is moved may pass a place: what lies
    two rails and more beyond the nearest two has no say.
    """
    count = len(stations)
    step = np.searchsorted(stations, x, side="right") - 1
    first = np.clip(step - BEYOND, 0, max(count - 2 * BEYOND - 2, 0))
    for start in np.unique(first):
        yield np.flatnonzero(first == start), slice(int(start), int(start) + 2 * BEYOND + 2)


def _value_shares(stations: Floats, values: Floats, x: Floats) -> Floats:
    """Return how the run at x (n, 1) follows the values (k, n, 2) at each station, (k, n, 2)."""
    count = len(stations)
    step = 0.5 * np.eye(count)[:, :, None, None]  # (rail, moved, 1, 1)
    run = between(stations, values[:, None] + np.concatenate([step, -step], axis=1), x)[0]
    shares = run[:count] - run[count:]
    # a shift of the whole tunnel shifts the skin by just as much, kinks of the run or not
    return np.asarray(shares / shares.sum(axis=0))


def _place_shares(stations: Floats, values: Floats, x: Floats) -> Floats:
    """Return how the run at x (n, 1) follows the place of each station, (k, n, 2)."""
    count = len(stations)
    shift = 0.5 * np.eye(count)
    moved = stations[:, None] + np.concatenate([shift, -shift], axis=1)
    runs = between(moved[..., None, None], values[:, None], x)[0]
    return runs[:count] - runs[count:]


def bumps(stations: Floats, x: Floats) -> Floats:
    """Return, for each gap between sections, a hump of height 1 midway, 0 at both: (k - 1, n)."""
    share = (x - stations[:-1, None]) / np.diff(stations)[:, None]
    return np.where((share > 0) & (share < 1), 4 * share * (1 - share), 0.0)


def left_out_errors(rails: tuple[Rail, ...]) -> Floats:
    """Return, per section, how far the skin without it passes from it at most [mm], (k,).

    0 for the outer sections, which cannot be left out.
    """
    worst = np.zeros(len(rails))
    for k in range(1, len(rails) - 1):
        rest = Loft.through(rails[:k] + rails[k + 1 :])
        guess = rest.rows(np.array([rails[k].at]))[0][0]
        d = np.gradient(rails[k].points, axis=0)
        normal = np.stack([-d[:, 1], d[:, 0]], axis=-1) / np.linalg.norm(d, axis=-1, keepdims=True)
        worst[k] = np.abs(((guess - rails[k].points) * normal).sum(axis=-1)).max()
    return worst


def between_doubts(rails: tuple[Rail, ...]) -> Floats:
    """Return the doubt (19 to 1) of the skin midway in each gap between sections [mm], (k - 1,).

    A quarter of the larger leave-one-section-out error at its two ends. With two sections there
    is none to leave out: a quarter of the largest distance between the two.
    """
    if len(rails) < 2:  # noqa: PLR2004  no gap
        return np.zeros(0)
    if len(rails) == 2:  # noqa: PLR2004  one gap
        apart = np.linalg.norm(rails[1].points - rails[0].points, axis=-1).max()
        return np.array([OUT_SHARE * apart])
    errors = left_out_errors(rails)
    return OUT_SHARE * np.maximum(errors[:-1], errors[1:])


__all__ = [
    "POINTS",
    "Loft",
    "Spot",
    "between_doubts",
    "bumps",
    "common_foot",
    "dropped",
    "facing_out",
    "left_out_errors",
    "rail",
    "station_shares",
]
