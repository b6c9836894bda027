"""Gap 'handbrake': the bar through its swing against every panel and its opening."""

import numpy as np

from trimwright.build import Build
from trimwright.car import World, handbrake
from trimwright.fit.convex import rod
from trimwright.fit.gap import Gap
from trimwright.fit.pair import Clearance, Resting, Solid, nearest_pairs
from trimwright.fit.source import Scene


def _bars(world: World) -> tuple[Solid, ...]:
    """Return the bar at each step of its swing."""
    swing = handbrake(world)
    if swing is None:
        return ()
    ends = np.stack([swing.starts, swing.ends], axis=2)
    return tuple(Solid(ends[:, k], swing.radius) for k in range(ends.shape[1]))


def handbrake_gap(build: Build, own: Resting, scene: Scene) -> Clearance | None:
    """Return the gap around the handbrake, None where the car's handbrake was not read.

    Parameters
    ----------
    build : Build
        For the wanted gap.
    own : Resting
        Pieces of the console.
    scene : Scene
        The nominal row, with the console at rest.
    """
    bars = _bars(scene.world)
    if not bars:
        return None
    rods = tuple(rod(b.corners[0, 0], b.corners[0, 1], float(b.coat[0])) for b in bars)
    pairs = nearest_pairs(own, rods)
    near = pairs[0].own.panel.name
    gap = Gap(
        "handbrake",
        "the shortest way from the covered wood to the bar, released to pulled",
        (near, "handbrake"),
        build.wanted.handbrake.value,
        ("car.handbrake", "covers.deck", "car.carpet", "car.tunnel"),
        moves=True,
    )
    return Clearance(gap, pairs, _bars)
