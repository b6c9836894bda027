"""Gaps around the gear lever's knob: to the dash and to the deck, in every gear."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.car import LeverPositions, World, dash, lever, of_cars
from trimwright.fit.gap import Gap, Point, Unknown
from trimwright.fit.lever_opening import FELT_MM
from trimwright.fit.rigid import turn
from trimwright.fit.shell import decks, outside
from trimwright.fit.source import Found, Scene, point
from trimwright.parts import Carcass, Panel

Floats = NDArray[np.float64]
DASH, DASH_MOVED, DECK = "knob to dash", "knob to dash, engine moved", "knob to deck"
STEPS = 8  # straight pieces of the dash's underside that the knob is measured against


def _stick(scene: Scene) -> LeverPositions:
    """Return the lever, which a gap of the knob cannot do without."""
    if scene.stick is None:
        raise ValueError("scene must hold the lever")
    return scene.stick


class KnobDash(Struct, frozen=True):
    """The knob, a ball, against the dash's underside in the upright plane through it.

    Attributes
    ----------
    gaps : tuple of Gap
        Standing, and with the engine moved.
    """

    gaps: tuple[Gap, ...]

    def found(self, scene: Scene) -> Found:
        """Return the least room over the gears, standing and with the engine moved forward."""
        return _dash_room(scene.world)


@of_cars
def _dash_room(world: World) -> Found:
    """Return the least room over the gears, in which no console has a say.

    The knob's plane in each gear is the one that was read.
    """
    stick, as_read, under = (
        lever(world),
        lever(World.nominal(world.build, world.ledger)),
        dash(world),
    )
    if stick is None or as_read is None or under is None:
        raise ValueError("world must hold the lever and the dash")
    x = np.linspace(*under.span, STEPS + 1)
    gears = stick.knobs.shape[1]
    across = np.repeat(as_read.knobs[0, :, 1], len(x))
    z = under.height(np.tile(x, gears), across).reshape(-1, gears, len(x))
    # beside an area that was read the dash is unknown: there it is taken as far away
    z = np.where(np.isnan(z), 1e6, z)
    values, witness = [], []
    for k in range(2):
        shift = stick.along[:, None] * k
        room, near = _room_under(x, z, stick.knobs[..., 0] - shift, stick.knobs[..., 2])
        room = room - stick.knob_radius[:, None]
        values.append(room.min(axis=1))
        gear = int(np.argmin(room[0]))
        knob = stick.knobs[0, gear] - np.array([shift[0, 0], 0.0, 0.0])
        above = (float(near[0, gear, 0]), float(knob[1]), float(near[0, gear, 1]))
        witness.append((point(knob), above))
    return Found(np.stack(values, axis=-1), tuple(witness))


def _room_under(x: Floats, z: Floats, at_x: Floats, at_z: Floats) -> tuple[Floats, Floats]:
    """Return the signed distance of points from below a line, and the nearest point on it.

    Parameters
    ----------
    x : ndarray, shape (s,)
        Places of the line [mm], rising.
    z : ndarray, shape (rows, g, s)
        Its heights [mm].
    at_x, at_z : ndarray, shape (rows, g)
        The points [mm]; below 0 where one lies above the line, within its length.
    """
    run, rise = np.diff(x), np.diff(z, axis=-1)
    to_x, to_z = at_x[..., None] - x[:-1], at_z[..., None] - z[..., :-1]
    share = np.clip((to_x * run + to_z * rise) / (run**2 + rise**2), 0.0, 1.0)
    off_x, off_z = to_x - share * run, to_z - share * rise
    far = np.sqrt(off_x**2 + off_z**2)
    best = np.argmin(far, axis=-1)[..., None]
    over = (off_z > 0) & (to_x >= 0) & (to_x <= run)
    sign = np.where(over.any(axis=-1), -1.0, 1.0)
    near = [at_x - np.take_along_axis(off_x, best, -1)[..., 0]]
    near.append(at_z - np.take_along_axis(off_z, best, -1)[..., 0])
    return sign * np.take_along_axis(far, best, -1)[..., 0], np.stack(near, axis=-1)


class KnobDeck(Struct, frozen=True, eq=False):
    """The knob over the covered deck."""

    gap: Gap
    panels: tuple[Panel, ...]

    @property
    def gaps(self) -> tuple[Gap, ...]:
        """The one gap."""
        return (self.gap,)

    def found(self, scene: Scene) -> Found:
        """Return the least room over gears, square to the panel of the deck under each."""
        stick = _stick(scene)
        rooms = []
        for panel in self.panels:
            origin = scene.placed(np.array([panel.frame.origin]))
            normal = turn(scene.motion) @ np.array(panel.frame.n)
            room = np.einsum("rgk,rk->rg", stick.knobs - origin, normal)
            rooms.append(room - outside(scene.world, panel)[:, None] - stick.knob_radius[:, None])
        # panels of a deck are planes that the deck lies under where it bulges: the furthest counts
        room = np.stack(rooms, axis=-1)
        start = np.array([panel.outer_points()[:, 0].min() for panel in self.panels])
        under = np.clip(np.searchsorted(start, stick.knobs[..., 0], side="right") - 1, 0, None)
        over = np.take_along_axis(room, under[..., None], axis=-1)[..., 0]
        gear = int(np.argmin(over[0]))
        knob = point(stick.knobs[0, gear])
        below: Point = (knob[0], knob[1], knob[2] - float(over[0, gear] + stick.knob_radius[0]))
        return Found(over.min(axis=1)[:, None], ((below, knob),))


def knob_gaps(
    build: Build, carcass: Carcass, scene: Scene
) -> tuple[tuple[KnobDash | KnobDeck, ...], tuple[Unknown, ...]]:
    """Return the knob's gaps to dash and deck, and what is missing for them."""
    keys = ("car.lever", "car.lever knob")
    if scene.stick is None:
        missing = ("where the gear lever's knob is in neutral and at its furthest",)
        return (), tuple(Unknown(name, missing, keys) for name in (DASH, DASH_MOVED, DECK))
    wanted = build.wanted.lever_to_opening.value
    says = "square up from the covered deck to the knob, in every gear"
    deck = Gap(DECK, says, ("deck", "gear knob"), wanted, (*keys, "covers.deck"), moves=True)
    found = KnobDeck(deck, decks(carcass))
    dash_keys = ("car.dash above tunnel", "car.dash")
    if scene.under is None:
        missing = ("how high the dash's underside is",)
        return (found,), tuple(Unknown(name, missing, dash_keys) for name in (DASH, DASH_MOVED))
    says = "the shortest way from the knob to the dash's underside, in every gear"
    between = ("gear knob", "dash")
    moved = f"{says}, with the engine at the end of its play"
    all_keys = (*keys, *dash_keys, "car.engine moves")
    gaps = (
        Gap(DASH, says, between, wanted, (*keys, *dash_keys), moves=True),
        Gap(DASH_MOVED, moved, between, min(wanted, FELT_MM), all_keys, moves=True),
    )
    return (KnobDash(gaps), found), ()
