"""The underside of the dash, from readings along the middle or from points over an area."""

from typing import Final

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import said
from trimwright.car.shape import layers_over
from trimwright.car.skin import Tunnel, tunnel
from trimwright.car.triangle import triangles, weights
from trimwright.car.world import World, of_cars

Floats = NDArray[np.float64]

AHEAD: Final = 25.0  # mm forward of the foremost reading that the dash is run on
ASIDE: Final = 40.0  # mm beside the outermost reading, for an area
ROUNDING: Final = 1e-6  # mm
STEP: Final = 0.01  # mm over which the slope of a flat piece is taken
SHIFTS: Final = np.array([[0.0, 0.0], [STEP, 0.0], [0.0, STEP]])


class DashUnderside(Struct, frozen=True, eq=False):
    """The dash's underside in every world.

    `span` [mm along] is where it is given: to the rearmost reading, where the dash is taken to
    end, and a little ahead of the foremost. `sides` [mm across], None for a line, which is taken
    as level across. `places` (p, 2), `z` (rows, p).
    """

    places: Floats
    z: Floats
    drift: Floats  # (rows, p, 2): how far each place is off along and across
    faces: NDArray[np.intp]
    span: tuple[float, float]
    sides: tuple[float, float] | None

    @property
    def assumption(self) -> str:
        """What is taken for granted, in words."""
        if self.sides is None:
            return "the dash is level across: it was read along the middle only"
        return "the dash is flat between each three points read"

    def height(self, x: Floats, y: Floats) -> Floats:
        """Return the heights at x, y (n,), (rows, n); NaN outside `span` and `sides`."""
        if self.sides is None:
            known, (share, rises) = self._within(x), self._along(x)
        else:
            share, past, rises = self._over(x, y)
            known = self._between(x, y, past)
        z = self.z @ share.T
        # a place that lies farther back than written has its height farther back
        for way, rise in enumerate(rises):
            z -= (self.drift[..., way] @ share.T) * (self.z @ rise.T)
        return np.where(known, z, np.nan)

    def known(self, x: Floats, y: Floats) -> NDArray[np.bool_]:
        """Return at which of the places x, y (n,) the height is given, (n,)."""
        if self.sides is None:
            return self._within(x)
        past = weights(self.places, self.faces, np.stack([x, y], axis=-1))[1]
        return self._between(x, y, past)

    def _within(self, x: Floats) -> NDArray[np.bool_]:
        """Return which places lie within `span`, (n,)."""
        return (x >= self.span[0] - ROUNDING) & (x <= self.span[1] + ROUNDING)

    def _between(self, x: Floats, y: Floats, past: Floats) -> NDArray[np.bool_]:
        """Return which places lie within `span` and `sides`, and near enough to the area, (n,)."""
        left, right = self.sides or (-np.inf, np.inf)
        return self._within(x) & (y >= left) & (y <= right) & (past <= ASIDE)

    def _along(self, x: Floats) -> tuple[Floats, tuple[Floats, ...]]:
        """Return the share of each reading at places (n, p), and in the slope along there."""
        order = np.argsort(self.places[:, 0], kind="stable")
        xs = self.places[order, 0]
        share, rise = np.zeros((len(x), len(xs))), np.zeros((len(x), len(xs)))
        if len(xs) == 1:
            share[:, 0] = 1.0
            return share, (rise,)
        step = np.clip(np.searchsorted(xs, x, side="right") - 1, 0, len(xs) - 2)
        run = xs[step + 1] - xs[step]
        part = (x - xs[step]) / run
        pick = np.arange(len(x))
        share[pick, order[step]] = 1 - part
        share[pick, order[step + 1]] = part
        rise[pick, order[step]] = -1 / run
        rise[pick, order[step + 1]] = 1 / run
        return share, (rise,)

    def _over(self, x: Floats, y: Floats) -> tuple[Floats, Floats, tuple[Floats, ...]]:
        """Return the share of each reading at places (n, p), how far outside they are (n,).

        And the share of each in both slopes of the flat piece there, (n, p) each.
        """
        here = np.stack([x, y], axis=-1)
        all_of = np.concatenate([here + shift for shift in SHIFTS])
        shares, past = weights(self.places, self.faces, all_of)
        share, along, across = np.split(shares, len(SHIFTS))
        return share, past[: len(x)], ((along - share) / STEP, (across - share) / STEP)


@of_cars
def dash(world: World) -> DashUnderside | None:
    """Return the dash's underside in every world, None where it was not read.

    Points over an area go before readings along the middle where both were written.

    Raises
    ------
    Unmeasured
        If a reading was taken over something whose thickness is not known.
    """
    car = world.build.car
    if car.dash:
        return _area(world)
    if car.dash_above_tunnel:
        return _line(world, tunnel(car))
    return None


def _area(world: World) -> DashUnderside:
    points = world.build.car.dash
    places = np.array([[one.at.value, one.across.value] for one in points])
    z = np.stack([world.read(one, "up") for one in points], axis=1)
    drift = np.stack(
        [
            np.stack([world.deviation(said(one, name).key) for name in ("at", "across")], axis=-1)
            for one in points
        ],
        axis=1,
    )
    faces = triangles(places)
    low, high = places.min(axis=0), places.max(axis=0)
    span = (float(low[0]) - AHEAD, float(high[0]))
    sides = (float(low[1]) - ASIDE, float(high[1]) + ASIDE) if len(faces) else None
    return DashUnderside(places, z, drift, faces, span, sides)


def _line(world: World, skin: Tunnel) -> DashUnderside:
    readings = world.build.car.dash_above_tunnel
    x = np.array([one.along.value for one in readings])
    across, _ = skin.crown(x)
    metal = skin.under(x, across, world).z
    line = world.build.car.dash_line
    over_what = line.over if line is not None else "bare metal"
    over = [layers_over(world.build.car, over_what, one.along.value) for one in readings]
    thick = np.stack(
        [
            one.value
            + sum(times * world.deviation(key) for key, _, times in one.parts)
            + np.zeros(world.rows)
            for one in over
        ],
        axis=1,
    )
    z = metal + thick + np.stack([world.read(one, "height") for one in readings], axis=1)
    drift = np.stack(
        [
            np.stack([world.deviation(said(one, "along").key), np.zeros(world.rows)], axis=-1)
            for one in readings
        ],
        axis=1,
    )
    span = (float(x.min()) - AHEAD, float(x.max()))
    places = np.stack([x, np.zeros_like(x)], axis=-1)
    return DashUnderside(places, z, drift, np.zeros((0, 3), dtype=np.intp), span, None)
