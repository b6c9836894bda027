"""A gap, a gap that could not be evaluated, and gaps row by row."""

from typing import Any, Literal

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright.fit.first_guess import Rests

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Point = tuple[float, float, float]


class Gap(Struct, frozen=True):
    """One gap that matters.

    Attributes
    ----------
    name : str
        What it is called: 'nose to dash'.
    says : str
        How it is measured, in words.
    between : tuple of str
        The console's part and what it comes near.
    wanted : float
        What the builder wants [mm].
    keys : tuple of str
        Keys of the readings it rests on; a key stands for all below it.
    sense : {'at least', 'at most'}
        Whether the wanted figure is the least (a clearance) or the most (daylight).
    moves : bool
        Whether the two move against each other while the car is driven or used.
    part_of : str
        The gap this is one side of, or empty: a place to probe, already counted in the whole.
    """

    name: str
    says: str
    between: tuple[str, str]
    wanted: float
    keys: tuple[str, ...]
    sense: Literal["at least", "at most"] = "at least"
    moves: bool = False
    part_of: str = ""


class Unknown(Struct, frozen=True):
    """A gap that could not be evaluated: `missing` names in words what is not there."""

    gap: str
    missing: tuple[str, ...]
    keys: tuple[str, ...]


class GapTable(Struct, frozen=True, eq=False):
    """Gaps and poses, row by row.

    Attributes
    ----------
    values : ndarray, shape (rows, gaps)
        Gaps with all covers on [mm], below 0 where the bodies overlap; NaN where the console tips.
    poses : ndarray, shape (rows, 3)
        Rise [mm], pitch [rad, nose up], roll [rad, right side up]; NaN where it tips.
    tips, lifts, full : ndarray, shape (rows,)
        The load stands outside the foot print; part of an edge has lifted off the carpet; the
        carpet is squeezed flat somewhere.
    settled : ndarray, shape (rows,)
        The rest was found; always true unless it tips.
    witness : tuple
        For each gap of the first row the nearest points (on the console, on the other), or None.
    rests : Rests or None
        The poses, for another console to start from; None where the nominal one tips.
    """

    values: Floats
    poses: Floats
    tips: Flags
    lifts: Flags
    full: Flags
    settled: Flags
    witness: tuple[tuple[Point, Point] | None, ...] = ()
    rests: Rests | None = None

    def followed_by(self, other: "GapTable", parts: int) -> "GapTable":
        """Return both tables' rows: each of so many equal parts of this, then the other's part.

        Examples
        --------
        >>> none = np.zeros(2, dtype=bool)
        >>> one, two = (GapTable(np.array([[a], [b]]), np.zeros((2, 3)), none, none, none, none)
        ...             for a, b in ((1.0, 2.0), (3.0, 4.0)))
        >>> one.followed_by(two, 2).values.ravel().tolist()
        [1.0, 3.0, 2.0, 4.0]
        """

        def woven(first: NDArray[Any], second: NDArray[Any]) -> NDArray[Any]:
            split = [one.reshape(parts, -1, *one.shape[1:]) for one in (first, second)]
            return np.concatenate(split, axis=1).reshape(-1, *first.shape[1:])

        rests, more = self.rests, other.rests
        if rests is not None and more is not None:
            small, true = woven(rests.small, more.small), woven(rests.true, more.true)
            rests = replace(rests, small=small, true=true)
        return GapTable(
            woven(self.values, other.values),
            woven(self.poses, other.poses),
            woven(self.tips, other.tips),
            woven(self.lifts, other.lifts),
            woven(self.full, other.full),
            woven(self.settled, other.settled),
            self.witness,
            rests,
        )

    def margins(self, gaps: tuple[Gap, ...]) -> Floats:
        """Return what each gap has to spare over what is wanted, shape (rows, gaps) [mm].

        Raises
        ------
        ValueError
            If the gaps are not those of the table.

        Examples
        --------
        >>> none = np.zeros(1, dtype=bool)
        >>> table = GapTable(np.array([[9.0, 2.0]]), np.zeros((1, 3)), none, none, none, ~none)
        >>> gaps = (Gap("nose to dash", "", ("deck", "dash"), 6.0, ()),
        ...         Gap("daylight", "", ("wall", "carpet"), 3.0, (), "at most"))
        >>> table.margins(gaps).tolist()
        [[3.0, 1.0]]
        """
        if len(gaps) != self.values.shape[1]:
            raise ValueError(f"gaps must be the table's {self.values.shape[1]}, got {len(gaps)}")
        way = np.array([1.0 if gap.sense == "at least" else -1.0 for gap in gaps])
        wanted = np.array([gap.wanted for gap in gaps])
        return np.asarray(way * (self.values - wanted))
