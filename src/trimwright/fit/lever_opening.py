"""Gaps around the gear lever's shaft: its opening's rim on both faces, in every gear."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.car import LeverPositions, World
from trimwright.fit.gap import Gap, Unknown
from trimwright.fit.rigid import turn
from trimwright.fit.rim import Rim, room_to_rim
from trimwright.fit.shell import decks, grows_mm, outside, thicker_mm, turned_in_mm
from trimwright.fit.source import Found, Scene, point
from trimwright.parts import Carcass, Hole, Panel

Floats = NDArray[np.float64]
STANDING, MOVED = "lever to opening, standing", "lever to opening, engine moved"
FELT_MM = 2.0  # contact is felt and heard below this; common practice, no source
KEYS = ("car.lever", "car.lever knob", "console.openings", "covers.deck")


class Shafts(Struct, frozen=True, eq=False):
    """The lever's middle lines in the axes of a panel, their origin in the hole's middle."""

    foot: Floats  # (rows, 1, 3)
    way: Floats  # (rows, g, 3), foot to top
    axes: Floats  # (rows, 3, 3), rows u, v, n in the car
    origin: Floats  # (rows, 3) in the car

    def at(self, height: Floats) -> Floats:
        """Return where the lines pass a height (rows,) over the bare face, (rows, g, 2)."""
        share = (height[:, None] - self.foot[..., 2]) / self.way[..., 2]
        return np.asarray(self.foot[..., :2] + share[..., None] * self.way[..., :2])


def shafts(
    scene: Scene, stick: LeverPositions, panel: Panel, middle: tuple[float, float]
) -> Shafts:
    """Return the lever in the axes of a panel of the resting console."""
    origin = scene.placed(panel.frame.placed(np.array([middle])))[:, 0]
    flat = np.array([panel.frame.u, panel.frame.v, panel.frame.n])
    axes = np.einsum("kd,rcd->rkc", flat, turn(scene.motion))
    foot = np.einsum("rkc,rc->rk", axes, stick.pivot - origin)[:, None]
    tops = np.einsum("rkc,rgc->rgk", axes, stick.tops - origin[:, None])
    return Shafts(foot, tops - foot, axes, origin)


class LeverOpening(Struct, frozen=True):
    """The shaft in its opening, standing and with the engine moved its worst way.

    Attributes
    ----------
    gaps : tuple of Gap
        Standing, and with the engine moved.
    panel : Panel
        The deck with the hole.
    hole : Hole
        The opening.
    """

    gaps: tuple[Gap, ...]
    panel: Panel
    hole: Hole

    def found(self, scene: Scene) -> Found:
        """Return the least room over gears and both faces."""
        stick = scene.stick
        if stick is None:
            raise ValueError("scene must hold the lever")
        lines = shafts(scene, stick, self.panel, self.hole.centre)
        rim = self._rim(scene.world)
        faces = (
            outside(scene.world, self.panel),
            grows_mm(scene.world, self.panel) - self.panel.thickness - thicker_mm(scene.world),
        )
        rooms, places = [], []
        for height in faces:
            place = lines.at(height)
            places.append((place, height))
            worst = self._shifted(place, stick)
            rooms.append([room_to_rim(rim, at, lines.way) for at in (place, worst)])
        values, witness = [], []
        for k in range(len(self.gaps)):
            room = (
                np.stack([face[k] for face in rooms], axis=-1) - stick.shaft_radius[:, None, None]
            )
            values.append(room.reshape(len(room), -1).min(axis=1))
            gear, face = np.unravel_index(int(np.argmin(room[0])), room[0].shape)
            at, height = places[int(face)]
            witness.append(
                _points(
                    lines,
                    (at[0, int(gear)], float(height[0])),
                    self._rim_point(rim, at[0, int(gear)]),
                )
            )
        return Found(np.stack(values, axis=-1), tuple(witness))

    def _rim(self, world: World) -> Rim:
        """Return the opening with the leather turned in, each figure (rows, 1)."""
        turned = turned_in_mm(world)[:, None]
        return Rim(
            self.hole.long / 2 - turned,
            self.hole.wide / 2 - turned,
            np.maximum(self.hole.corner - turned, 0.0),
        )

    @staticmethod
    def _shifted(place: Floats, stick: LeverPositions) -> Floats:
        """Return where the shaft is with the engine moved away from the opening's middle.

        Room shrinks outwards both ways, so the worst of the four corners of the engine's play is
        the one outward of where the shaft stands.
        """
        play = np.stack([stick.along, stick.across], axis=-1)[:, None]
        return place + np.where(place < 0, -1.0, 1.0) * play

    @staticmethod
    def _rim_point(rim: Rim, place: Floats) -> Floats:
        """Return the rim's point nearest to a place inside it, nominal."""
        half = np.array([float(rim.long[0, 0]), float(rim.wide[0, 0])])
        radius, sign = float(rim.corner[0, 0]), np.where(place < 0, -1.0, 1.0)
        past = np.abs(place) - (half - radius)
        if (past > 0).all():
            reach = max(float(np.linalg.norm(past)), 1e-9)
            return np.asarray(sign * (half - radius + radius * past / reach))
        side = int(np.argmin(half - np.abs(place)))
        found = place.copy()
        found[side] = sign[side] * half[side]
        return found


def _points(
    lines: Shafts, shaft: tuple[Floats, float], rim: Floats
) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    """Return the rim's point and the shaft's in the car, first row."""
    at, height = shaft
    local = np.array([[*rim, height], [*at, height]])
    both = lines.origin[0] + local @ lines.axes[0]
    return point(both[0]), point(both[1])


def lever_opening(
    build: Build, carcass: Carcass, scene: Scene
) -> tuple[LeverOpening | None, tuple[Unknown, ...]]:
    """Return the gap between the lever's shaft and its opening, or what is missing.

    Parameters
    ----------
    build : Build
        For the wanted gap.
    carcass : Carcass
        With the openings.
    scene : Scene
        The nominal row, with the console at rest.
    """
    stick = scene.stick
    if stick is None:
        missing = ("where the gear lever's knob is in neutral and at its furthest",)
        return None, (Unknown(STANDING, missing, KEYS[:2]), Unknown(MOVED, missing, KEYS[:2]))
    spot = opening_of(carcass, scene, stick)
    if spot is None:
        missing = ("an opening in the deck for the gear lever",)
        return None, tuple(
            Unknown(name, missing, ("console.openings",)) for name in (STANDING, MOVED)
        )
    says = "from the shaft to the rim of its covered opening, on both faces, in every gear"
    between = (spot[0].name, "gear lever")
    wanted = build.wanted.lever_to_opening.value
    moved = f"{says}, with the engine at the end of its play"
    gaps = (
        Gap(STANDING, says, between, wanted, KEYS, moves=True),
        Gap(MOVED, moved, between, min(wanted, FELT_MM), (*KEYS, "car.engine moves"), moves=True),
    )
    return LeverOpening(gaps, *spot), ()


def opening_of(carcass: Carcass, scene: Scene, stick: LeverPositions) -> tuple[Panel, Hole] | None:
    """Return the opening the lever stands in, or the nearest one that is named after it."""
    found = []
    for panel in decks(carcass):
        for hole in panel.holes:
            lines = shafts(scene, stick, panel, hole.centre)
            away = np.abs(lines.at(np.zeros(1))[0]).mean(axis=0)
            inside = bool(away[0] <= hole.long / 2 and away[1] <= hole.wide / 2)
            named = any(word in hole.name.lower() for word in ("lever", "gear", "shift"))
            if inside or named:
                found.append((not named, float(away.sum()), panel, hole))
    if not found:
        return None
    best = min(found, key=lambda one: one[:2])
    return best[2], best[3]
