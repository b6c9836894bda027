"""A lever's pivot and shaft from its knob in the gears and from where its shaft passes low down.

The knob alone cannot tell a bent lever from a straight one: turned about its pivot, either keeps
its knob on a ball. Where the shaft itself was read, the knob may stand off the shaft's line by a
vector that turns with the lever.
"""

from math import log
from typing import Final

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

Floats = NDArray[np.float64]

# chance 0.001 that a straight lever is called bent: chi-square with two more unknowns falls by more
# than this, whose upper tail is exp(-x / 2)
BENT: Final = -2 * log(0.001)
UNKNOWNS: Final = 6  # of a bent lever: pivot, length, and the shaft's two leans under the knob
STEPS: Final = 8  # of Gauss and Newton
SHIFT: Final = 1e-4  # mm, or of a lean: either way, for slopes


class LeverReadings(Struct, frozen=True, eq=False):
    """Knobs (rows, g, 3), and shaft middles (rows, m, 3) in the gears numbered `gear` (m,).

    `prior` (rows, 3): a guess of the pivot, `prior_sigma` (3,) how good it is. `knob_sigma`,
    `shaft_sigma` (m,) [mm]. `neutral`: the number of the gear in which the lever stands.
    """

    knobs: Floats
    shafts: Floats
    gear: NDArray[np.intp]
    neutral: int
    prior: Floats
    prior_sigma: Floats
    knob_sigma: float
    shaft_sigma: Floats

    @property
    def spare(self) -> int:
        """How many readings a bent lever leaves over, the guess of the pivot not counted."""
        return int(self.knobs.shape[1] + 2 * self.shafts.shape[1] - UNKNOWNS)


class LeverFit(Struct, frozen=True, eq=False):
    """A lever that fits its readings best.

    `unknowns` (rows, 6): pivot and length [mm], lean of the shaft against the line to the knob
    along and across. `misfit` (rows,): chi-square.
    """

    unknowns: Floats
    misfit: Floats

    @property
    def pivot(self) -> Floats:
        """Where it turns, (rows, 3)."""
        return self.unknowns[:, :3]

    def tops(self, readings: LeverReadings) -> Floats:
        """Return the upper end of the shaft's line in every gear, beside its knob, (rows, g, 3)."""
        every = np.arange(readings.knobs.shape[1])
        away = readings.knobs - self.pivot[:, None]
        ways = _ways(self.unknowns, readings, every)
        return np.asarray(self.pivot[:, None] + ways * (ways * away).sum(axis=-1, keepdims=True))


def _ways(unknowns: Floats, readings: LeverReadings, gears: NDArray[np.intp]) -> Floats:
    """Return the shaft's unit direction in some gears, (rows, n, 3).

    The lever tips about its pivot by the shortest way: it does not twist about itself.
    """
    away = readings.knobs - unknowns[:, None, :3]
    to_knob = away / np.linalg.norm(away, axis=-1, keepdims=True)
    stands, goes = to_knob[:, [readings.neutral]], to_knob[:, gears]
    lean = np.concatenate([unknowns[:, None, 4:], np.zeros((len(unknowns), 1, 1))], axis=-1)
    shaft = stands + lean
    shaft = shaft / np.linalg.norm(shaft, axis=-1, keepdims=True)
    cosine = (stands * goes).sum(axis=-1, keepdims=True)
    axis = np.cross(stands, goes)
    along = (axis * shaft).sum(axis=-1, keepdims=True) / (1 + cosine)
    return np.asarray(
        shaft * cosine + np.cross(axis, np.broadcast_to(shaft, axis.shape)) + axis * along
    )


def _misses(unknowns: Floats, readings: LeverReadings) -> Floats:
    """Return how far each reading is missed, in its sigmas, (rows, g + 3 m + 3)."""
    pivot = unknowns[:, :3]
    away = np.linalg.norm(readings.knobs - pivot[:, None], axis=-1)
    ball = (away - unknowns[:, 3:4]) / readings.knob_sigma
    ways, out = _ways(unknowns, readings, readings.gear), readings.shafts - pivot[:, None]
    beside = (out - ways * (out * ways).sum(axis=-1, keepdims=True)) / readings.shaft_sigma[:, None]
    guess = (pivot - readings.prior) / readings.prior_sigma
    return np.concatenate([ball, beside.reshape(len(pivot), -1), guess], axis=1)


def fitted(readings: LeverReadings, start: Floats, *, bent: bool) -> LeverFit:
    """Return the lever that fits best, straight or bent, from a start (rows, 6).

    Least squares over the ball on which the knob stays, the shaft's line through what was read of
    it, and the guess of the pivot.
    """
    free = UNKNOWNS if bent else UNKNOWNS - 2
    unknowns = start.copy()
    steps = np.eye(UNKNOWNS)[:free] * SHIFT
    for _ in range(STEPS):
        slopes = np.stack(
            [
                (_misses(unknowns + step, readings) - _misses(unknowns - step, readings))
                / (2 * SHIFT)
                for step in steps
            ],
            axis=-1,
        )
        misses = _misses(unknowns, readings)
        normal = np.einsum("rni,rnj->rij", slopes, slopes)
        pull = np.einsum("rni,rn->ri", slopes, misses)
        unknowns[:, :free] -= np.linalg.solve(normal, pull[..., None])[..., 0]
    return LeverFit(unknowns, (_misses(unknowns, readings) ** 2).sum(axis=1))


def is_bent(readings: LeverReadings, start: Floats) -> bool:
    """Return whether the first row's readings are those of a bent lever.

    A straight one is preferred unless its chi-square is larger by more than `BENT`; where a bent
    one leaves no reading over to check it, nothing can be said.
    """
    if readings.spare < 1:
        return False
    straight, bent = (fitted(readings, start, bent=way).misfit[0] for way in (False, True))
    return bool(straight - bent > BENT)
