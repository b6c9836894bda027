"""The voltages of a network with elements that have no fixed resistance."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.wiring.network.law import Laws

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Whole = NDArray[np.intp]

ROUNDS = 200
HALVINGS, CUTS = 40, 10  # of a step, without and with constant-power loads
CLOSE, STEP = 1e-9, 1e-12  # of the currents of an element; of the highest voltage
ROUNDING = 32 * float(np.finfo(np.float64).eps)  # of what is summed up
LINGERS = 3  # more steps once the currents balance: at the very limit they do so early
PAST = 0.25  # how steeply a step may climb beyond the lowest point, of how it set out


class Core(Struct, frozen=True, eq=False):
    """A network as its lamps, alternators and constant-power loads see it.

    Each is taken for a resistance and a source (`Laws.siemens`), and then draws some more: what it
    takes otherwise than by these. What all draw lowers the voltage across each.

    Attributes
    ----------
    open_v : ndarray, shape (rows, elements)
        Across each while none draws more [V].
    ohms : ndarray, shape (rows, elements, elements)
        How much an ampere drawn more by one lowers the voltage across another [ohm]: symmetric,
        and positive definite but for elements that stand side by side.
    laws : Laws
        The elements.
    feed_v : ndarray, shape (rows,)
        The highest voltage of a source [V].
    """

    open_v: Floats
    ohms: Floats
    laws: Laws
    feed_v: Floats

    def rows_of(self, which: Bools | Whole) -> "Core":
        """Return some of the states, in their order."""
        if which.dtype == np.bool_ and which.all():
            return self
        return Core(
            self.open_v[which], self.ohms[which], self.laws.rows_of(which), self.feed_v[which]
        )

    def across(self, drawn: Floats) -> Floats:
        """Return the voltage across each element with so much drawn, (rows, elements) [V]."""
        return np.asarray(self.open_v - (self.ohms @ drawn[:, :, None])[:, :, 0])

    def at(self, drawn: Floats, on: Bools) -> "Point":
        """Return what elements would take at the voltages that are left by what is drawn."""
        across = self.across(drawn)
        mho = self.laws.siemens
        amps, slopes = self.laws.currents(across, on)
        more = amps + self.laws.pushed - mho * across
        highest = np.maximum(self.feed_v, np.max(np.abs(across), axis=1, initial=0.0))[:, None]
        sized = np.abs(amps) + np.abs(drawn) + (np.abs(slopes) + mho) * highest
        most = np.max(sized, axis=1, initial=0.0)[:, None]
        return Point(drawn, across, more - drawn, slopes - mho, most, highest)

    def upheld(self, point: "Point", on: Bools) -> Bools:
        """Return in which states voltages are of the upper kind, shape (rows,).

        There every load that is on has a forward voltage, and the slopes of the whole network are
        positive definite: a little more current drawn anywhere lowers the voltage there. Past the
        limit of what can be drawn it would not.
        """
        told: Bools = np.all((point.across > 0) | ~on, axis=1)
        falls = np.sum(np.maximum(-point.slopes, 0.0) * np.einsum("rii->ri", self.ohms), axis=1)
        rows = np.flatnonzero(told & on.any(axis=1) & (falls >= 1))  # else they surely are
        if len(rows):
            told[rows] = self.rows_of(rows).definite(point.slopes[rows])
        return told

    def definite(self, slopes: Floats) -> Bools:
        """Return in which states the slopes of the whole network are positive definite.

        They are with all but the loads. With loads, too, if 1 - G^1/2 Z G^1/2 is, where G is by how
        much the current of each falls as its voltage rises, Z what they see of all the rest.
        """
        falls = np.zeros(slopes.shape[1], np.bool_)
        falls[self.laws.load] = slopes[:, self.laws.load].any(axis=0)
        seen, root = self.seen(slopes, falls), np.sqrt(np.maximum(-slopes[:, falls], 0.0))
        return _definite(np.eye(root.shape[1]) - root[:, :, None] * seen * root[:, None, :])

    def seen(self, slopes: Floats, which: Bools) -> Floats:
        """Return how much an ampere at some elements lowers the voltages across these.

        What all others draw goes by their slopes [S]. Shape (rows, which, which) [ohm].
        """
        there, others = self.ohms[:, ~which], slopes[:, ~which, None]
        grown = np.eye(others.shape[1]) + others * there[:, :, ~which]
        given = np.linalg.solve(grown, others * there[:, :, which])
        less = there[:, :, which].swapaxes(1, 2) @ given
        return np.asarray(self.ohms[:, which][:, :, which] - less, np.float64)


class Point(Struct, frozen=True, eq=False):
    """What elements take at voltages; arrays of shape (rows, elements).

    Attributes
    ----------
    drawn, across : ndarray
        What is drawn more [A], and the voltages that this leaves [V].
    lacks : ndarray
        How much more an element would take at its voltage [A]: nothing, where it is solved.
    slopes : ndarray
        How what it would take more grows with its voltage [S].
    sized : ndarray, shape (rows, 1)
        What the rounding of `lacks` goes with: the most that an element takes, or would take at the
        highest voltage [A].
    highest : ndarray, shape (rows, 1)
        The highest voltage, of a source or across an element [V].
    """

    drawn: Floats
    across: Floats
    lacks: Floats
    slopes: Floats
    sized: Floats
    highest: Floats

    def rows_of(self, which: Bools | Whole) -> "Point":
        """Return some of the states, in their order."""
        return Point(*(getattr(self, name)[which] for name in self.__struct_fields__))

    def put(self, rows: Whole, other: "Point") -> None:
        """Put others in the place of some of the states."""
        for name in self.__struct_fields__ if len(rows) else ():
            getattr(self, name)[rows] = getattr(other, name)


def _definite(matrices: Floats) -> Bools:
    """Return which symmetric matrices are positive definite."""
    definite = np.ones(len(matrices), np.bool_)
    try:
        np.linalg.cholesky(matrices)  # quicker, but it does not tell which of many fails
    except np.linalg.LinAlgError:
        left = matrices.copy()
        for pivot in range(left.shape[1]):
            definite &= left[:, pivot, pivot] > 0
            if not definite.any():
                break
            left[~definite] = np.eye(left.shape[1])
            row = left[:, pivot, pivot + 1 :]
            share = row / left[:, pivot, pivot, None]
            left[:, pivot + 1 :, pivot + 1 :] -= row[:, :, None] * share[:, None, :]
    return definite


def descended(core: Core, on: Bools, start: Floats) -> tuple[Floats, Bools]:
    """Return what each state draws at its upper voltages, by Newton's steps from above.

    Parameters
    ----------
    core : Core
        The network.
    on : ndarray of bool, shape (rows, elements)
        Which constant-power loads are on.
    start : ndarray, shape (rows, elements)
        What is drawn with fewer loads on [A].

    Returns
    -------
    drawn : ndarray, shape (rows, elements)
        Where no solution was reached, the last that was of the upper kind [A].
    reached : ndarray of bool, shape (rows,)
        Whether the currents balance there.

    Notes
    -----
    Every step stays among voltages of the upper kind (`Core.upheld`). With constant-power loads
    and fixed resistances these form a convex set, on which the balance of currents is the
    stationary point of the strictly convex 1/2 v'Yv - J'v + sum P ln u: there is at most one. It is
    the one that starts from the unloaded network as the powers grow from nothing. Where no load's
    current raises another's voltage, it is also the highest at every load, and steps that begin
    above it can neither miss nor undershoot it. A step that would leave the set, or climb far past
    the lowest point on its way, is halved.
    """
    here, upheld = _lifted(core, on, start)
    drawn, reached = here.drawn.copy(), np.zeros(len(start), np.bool_)
    left = np.flatnonzero(upheld)
    part, turned, here = core.rows_of(left), on[left], here.rows_of(left)
    still = np.zeros(len(left), np.intp)
    for _ in range(ROUNDS):
        if not len(left):
            break
        more, downhill = _newton(part, here)
        lacks, sized = np.max(np.abs(here.lacks), axis=1, initial=0.0), here.sized[:, 0]
        small = np.all(np.abs(downhill) <= STEP * here.highest, axis=1)
        balanced = lacks <= ROUNDING * sized
        still += balanced
        done = ((lacks <= CLOSE * sized) & small) | (still > LINGERS)
        here, moved = _stepped(part, turned, _Way(here, more, downhill))
        drawn[left] = here.drawn
        reached[left] = done | (balanced & ~moved)
        goes = ~done & moved
        if not goes.all():
            left, turned, still = left[goes], turned[goes], still[goes]
            part, here = part.rows_of(goes), here.rows_of(goes)
    return drawn, reached


def _newton(core: Core, here: Point) -> tuple[Floats, Floats]:
    """Return how much more is to be drawn by the slopes [A], and what that does to voltages [V]."""
    slopes = np.eye(here.slopes.shape[1]) + here.slopes[:, :, None] * core.ohms
    more = np.linalg.solve(slopes, here.lacks[:, :, None])
    return np.asarray(more[:, :, 0]), -np.asarray((core.ohms @ more)[:, :, 0])


def _lifted(core: Core, on: Bools, start: Floats) -> tuple[Point, Bools]:
    """Return where to begin, voltages doubled until they are of the upper kind, and where they are."""
    here = core.at(start.copy(), on)
    upheld = core.upheld(here, on)
    for _ in range(10):
        low = np.flatnonzero(~upheld & np.all((here.across > 0) | ~on, axis=1))
        if not len(low):
            break
        part, drawn = core.rows_of(low), here.drawn[low]
        inverse = np.linalg.pinv(part.ohms, hermitian=True)
        drawn = drawn - (inverse @ here.across[low, :, None])[:, :, 0]
        raised = part.at(drawn, on[low])
        here.put(low, raised)
        upheld[low] = part.upheld(raised, on[low])
    return here, upheld


class _Way(Struct, frozen=True, eq=False):
    """A step that may be taken: where it begins, how much more is drawn [A], what that does [V]."""

    here: Point
    more: Floats
    downhill: Floats

    def rows_of(self, which: Whole) -> "_Way":
        """Return the steps of some of the states."""
        return _Way(self.here.rows_of(which), self.more[which], self.downhill[which])

    def tried(self, core: Core, on: Bools, length: Floats) -> tuple[Point, Bools]:
        """Return where a part of the step leads, shape (rows, 1), and where that may be taken."""
        there = core.at(self.here.drawn + length * self.more, on)
        climbs = np.sum(there.lacks * self.downhill, axis=1)
        steep = np.abs(np.sum(self.here.lacks * self.downhill, axis=1))
        slack = ROUNDING * self.here.sized[:, 0] * np.sum(np.abs(self.downhill), axis=1)
        return there, core.upheld(there, on) & (climbs <= PAST * steep + slack)


def _stepped(core: Core, on: Bools, way: _Way) -> tuple[Point, Bools]:
    """Return where a step leads, shortened as far as it must be, and in which states there is one.

    The whole step is tried first, then ten halvings of it at once, of which the longest is taken.
    """
    there, moved = way.tried(core, on, np.ones((len(on), 1)))
    there.put(np.flatnonzero(~moved), way.here.rows_of(~moved))
    for halved in range(0, HALVINGS, CUTS):
        left = np.flatnonzero(~moved & ((halved < CUTS) | ~on.any(axis=1)))
        if not len(left):
            break
        each = np.repeat(left, CUTS)
        lengths = np.tile(0.5 ** np.arange(halved + 1, halved + CUTS + 1), len(left))[:, None]
        tried, taken = way.rows_of(each).tried(core.rows_of(each), on[each], lengths)
        able = taken.reshape(-1, CUTS)
        goes, longest = able.any(axis=1), np.argmax(able, axis=1)
        there.put(left[goes], tried.rows_of((np.arange(len(left)) * CUTS + longest)[goes]))
        moved[left[goes]] = True
    return there, moved
