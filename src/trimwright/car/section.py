"""One section as points that follow its readings."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.car.curve import Curve

Floats = NDArray[np.float64]

STEP = 0.25  # mm by which each reading is moved to see what the surface does


class Term(Struct, frozen=True, eq=False):
    """One reading's part in a section: points move by `share` (n, 2) for each mm of it.

    `lifts` is for what the section was taken over: mm that the metal lies below for each mm.
    """

    key: str
    value: float
    share: Floats
    lifts: float = 0.0


class SectionShape(Struct, frozen=True, eq=False):
    """A section: fixed points (n, 2), the terms that move them, and where the curve breaks.

    Points run from left to right: y right, z up [mm]. `at` is the place along the car [mm].
    """

    at: float
    at_key: str
    fixed: Floats
    terms: tuple[Term, ...]
    corners: tuple[int, ...] = ()

    def variants(self) -> Floats:
        """Return the points as read, then with each reading larger by `STEP`, (1 + p, n, 2)."""
        values = np.array([term.value for term in self.terms])
        shares = np.array([term.share for term in self.terms]).reshape(-1, *self.fixed.shape)
        lifts = np.array([term.lifts for term in self.terms])
        steps = np.concatenate([np.zeros((1, len(values))), np.eye(len(values)) * STEP])
        points = self.fixed + np.tensordot(values + steps, shares, axes=1)
        thick = (values + steps) @ lifts
        if np.any(lifts != 0):
            over = Curve.through(points, self.corners)
            points = points - thick[:, None, None] * over.normals(over.s)
        return points

    @property
    def keys(self) -> tuple[str, ...]:
        """The readings that the section hangs on, in order."""
        return tuple(term.key for term in self.terms)


def nominal_curve(shape: SectionShape) -> Curve:
    """Return the curve of a section as read."""
    return Curve.through(shape.variants()[:1], shape.corners)


class Rail(Struct, frozen=True, eq=False):
    """A section resampled: `points` (m, 2) even in arc length, `moves` (p, m, 2) per mm."""

    at: float
    points: Floats
    keys: tuple[str, ...]
    moves: Floats


def corner_numbers(shapes: tuple[SectionShape, ...], foot_mm: float, count: int) -> tuple[int, ...]:
    """Return the numbers of the points at which the sections' corners come to lie.

    Only where every section has as many; a corner then runs along the car as an edge.
    """
    wanted = len(shapes[0].corners)
    if not wanted or any(len(one.corners) != wanted for one in shapes):
        return ()
    shares = [nominal_curve(one).shares(foot_mm, one.corners)[0] for one in shapes]
    return tuple(round(float(share) * (count - 1)) for share in np.mean(shares, axis=0))


def rail(shape: SectionShape, foot_mm: float, count: int, numbers: tuple[int, ...] = ()) -> Rail:
    """Return a section cut at the height `foot_mm`, and how it follows each reading.

    `numbers` are the points that its corners become.
    """
    marks = tuple(zip(shape.corners, numbers, strict=True)) if numbers else ()
    even = Curve.through(shape.variants(), shape.corners).even(foot_mm, count, marks)
    return Rail(shape.at, even[0], shape.keys, (even[1:] - even[0]) / STEP)
