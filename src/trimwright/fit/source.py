"""What a family of gaps is asked, and what it answers."""

from typing import Protocol

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.car import CarpetBed, DashUnderside, LeverPositions, World, carpet, dash, lever
from trimwright.fit.gap import Gap, Point
from trimwright.fit.rigid import placed, placed_off

Floats = NDArray[np.float64]


class Scene(Struct, frozen=True, eq=False):
    """Some worlds with the console at rest in each.

    Attributes
    ----------
    world : World
        The figures, row by row.
    motion : ndarray, shape (rows, 3)
        Rise, pitch, roll of the console; zeros where it tips.
    about : ndarray, shape (3,)
        The point it turns about [mm].
    soft, stick, under : CarpetBed, LeverPositions or None, DashUnderside or None
        Carpet, gear lever and dash of these worlds, None where they were not read.
    """

    world: World
    motion: Floats
    about: Floats
    soft: CarpetBed
    stick: LeverPositions | None
    under: DashUnderside | None

    @classmethod
    def of(cls, world: World, motion: Floats, about: Floats) -> "Scene":
        """Return a scene with what its worlds hold."""
        return cls(world, motion, about, carpet(world), lever(world), dash(world))

    def placed(self, points: Floats) -> Floats:
        """Return points of the console where they come to rest, shape (rows, n, 3)."""
        return placed(points, self.motion, self.about)

    def placed_off(self, points: Floats, ways: Floats, off: Floats) -> Floats:
        """Return points (n, 3) that stand `off` (rows, n) along `ways` (n, 3) where they rest."""
        return placed_off(points, ways, off, self.motion, self.about)

    def nominal(self, points: Floats) -> Floats:
        """Return points of the console where they come to rest in the first row, shape (n, 3)."""
        return np.asarray(placed(points, self.motion[:1], self.about)[0])


class Found(Struct, frozen=True, eq=False):
    """Gaps of one family: values (rows, gaps) [mm], nearest points of each for the first row."""

    values: Floats
    witness: tuple[tuple[Point, Point] | None, ...]


class Source(Protocol):
    """A family of gaps that can be evaluated."""

    @property
    def gaps(self) -> tuple[Gap, ...]:
        """Its gaps, in the order of its values."""

    def found(self, scene: Scene) -> Found:
        """Return the gaps in every world of the scene."""


def point(place: Floats) -> Point:
    """Return a place as three numbers.

    Examples
    --------
    >>> point(np.array([1.0, 2.0, 3.0]))
    (1.0, 2.0, 3.0)
    """
    x, y, z = (float(one) for one in place)
    return x, y, z
