"""The carpet's thickness against pressure, from what was read of it, in every world."""

from typing import Final

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.car.shape import Unmeasured
from trimwright.car.world import World, of_cars

Floats = NDArray[np.float64]

G: Final = 9.80665  # standard gravity, m/s2
HAND: Final = "model:hand squeeze pressure"
LATH: Final = "assumed:lath width"  # mm: one lath under all weights
CURVE: Final = "model:carpet curve"
STIFFNESS: Final = (
    4.0  # kPa, where nothing softer than a hand was tried; common practice, no source
)
STIFFNESS_RANGE: Final = (0.05, 5000.0)  # kPa
APART: Final = 0.05  # mm of squeeze kept between two readings that cross in some world
HARDEST: Final = 300.0  # kPa at least, up to which the law is followed; a line beyond


def locking_stiffness(first: tuple[Floats, Floats], last: tuple[Floats, Floats]) -> Floats:
    """Return c [kPa] of the locking law s = S p / (c + p) through two readings (p, s).

    Softer than any such law, or stiffening the wrong way, is held to `STIFFNESS_RANGE`.

    Parameters
    ----------
    first, last : (pressure, squeeze)
        The lightest and the hardest reading [kPa, mm], (rows,) each; a pressure may be infinite.

    Examples
    --------
    >>> locking_stiffness((np.array([2.0]), np.array([2.0])), (np.array([np.inf]), np.array([8.0])))
    array([6.])
    """
    give = first[1] / first[0] - last[1] / last[0]
    found = (last[1] - first[1]) / np.maximum(give, 1e-9)
    return np.clip(found, *STIFFNESS_RANGE)


class CarpetBed(Struct, frozen=True, eq=False):
    """The carpet: pressure p [kPa] against squeeze s [mm] below its loose thickness.

    Between readings s is linear in q = p / (c + p), so p = c q / (1 - q): one locking law where
    all readings lie on one, and else one between each two; through every reading, increasing,
    its energy convex. Beyond `full` the pressure runs on as a straight line of the same slope.

    `loose` [mm], `full` [mm of squeeze], `stiffness_kpa`: (rows,); knots `s`, `q`: (rows, k).
    """

    loose: Floats
    stiffness_kpa: Floats
    s: Floats
    q: Floats

    @property
    def full(self) -> Floats:
        """Squeeze beyond which the carpet is as good as solid [mm], (rows,)."""
        return self.s[:, -1]

    @classmethod
    def through(cls, loose: Floats, pressure: Floats, thick: Floats, c: Floats) -> "CarpetBed":
        """Return the bed through readings (rows, k), lightest first, with locking stiffness c.

        Raises
        ------
        ValueError
            If pressures do not rise.
        """
        if np.any(pressure[:, :1] <= 0) or np.any(pressure[:, 1:] <= pressure[:, :-1]):
            raise ValueError("pressure must rise from above 0 from one reading to the next")
        steps = np.arange(1, thick.shape[1] + 1) * APART
        s = np.maximum.accumulate(np.maximum(loose[:, None] - thick - steps, 0.0), axis=1) + steps
        q = 1 / (1 + c[:, None] / pressure)
        zero = np.zeros((len(loose), 1))
        s, q = np.concatenate([zero, s], axis=1), np.concatenate([zero, q], axis=1)
        last = np.minimum(q[:, -1], 1 / (1 + c / np.maximum(pressure[:, -1], HARDEST)))
        finite = 1 / (1 + c / HARDEST)
        hard = np.where(np.isfinite(pressure[:, -1]), np.maximum(last, finite), finite)
        run = (s[:, -1] - s[:, -2]) / (q[:, -1] - q[:, -2])
        end = s[:, -1] + run * (hard - q[:, -1])
        beyond = hard > q[:, -1] + 1e-12
        q[:, -1], s[:, -1] = np.where(beyond, q[:, -1], hard), np.where(beyond, s[:, -1], end)
        if beyond.any():
            s = np.concatenate([s, np.where(beyond, end, s[:, -1])[:, None]], axis=1)
            q = np.concatenate([q, np.where(beyond, hard, q[:, -1])[:, None]], axis=1)
        return cls(loose, c, s, q)

    def _law(self, squeeze: Floats) -> tuple[Floats, Floats, Floats, Floats]:
        """Return q, dq/ds, energy so far and squeeze past full, for squeezes held within 0..full."""
        extra = (slice(None), *[None] * (squeeze.ndim - 1))
        c = self.stiffness_kpa[extra]
        inside = np.clip(squeeze, 0.0, self.full[extra])
        q, rise = np.zeros_like(inside), np.zeros_like(inside)
        energy = np.zeros_like(inside)
        for k in range(self.s.shape[1] - 1):
            s0, s1 = self.s[:, k][extra], self.s[:, k + 1][extra]
            q0, q1 = self.q[:, k][extra], self.q[:, k + 1][extra]
            wide = s1 > s0
            m = (q1 - q0) / np.where(wide, s1 - s0, 1.0)
            here = wide & (inside >= s0)
            end = q0 + m * (np.minimum(inside, s1) - s0)
            q, rise = np.where(here, end, q), np.where(here, m, rise)
            # integral of c q / (1 - q) ds over a step, q = q0 + m (s - s0)
            part = c / np.where(m > 0, m, 1.0) * (np.log((1 - q0) / (1 - end)) - (end - q0))
            energy = energy + np.where(here, part, 0.0)
        return q, rise, energy, np.maximum(squeeze - inside, 0.0)

    def pressure(self, squeeze: Floats) -> Floats:
        """Return the pressure [kPa] at squeezes [mm] (rows, ...); 0 where it is not touched."""
        q, rise, _, past = self._law(squeeze)
        c = self.stiffness_kpa[(slice(None), *[None] * (squeeze.ndim - 1))]
        return c * q / (1 - q) + past * c * rise / (1 - q) ** 2

    def stiffness(self, squeeze: Floats) -> Floats:
        """Return the change of pressure with squeeze [kPa/mm], (rows, ...); 0 where untouched."""
        q, rise, _, _ = self._law(squeeze)
        c = self.stiffness_kpa[(slice(None), *[None] * (squeeze.ndim - 1))]
        return np.where(squeeze > 0, c * rise / (1 - q) ** 2, 0.0)

    def energy(self, squeeze: Floats) -> Floats:
        """Return the work per area [kPa mm = J/m2] up to squeezes (rows, ...)."""
        q, rise, energy, past = self._law(squeeze)
        c = self.stiffness_kpa[(slice(None), *[None] * (squeeze.ndim - 1))]
        return energy + past * c * q / (1 - q) + past**2 / 2 * c * rise / (1 - q) ** 2

    def thickness_under(self, pressure: Floats) -> Floats:
        """Return the thickness [mm] under pressures [kPa] (rows, ...)."""
        extra = (slice(None), *[None] * (pressure.ndim - 1))
        c = self.stiffness_kpa[extra]
        held = np.maximum(pressure, 0.0)
        q = held / (c + held)
        squeeze = np.zeros(np.broadcast_shapes(q.shape, c.shape))
        for k in range(self.s.shape[1] - 1):
            s0, s1 = self.s[:, k][extra], self.s[:, k + 1][extra]
            q0, q1 = self.q[:, k][extra], self.q[:, k + 1][extra]
            wide = q1 > q0
            share = np.clip((q - q0) / np.where(wide, q1 - q0, 1.0), 0.0, 1.0)
            squeeze = squeeze + np.where(wide, share * (s1 - s0), 0.0)
        full = self.full[extra]
        over = np.maximum(held - self.pressure(np.broadcast_to(full, squeeze.shape)), 0.0)
        stiff = self.stiffness(np.broadcast_to(np.maximum(full, APART), squeeze.shape))
        return self.loose[extra] - squeeze - over / stiff


@of_cars
def carpet(world: World) -> CarpetBed:
    """Return the carpet in every world.

    Raises
    ------
    Unmeasured
        If its loose thickness, or every squeezed one, was not read.
    """
    rug = world.build.car.carpet
    if rug is None or rug.loose is None:
        raise Unmeasured("the carpet's loose thickness was not read", ("car.carpet.loose",))
    if rug.by_hand is None and not rug.pressed:
        raise Unmeasured("how the carpet gives was not read", ("car.carpet.squeezed by hand",))
    loose = world.read(rug, "loose")
    readings: list[tuple[Floats, Floats]] = []
    for one in rug.pressed:
        wide = world.read(one, "lath_width") + world.deviation(LATH)
        area = wide * world.read(one, "lath_length")
        pressure = 1000 * G * world.read(one, "weight") / area  # N/mm2 -> kPa
        readings.append((pressure, world.read(one, "thick")))
    if rug.by_hand is not None:
        readings.append((world.of(HAND), world.read(rug, "by_hand")))
    readings.sort(key=lambda one: float(np.median(one[0])))
    pressure = np.stack([one[0] for one in readings], axis=1)
    thick = np.stack([one[1] for one in readings], axis=1)
    for k in range(1, len(readings)):
        pressure[:, k] = np.maximum(pressure[:, k], 1.01 * pressure[:, k - 1])
    c = np.full(world.rows, STIFFNESS)
    if len(readings) > 1:
        squeeze = np.maximum(loose[:, None] - thick, APART)
        ends = [(pressure[:, k], squeeze[:, k]) for k in (0, -1)]
        c = locking_stiffness(ends[0], ends[1])
    doublings = world.deviation(CURVE)
    return CarpetBed.through(loose, pressure, thick, np.clip(c * 2**doublings, *STIFFNESS_RANGE))
