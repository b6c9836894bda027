"""Bodies fixed to the car, as convex pieces in every world."""

from typing import Final

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Body, Box, Cylinder, Outline
from trimwright.car.world import World, of_cars

Floats = NDArray[np.float64]

SIDES: Final = 24  # of the prism that stands for a cylinder
CORNERS: Final = tuple((i, j, k) for i in (0, 1) for j in (0, 1) for k in (0, 1))


class SolidBody(Struct, frozen=True, eq=False):
    """A body fixed to the car as convex pieces, each by its corners (rows, k, 3) [mm]."""

    name: str
    pieces: tuple[Floats, ...]


@of_cars
def bodies(world: World) -> tuple[SolidBody, ...]:
    """Return the other bodies in every world, in the order of the file.

    A cylinder is a prism of 24 sides round it, at most 0.9 % of its radius too large; an outline
    that is hollow somewhere is cut into triangles.
    """
    return tuple(SolidBody(one.name, _pieces(world, one)) for one in world.build.car.bodies)


def _pieces(world: World, body: Body) -> tuple[Floats, ...]:
    if body.box is not None:
        return (_box(world, body.box),)
    if body.cylinder is not None:
        return (_cylinder(world, body.cylinder),)
    return _outline(world, body.outline) if body.outline is not None else ()


def _box(world: World, box: Box) -> Floats:
    ends = [
        np.stack([world.read(box, low), world.read(box, high)], axis=-1)
        for low, high in (("start", "end"), ("left", "right"), ("bottom", "top"))
    ]
    picks = np.array(CORNERS)
    return np.stack([ends[axis][:, picks[:, axis]] for axis in range(3)], axis=-1)


def _cylinder(world: World, cylinder: Cylinder) -> Floats:
    start, end = (
        np.stack([world.read(place, name) for name in ("at", "across", "up")], axis=-1)
        for place in (cylinder.start, cylinder.end)
    )
    axis = (end - start).mean(axis=0)
    length = float(np.linalg.norm(axis))
    axis = axis / length if length > 0 else np.array([1.0, 0.0, 0.0])
    least = np.eye(3)[int(np.argmin(np.abs(axis)))]
    first = np.cross(axis, least)
    first /= np.linalg.norm(first)
    second = np.cross(axis, first)
    turn = 2 * np.pi * np.arange(SIDES) / SIDES
    ring = np.cos(turn)[:, None] * first + np.sin(turn)[:, None] * second
    radius = world.read(cylinder, "thick") / 2 / np.cos(np.pi / SIDES)
    rings = radius[:, None, None] * ring
    return np.concatenate([start[:, None] + rings, end[:, None] + rings], axis=1)


def _outline(world: World, outline: Outline) -> tuple[Floats, ...]:
    flat = np.stack(
        [
            np.stack([world.read(point, "across"), world.read(point, "up")], axis=-1)
            for point in outline.points
        ],
        axis=1,
    )
    ends = (world.read(outline, "start"), world.read(outline, "end"))
    nominal = np.array([[point.across.value, point.up.value] for point in outline.points])
    return tuple(_drawn_out(flat[:, list(piece)], ends) for piece in convex_pieces(nominal))


def _drawn_out(flat: Floats, ends: tuple[Floats, Floats]) -> Floats:
    sides = [
        np.concatenate([np.broadcast_to(x[:, None, None], (*flat.shape[:2], 1)), flat], axis=-1)
        for x in ends
    ]
    return np.concatenate(sides, axis=1)


def _turn(a: Floats, b: Floats, c: Floats) -> float:
    return float((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]))


def convex_pieces(corners: Floats) -> tuple[tuple[int, ...], ...]:
    """Return an outline (n, 2) as convex pieces by the numbers of its corners.

    The whole outline where it is convex, else triangles cut off corner by corner.

    Raises
    ------
    ValueError
        If it has fewer than three corners or crosses itself.

    Examples
    --------
    >>> convex_pieces(np.array([[0.0, 0], [10, 0], [10, 10], [0, 10]]))
    ((0, 1, 2, 3),)
    >>> len(convex_pieces(np.array([[0.0, 0], [10, 0], [10, 10], [5, 5], [0, 10]])))
    3
    """
    count = len(corners)
    if count < 3:  # noqa: PLR2004  an outline
        raise ValueError(f"corners must be 3 or more, got {count}")
    after = np.roll(corners, -1, axis=0)
    area = float((corners[:, 0] * after[:, 1] - corners[:, 1] * after[:, 0]).sum())
    left = list(range(count)) if area > 0 else list(range(count))[::-1]
    turns = [_turn(*corners[[left[k - 1], left[k], left[(k + 1) % count]]]) for k in range(count)]
    if min(turns) >= 0:
        return (tuple(left),)
    pieces: list[tuple[int, ...]] = []
    while len(left) > 3:  # noqa: PLR2004  a triangle is left
        ear = next((k for k in range(len(left)) if _is_ear(corners, left, k)), None)
        if ear is None:
            raise ValueError("corners must not cross each other's sides, got an outline that does")
        pieces.append((left[ear - 1], left[ear], left[(ear + 1) % len(left)]))
        del left[ear]
    return (*pieces, tuple(left))


def _is_ear(corners: Floats, left: list[int], k: int) -> bool:
    """Return whether corner k can be cut off: it bulges, and no other corner lies in it."""
    numbers = [left[k - 1], left[k], left[(k + 1) % len(left)]]
    a, b, c = corners[numbers]
    if _turn(a, b, c) <= 0:
        return False
    others = corners[[one for one in left if one not in numbers]]
    return not any(min(_turn(a, b, p), _turn(b, c, p), _turn(c, a, p)) >= 0 for p in others)
