"""Gap 'nose to dash': the covered deck under the dash, straight up."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.car import DashUnderside
from trimwright.fit.gap import Gap, Unknown
from trimwright.fit.shell import Patch, covered, decks, face_patch, walls
from trimwright.fit.source import Found, Scene, point
from trimwright.parts import Carcass

Floats = NDArray[np.float64]
NAME = "nose to dash"
ALONG, ACROSS = 9, 3  # points over the deck under the dash; both its edges are among them
STEP_MM = 2.0  # over which the dash's slope is taken


class Nose(Struct, frozen=True, eq=False):
    """The deck under the dash.

    Attributes
    ----------
    gaps : tuple of Gap
        The whole, then its left and right half as places to probe.
    patches : tuple of Patch
        Points on deck and wall tops that the dash covers.
    """

    gaps: tuple[Gap, ...]
    patches: tuple[Patch, ...]

    def found(self, scene: Scene) -> Found:
        """Return the least height from cover to dash, whole, left and right."""
        under = scene.under
        if under is None:
            raise ValueError("scene must hold the dash")
        at = np.concatenate([patch.points for patch in self.patches])
        placed = covered(self.patches, scene)
        over = ceiling(under, at, placed)
        room = over - placed[..., 2]
        sides = (np.ones(len(at), dtype=bool), at[:, 1] <= 0, at[:, 1] >= 0)
        values, witness = [], []
        for side in sides:
            values.append(room[:, side].min(axis=1))
            nearest = np.flatnonzero(side)[int(np.argmin(room[0, side]))]
            low = placed[0, nearest]
            witness.append((point(low), (float(low[0]), float(low[1]), float(over[0, nearest]))))
        return Found(np.stack(values, axis=-1), tuple(witness))


def ceiling(under: DashUnderside, at: Floats, placed: Floats) -> Floats:
    """Return the dash's height over points that have moved a little from `at`, (rows, n)."""
    x = np.concatenate([at[:, 0] - STEP_MM, at[:, 0]])
    back, here = np.split(under.height(x, np.tile(at[:, 1], 2)), 2, axis=1)
    slope = np.where(np.isnan(back), 0.0, (here - back) / STEP_MM)
    return np.asarray(here + slope * (placed[..., 0] - at[:, 0]))


def nose(build: Build, carcass: Carcass, scene: Scene) -> tuple[Nose | None, tuple[Unknown, ...]]:
    """Return the gap under the dash, or what is missing for it.

    Parameters
    ----------
    build : Build
        For the wanted gap.
    carcass : Carcass
        With a deck.
    scene : Scene
        The nominal row.
    """
    keys = ("car.dash above tunnel", "car.dash")
    under = scene.under
    if under is None:
        return None, (Unknown(NAME, ("how high the dash's underside is",), keys),)
    decked = decks(carcass)
    front = float(min(panel.outer_points()[:, 0].min() for panel in decked))
    if front >= under.span[1]:
        says = "the dash's underside as far back as the console's front"
        return None, (Unknown(NAME, (says,), keys),)
    patches = _patches(carcass, under, (front, under.span[1]))
    if not patches:
        return None, (Unknown(NAME, ("the dash's underside over the console's nose",), keys),)
    ahead = under.span[0] - front
    unread = (
        (Unknown(f"{NAME}, front {ahead:.0f} mm", ("the dash's height further forward",), keys),)
        if ahead > 1.0
        else ()
    )
    return Nose(_gaps(build, keys), patches), unread


def _patches(
    carcass: Carcass, under: DashUnderside, span: tuple[float, float]
) -> tuple[Patch, ...]:
    """Return points on the deck and on the tops of the walls for which the dash is known."""
    found = [face_patch(panel, span, (ALONG, ACROSS)) for panel in decks(carcass)]
    for side in ("left", "right"):
        for panel in walls(carcass, side):
            whole = face_patch(panel, span, (ALONG, 2))
            found.append(Patch(panel, whole.points[1::2]) if whole else None)
    seen = [patch for patch in found if patch is not None]
    if not seen:
        return ()
    known = under.known(*np.concatenate([patch.points for patch in seen])[:, :2].T)
    ends = np.cumsum([len(patch.points) for patch in seen])[:-1]
    kept = zip(seen, np.split(known, ends), strict=True)
    return tuple(Patch(one.panel, one.points[which]) for one, which in kept if which.any())


def _gaps(build: Build, keys: tuple[str, ...]) -> tuple[Gap, ...]:
    """Return the whole gap and its two places to probe."""
    says = "straight up from the covered deck to the dash's underside, where it is least"
    wanted = build.wanted.nose_to_dash.value
    between = ("deck", "dash")
    on = (*keys, "covers.deck", "car.carpet", "car.tunnel", "car.layers")
    whole = Gap(NAME, says, between, wanted, on)
    halves = (
        Gap(f"nose {side} to dash", f"{says} on the {side} half", between, wanted, on, part_of=NAME)
        for side in ("left", "right")
    )
    return (whole, *halves)
