"""Gaps between the console and every other body fixed to the car."""

from functools import lru_cache

import numpy as np

from trimwright.build import Build
from trimwright.car import World, bodies
from trimwright.fit.convex import Piece
from trimwright.fit.gap import Gap
from trimwright.fit.hull import hull
from trimwright.fit.pair import Clearance, Resting, Solid, nearest_pairs
from trimwright.fit.source import Scene


def body_gaps(build: Build, own: Resting, scene: Scene) -> tuple[Clearance, ...]:
    """Return the gap to each body, in the order of the file.

    Parameters
    ----------
    build : Build
        For the wanted gap.
    own : Resting
        Pieces of the console.
    scene : Scene
        The nominal row, with the console at rest.
    """
    return tuple(_body_gap(build, number, own, scene) for number in range(len(build.car.bodies)))


def _body_gap(build: Build, number: int, own: Resting, scene: Scene) -> Clearance:
    """Return the gap to one body."""

    def solids(world: World) -> tuple[Solid, ...]:
        none = np.zeros(world.rows)
        return tuple(Solid(corners, none) for corners in bodies(world)[number].pieces)

    pieces = tuple(_hull(solid.corners[0].tobytes()) for solid in solids(scene.world))
    pairs = nearest_pairs(own, pieces)
    body = build.car.bodies[number]
    near = pairs[0].own.panel.name
    gap = Gap(
        f"{near} to {body.name}",
        "the shortest way from the covered panel to it, whichever way that is",
        (near, body.name),
        build.wanted.other_bodies.value,
        (body.key, "covers", "car.carpet", "car.tunnel"),
    )
    return Clearance(gap, pairs, solids)


@lru_cache(maxsize=64)
def _hull(corners: bytes) -> Piece:
    """Return the hull of corners in one array's bytes: a body is the same for every console."""
    return hull(np.frombuffer(corners).reshape(-1, 3))
