"""The gear lever: where its knob and shaft are in every gear, in every world."""

from collections.abc import Sequence
from typing import Final

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Lever, Move, ShaftPlace
from trimwright.car.bent_lever import LeverReadings, fitted, is_bent
from trimwright.car.world import World, of_cars
from trimwright.stock import way

Floats = NDArray[np.float64]

PIVOT: Final = "assumed:lever pivot height"
PIVOT_UP: Final = -50.0  # mm above the datum where nothing tells better; common practice, no source
# how far the pivot may lie from under the knob in neutral, along, across, and from PIVOT_UP [mm]
PIVOT_SIGMA: Final = np.array([40.0, 10.0, 30.0])
KNOB_SIGMA: Final = 1.5  # mm: how well a knob's middle is read
SHORTEST: Final = 60.0  # mm from pivot to knob
STEPS, STILL_MM = 8, 1e-9  # at most; a shorter step is the last
LEANS: Final = 15.0  # degrees in neutral from which a lever is called bent by its knob alone
SHARPEST: Final = 0.05  # mm: no reading is taken to be better than this (sigma)
WAY: Final = "tape"


class LeverPositions(Struct, frozen=True, eq=False):
    """The lever in every gear.

    `knobs` (rows, g, 3), `tops` (rows, g, 3), the upper ends of the shaft's line, which are the
    knobs unless it is bent, and `pivot` (rows, 3) [mm]; radii and engine half shifts (rows,);
    `residual_mm`: how far the knobs as read lie at most from one ball about the pivot.
    """

    gears: tuple[str, ...]
    knobs: Floats
    tops: Floats
    pivot: Floats
    shaft_radius: Floats
    knob_radius: Floats
    residual_mm: float
    bent: bool
    across: Floats
    along: Floats

    def shaft_at(self, z: Floats) -> Floats:
        """Return where the shaft's middle passes heights (n,), (rows, g, n, 2) along and across.

        The shaft is straight from pivot to top; above that it is the top's own place.
        """
        rise = self.tops[..., 2] - self.pivot[:, None, 2]
        share = (z - self.pivot[:, None, None, 2]) / rise[..., None]
        share = np.clip(share, 0.0, 1.0)[..., None]
        foot = self.pivot[:, None, None, :2]
        return np.asarray(foot + share * (self.tops[:, :, None, :2] - foot))


def pivot_of(knobs: Floats, prior: Floats) -> tuple[Floats, Floats]:
    """Return pivot (rows, 3) and length (rows,) of the ball that fits the knobs best.

    A lever turns about its pivot, straight or bent, so its knob stays on a ball. Over the short
    way of a gate that alone is loose; a guess of the pivot, with its own spread, is weighed in:
    minimise sum ((|k - p| - r) / KNOB_SIGMA)^2 + sum ((p - prior) / PIVOT_SIGMA)^2.

    Parameters
    ----------
    knobs : ndarray, shape (rows, g, 3)
    prior : ndarray, shape (rows, 3)
    """
    p = prior.copy()
    r = np.linalg.norm(knobs - p[:, None], axis=-1).mean(axis=1)
    weight = np.zeros((4, 4))
    weight[:3, :3] = np.diag(1 / PIVOT_SIGMA**2)
    for _ in range(STEPS):
        away = knobs - p[:, None]
        length = np.maximum(np.linalg.norm(away, axis=-1), SHORTEST / 2)
        slope = np.concatenate([-away / length[..., None], -np.ones((*length.shape, 1))], axis=-1)
        miss = length - r[:, None]
        normal = np.einsum("rgi,rgj->rij", slope, slope) / KNOB_SIGMA**2 + weight
        pull = np.einsum("rgi,rg->ri", slope, miss) / KNOB_SIGMA**2
        pull[:, :3] += (p - prior) / PIVOT_SIGMA**2
        step = np.linalg.solve(normal, -pull[..., None])[..., 0]
        p, r = p + step[:, :3], r + step[:, 3]
        if np.abs(step).max() < STILL_MM:
            break
    return p, r


def _read(world: World, entries: Sequence[Move | ShaftPlace]) -> Floats:
    """Return places of the lever in every world, (rows, n, 3)."""
    names = ("behind", "off_middle", "above")
    places = [np.stack([world.read(one, name) for name in names], axis=-1) for one in entries]
    return np.stack(places, axis=1) if places else np.zeros((world.rows, 0, 3))


def _neutral(gears: tuple[str, ...]) -> int:
    return gears.index("neutral") if "neutral" in gears else 0


def _readings(world: World, stick: Lever) -> LeverReadings:
    """Return what was read of the lever in every world, with the guess of its pivot."""
    gears = tuple(one.gear for one in stick.moves)
    knobs, neutral = _read(world, stick.moves), _neutral(gears)
    prior = knobs[:, neutral].copy()
    prior[:, 2] = np.minimum(PIVOT_UP + world.deviation(PIVOT), prior[:, 2] - SHORTEST)
    doubts = [one.off_middle.doubt or way(WAY).doubt for one in stick.shaft_passes]
    return LeverReadings(
        knobs,
        _read(world, stick.shaft_passes),
        np.array([gears.index(one.gear) for one in stick.shaft_passes], dtype=np.intp),
        neutral,
        prior,
        PIVOT_SIGMA,
        KNOB_SIGMA,
        np.array([max(one.sigma, SHARPEST) for one in doubts]),
    )


def _fit(world: World, stick: Lever) -> tuple[Floats, Floats, Floats, bool]:
    """Return pivot (rows, 3), length (rows,), tops (rows, g, 3), and whether it is bent."""
    readings = _readings(world, stick)
    pivot, length = pivot_of(readings.knobs, readings.prior)
    if not stick.shaft_passes:
        lean = (readings.knobs[:, readings.neutral] - pivot).mean(axis=0)
        degrees = float(np.degrees(np.arctan2(np.hypot(lean[0], lean[1]), lean[2])))
        return pivot, length, readings.knobs, degrees > LEANS
    start = np.concatenate([pivot, length[:, None], np.zeros((world.rows, 2))], axis=1)
    as_read = _readings(World.nominal(world.build, world.ledger), stick)
    own = pivot_of(as_read.knobs, as_read.prior)
    bent = is_bent(as_read, np.concatenate([own[0], own[1][:, None], np.zeros((1, 2))], axis=1))
    found = fitted(readings, start, bent=bent)
    return found.pivot, found.unknowns[:, 3], found.tops(readings), bent


@of_cars
def lever(world: World) -> LeverPositions | None:
    """Return the gear lever in every world, None where it was not read."""
    stick = world.build.car.lever
    if stick is None:
        return None
    names = tuple(one.gear for one in stick.moves)
    knobs = _read(world, stick.moves)
    pivot, length, tops, bent = _fit(world, stick)
    miss = np.abs(np.linalg.norm(knobs - pivot[:, None], axis=-1) - length[:, None])
    play = world.build.car.engine_moves
    shifts = [
        np.zeros(world.rows) if play is None else world.read(play, name)
        for name in ("across", "along")
    ]
    return LeverPositions(
        names,
        knobs,
        tops,
        pivot,
        world.read(stick, "shaft") / 2,
        world.read(stick, "knob") / 2,
        float(miss.mean(axis=0).max()),
        bent,
        np.maximum(shifts[0], 0.0),
        np.maximum(shifts[1], 0.0),
    )
