"""Where a console comes to rest on carpet: height, pitch and roll.

Sideways, fore-and-aft and yaw are held by friction and the screws: two lines of contact on sloped
sides leave them free, so they are not solved for. Weight and clamp force are carried by a bed that
only pushes, with p = W'(c) for a squeeze c. The energy sum(A W(c)) plus the load's is convex, so
there is one rest, found by Newton steps with a line search on that energy.
"""

from typing import Protocol

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright.fit.footprint import carries, outline

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
N_PER_KPA_MM2 = 1e-3
STEPS, HALVINGS = 60, 30
ARMIJO = 1e-4  # share of the promised fall in energy that a step must deliver
STEEP = 0.5  # share of the fall's steepness that a step may end with the other way, unasked
LONGEST_STEP_MM = 20.0
ONE, OTHER = [0, 0, 0, 1, 1, 2], [0, 1, 2, 1, 2, 2]  # of a symmetric 3 x 3 matrix
MIRRORED = [0, 1, 2, 1, 3, 4, 2, 4, 5]  # its nine entries from those six
FEW = 0.7  # share of the rows still moving below which the others are laid aside
# a step that moves no contact point further than this is the last one taken: steps shrink at least
# twentyfold by then, so what is left is below 0.0001 mm
STILL_MM = 1e-3


class Curve(Protocol):
    """Pressure against squeeze, row by row; one-sided, rising, C1, linear past full squeeze."""

    def at(self, squeeze: Floats) -> tuple[Floats, Floats]:
        """Return pressure [kPa] and stiffness dp/dc [kPa/mm] at squeezes (rows, n).

        Both are 0 where the squeeze is below 0, and so is the energy.
        """

    def energy(self, squeeze: Floats) -> Floats:
        """Return the integral of the pressure up to squeezes (rows, n) [kPa mm]."""

    def rows(self, which: Flags) -> "Curve":
        """Return the law of some of the rows."""


def lifted(plan: Floats) -> Floats:
    """Return how a unit of (z, pitch, roll) raises each place x, y (n, 2), shape (n, 3)."""
    found = np.ones((len(plan), 3))
    found[:, 1], found[:, 2] = -plan[:, 0], plan[:, 1]
    return found


class Contact(Struct, frozen=True, eq=False):
    """Points at which an edge may press on the bed.

    Attributes
    ----------
    x, y : ndarray, shape (n,)
        Places from the point the pose turns about [mm], rearward and to the right.
    overlap : ndarray, shape (rows, n)
        Height of the loose bed above the edge at zero pose [mm], negative where clear.
    upright : ndarray, shape (n,)
        Upward part of the bed's unit normal, above 0 to 1: normal squeeze = upright x overlap.
    bearing : ndarray, shape (rows, n) or (1, n)
        Plan area times the friction multiplier 1 + mu tan(slope) [mm2].
    """

    x: Floats
    y: Floats
    overlap: Floats
    upright: Floats
    bearing: Floats

    def plan(self) -> Floats:
        """Return the points in plan, shape (n, 2)."""
        return np.stack([self.x, self.y], axis=-1)

    def lift(self) -> Floats:
        """Return how a unit of (z, pitch, roll) raises each point, shape (n, 3)."""
        return lifted(self.plan())


class Load(Struct, frozen=True, eq=False):
    """A downward force and where it acts, shape (rows,): N, mm from the turning point."""

    force_n: Floats
    x: Floats
    y: Floats

    def pull(self) -> Floats:
        """Return the slope of the load's energy by (z, pitch, roll), shape (rows, 3)."""
        return np.stack([self.force_n, -self.force_n * self.x, self.force_n * self.y], axis=-1)


class Pose(Struct, frozen=True, eq=False):
    """Rest, row by row.

    Attributes
    ----------
    motion : ndarray, shape (rows, 3)
        Rise [mm], pitch [rad, nose up], roll [rad, right side up]; NaN where the load tips it.
    tips, settled : ndarray, shape (rows,)
        Load outside the foot print; Newton came to rest.
    squeeze : ndarray, shape (rows, n)
        Normal squeeze at each contact point [mm], negative where it has lifted off.
    small : ndarray, shape (rows, 3)
        The motion before the true turn was put in, where it was.
    """

    motion: Floats
    tips: Flags
    settled: Flags
    squeeze: Floats
    small: Floats


class _Spot(Struct, frozen=True):
    """Where the search stands: motion, squeeze, stiffness, the energy's slope by the motion."""

    motion: Floats
    squeeze: Floats
    stiffness: Floats
    slope: Floats

    def rows(self, which: Flags) -> "_Spot":
        """Return the state of some of the rows."""
        return _Spot(
            self.motion[which], self.squeeze[which], self.stiffness[which], self.slope[which]
        )

    def put(self, which: Flags, others: "_Spot") -> None:
        """Take the state of others for some of the rows."""
        self.motion[which], self.squeeze[which] = others.motion, others.squeeze
        self.stiffness[which], self.slope[which] = others.stiffness, others.slope


class _Search(Struct, frozen=True):
    """What stays the same while the rest is sought.

    For a unit of the carpet's law each point pushes by `bearing`, springs by `spring` and stores
    `store` [N/kPa]. `pairs` (n, 6) are the products of `lift` by `ONE` and `OTHER`, `size` (3, 3)
    the mean of its squares; no point moves further than the furthest of the `rim` (m, 3).
    """

    curve: Curve
    lift: Floats
    pairs: Floats
    size: Floats
    rim: Floats
    upright: Floats
    bearing: Floats
    spring: Floats
    store: Floats
    pull: Floats

    @classmethod
    def of(cls, contact: Contact, curve: Curve, pull: Floats) -> "_Search":
        """Return the search for where a bed holds against a pull (rows, 3)."""
        bearing, upright, lift = contact.bearing * N_PER_KPA_MM2, contact.upright, contact.lift()
        pairs, rim = lift[:, ONE] * lift[:, OTHER], lifted(outline(contact.plan()))
        size = np.diag(np.einsum("nk,nk->k", lift, lift) / len(lift))
        spring, store = bearing * upright, bearing / upright
        return cls(curve, lift, pairs, size, rim, upright, bearing, spring, store, pull)

    def rows(self, which: Flags) -> "_Search":
        """Return the search of some of the rows."""
        bearing, spring, store = (
            part if len(part) == 1 else part[which]
            for part in (self.bearing, self.spring, self.store)
        )
        return replace(
            self,
            curve=self.curve.rows(which),
            bearing=bearing,
            spring=spring,
            store=store,
            pull=self.pull[which],
        )

    def spot(self, motion: Floats, squeeze: Floats) -> _Spot:
        """Return the state at a motion, with its slope (rows, 3) [N, N mm, N mm]."""
        pressure, stiffness = self.curve.at(squeeze)
        slope = self.pull - (self.bearing * pressure) @ self.lift
        return _Spot(motion, squeeze, stiffness, slope)

    def stored(self, spot: _Spot) -> Floats:
        """Return the energy with the load's, (rows,) [N mm]."""
        energy = self.curve.energy(spot.squeeze)
        return np.asarray(np.einsum("rn,rn->r", self.store, energy) + self.work(spot))

    def work(self, spot: _Spot) -> Floats:
        """Return the load's energy, (rows,) [N mm]."""
        return np.asarray(np.einsum("rk,rk->r", self.pull, spot.motion))

    def bend(self, spot: _Spot) -> Floats:
        """Return the energy's second derivative, shape (rows, 3, 3), made safely positive."""
        bend = ((self.spring * spot.stiffness) @ self.pairs)[:, MIRRORED].reshape(-1, 3, 3)
        # where every point has lifted off the bed is flat: a soft spring gives a way down there
        softest = 1e-9 * np.maximum(bend[:, 0, 0], 1.0)
        return np.asarray(bend + softest[:, None, None] * self.size)

    def moved(self, spot: _Spot, step: Floats, change: Floats) -> _Spot:
        """Return the state after the longest of step, step/2 ... that comes nearer to rest.

        `change` (rows, n) is how much less the step squeezes each point. A step comes nearer where
        the energy, which is convex, is not much steeper the other way at its end; where it is, the
        energy itself is asked, which takes longer.
        """
        there = self.spot(spot.motion + step, spot.squeeze - change)
        falls = np.einsum("rk,rk->r", spot.slope, step)
        far = np.einsum("rk,rk->r", there.slope, step) > -STEEP * falls
        if far.any():
            self._held_back(spot, there, (step, change, falls), far)
        return there

    def _held_back(
        self, spot: _Spot, there: _Spot, way: tuple[Floats, Floats, Floats], far: Flags
    ) -> None:
        """Halve the steps that went far, in place, until each lets the energy fall."""
        step, change, falls = way
        share = 1.0
        for _ in range(HALVINGS):
            some, before = self.rows(far), spot.rows(far)
            stored = some.stored(before)
            # below this the fall drowns in the last digits of the energy and any step will do
            noise = 1e-13 * (np.abs(stored) + np.abs(some.work(before)) + 1.0)
            least = stored + ARMIJO * share * falls[far] + noise
            far[far] = some.stored(there.rows(far)) > least
            if not far.any():
                return
            share *= 0.5
            there.put(
                far,
                self.rows(far).spot(
                    spot.motion[far] + share * step[far], spot.squeeze[far] - share * change[far]
                ),
            )


def _at_points(motion: Floats, lift: Floats) -> Floats:
    """Return how far motions (rows, 3) raise each point, (rows, n)."""
    return np.asarray(motion @ lift.T)


def resting_pose(
    contact: Contact,
    load: Load,
    curve: Curve,
    start: Floats | None = None,
    *,
    still_mm: float = STILL_MM,
) -> Pose:
    """Return the pose in which the bed carries the load.

    Parameters
    ----------
    contact : Contact
        Where the edges may touch.
    load : Load
        Weight and clamp force together.
    curve : Curve
        The carpet's pressure against squeeze.
    start : ndarray, shape (rows, 3) or (1, 3), optional
        First guess; without it, every point just touching.
    still_mm : float
        A step that moves no contact point further than this is the last one taken [mm].

    Returns
    -------
    Pose
        Rows that tip are not iterated and hold NaN.

    Raises
    ------
    ValueError
        If a bearing area or the upright part of a normal is not above 0.
    """
    if np.any(contact.bearing <= 0) or np.any(contact.upright <= 0):
        raise ValueError("contact.bearing and contact.upright must be above 0")
    lift = contact.lift()
    tips = ~carries(contact.plan(), np.stack([load.x, load.y], -1))
    pull = np.where(tips[:, None], 0.0, load.pull())
    search = _Search.of(contact, curve, pull)
    overlap = np.broadcast_to(contact.overlap, (len(pull), len(contact.x)))
    motion = np.zeros((len(pull), 3))
    if start is None:
        motion[:, 0] = overlap.min(axis=-1)
    else:
        motion[:] = start
    squeeze = (overlap - _at_points(motion, lift)) * contact.upright
    settled = _settle(search, motion, squeeze, tips, still_mm)
    gone = tips[:, None]
    found = np.where(gone, np.nan, motion)
    return Pose(found, tips, settled & ~tips, np.where(gone, np.nan, squeeze), found)


def _settle(
    search: _Search, motion: Floats, squeeze: Floats, tips: Flags, still_mm: float
) -> Flags:
    """Move motions and squeezes, in place, to where Newton's steps end; return which came to rest.

    The last step is taken without asking the carpet again: it is too short to matter to it.
    """
    settled, rows = tips.copy(), np.arange(len(tips))
    here = search.spot(motion.copy(), squeeze.copy())
    for _ in range(STEPS):
        solved = np.linalg.solve(search.bend(here), here.slope[..., None])[..., 0]
        step = -np.asarray(solved, dtype=np.float64)
        step[settled[rows]] = 0.0
        reach = np.abs(step @ search.rim.T).max(axis=-1)
        settled[rows] |= reach < still_mm
        step *= np.minimum(1.0, LONGEST_STEP_MM / np.maximum(reach, still_mm))[:, None]
        change = _at_points(step, search.lift)
        change *= search.upright
        left = ~settled[rows]
        if not left.any():
            motion[rows], squeeze[rows] = here.motion + step, here.squeeze - change
            return settled
        here = search.moved(here, step, change)
        if np.count_nonzero(left) < FEW * len(left):  # on with the rows that are still moving
            motion[rows], squeeze[rows] = here.motion, here.squeeze
            search, here, rows = search.rows(left), here.rows(left), rows[left]
    motion[rows], squeeze[rows] = here.motion, here.squeeze
    return settled


def give(contact: Contact, curve: Curve, pose: Pose) -> Floats:
    """Return the inverse stiffness of the bed at a pose, shape (rows, 3, 3).

    It is motion per unit of pull with its sign turned: down is down.
    """
    none = np.zeros_like(pose.motion)
    search = _Search.of(contact, curve, none)
    bend = search.bend(search.spot(none, pose.squeeze))
    return np.asarray(np.linalg.inv(bend), dtype=np.float64)
