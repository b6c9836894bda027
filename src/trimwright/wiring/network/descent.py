"""The voltages of a network with elements that have no fixed resistance."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from trimwright.wiring.network.law import Laws
from trimwright.wiring.network.reduction import Network, stamped, totalled

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Whole = NDArray[np.intp]

ROUNDS = 200
HALVINGS, CUTS = 40, 10  # of a step, without and with constant-power loads
CLOSE, STEP = 1e-9, 1e-12  # of the currents that meet at a node; of the highest voltage
ROUNDING = 32 * float(np.finfo(np.float64).eps)  # of what is summed at a node
LINGERS = 3  # more steps once the currents balance: at the very limit they do so early
PAST = 0.25  # how steeply a step may climb beyond the lowest point, of how it set out


@dataclass(frozen=True, slots=True, eq=False)
class Core:
    """A network of conductances with lamps, alternators and constant-power loads on its nodes.

    `ends`, shape (elements, 2), says where these stand among the network's nodes; `feed_v`, shape
    (rows,), is the highest voltage of a source [V].
    """

    network: Network
    ends: Whole
    laws: Laws
    feed_v: Floats

    def rows_of(self, which: Bools | Whole) -> "Core":
        """Return some of the states, in their order."""
        if len(self.feed_v) == (which.sum() if which.dtype == np.bool_ else len(which)):
            return self
        network = Network(self.network.matrix[which], self.network.inflow[which])
        states = self.laws.states.rows_of(which)
        return Core(network, self.ends, replace(self.laws, states=states), self.feed_v[which])

    def across(self, voltages: Floats) -> Floats:
        """Return the voltage across each element, shape (rows, elements) [V]."""
        plus, minus = self.ends.T
        return np.asarray(voltages[:, plus] - voltages[:, minus])

    def excess(self, voltages: Floats, on: Bools) -> tuple[Floats, Floats]:
        """Return what flows out of each node, (rows, nodes) [A], and what its rounding goes with.

        That is all that would meet at a node if it stood at the highest voltage [A].
        """
        amps, slopes = self.laws.currents(self.across(voltages), on)
        nodes, highest = voltages.shape[1], self.highest(voltages)
        flow = (self.network.matrix @ voltages[:, :, None])[:, :, 0] - self.network.inflow
        meets = np.sum(np.abs(self.network.matrix), axis=2) * highest
        both = totalled(self.ends, amps, -amps, nodes)
        size = np.abs(amps) + np.abs(slopes) * highest
        sized = totalled(self.ends, size, size, nodes) + np.abs(self.network.inflow) + meets
        return (flow + both)[:, 1:], sized[:, 1:]

    def highest(self, voltages: Floats) -> Floats:
        """Return the highest voltage of a state, of its sources or its nodes, (rows, 1) [V]."""
        highest: Floats = np.maximum(self.feed_v, np.max(np.abs(voltages), axis=1))
        return highest[:, None]

    def slopes(self, voltages: Floats, on: Bools) -> Floats:
        """Return how the flow out of nodes grows with their voltages, (rows, nodes, nodes) [S]."""
        _, slopes = self.laws.currents(self.across(voltages), on)
        grown = self.network.matrix + stamped(self.ends, slopes, voltages.shape[1])
        return np.asarray(grown[:, 1:, 1:])

    def upheld(self, voltages: Floats, on: Bools) -> Bools:
        """Return in which states voltages are of the upper kind, shape (rows,).

        There every load that is on has a forward voltage, and the slopes are positive definite: a
        little more current drawn anywhere lowers the voltage there. Past the limit of what can be
        drawn it would not.
        """
        told: Bools = np.all((self.across(voltages) > 0) | ~on, axis=1)
        rows = np.flatnonzero(told & on.any(axis=1))
        if len(rows):
            told[rows] = _definite(self.rows_of(rows).slopes(voltages[rows], on[rows]))
        return told


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
    """Return the upper voltages of each state, by Newton's steps from above, and where they are.

    Parameters
    ----------
    core : Core
        The network.
    on : ndarray of bool, shape (rows, elements)
        Which constant-power loads are on.
    start : ndarray, shape (rows, nodes)
        Voltages with fewer loads on [V].

    Returns
    -------
    voltages : ndarray, shape (rows, nodes)
        Where no solution was reached, the last that were of the upper kind [V].
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
    voltages, reached = _lifted(core, on, start), np.zeros(len(start), np.bool_)
    still, left = np.zeros(len(start), np.intp), np.flatnonzero(core.upheld(voltages, on))
    for _ in range(ROUNDS):
        if not len(left):
            break
        part, turned, now = core.rows_of(left), on[left], voltages[left]
        excess, sized = part.excess(now, turned)
        step = np.linalg.solve(part.slopes(now, turned), excess[:, :, None])
        downhill = -np.asarray(step[:, :, 0], np.float64)
        balanced = np.all(np.abs(excess) <= ROUNDING * sized, axis=1)
        near = np.all(np.abs(excess) <= CLOSE * sized, axis=1)
        small = np.all(np.abs(downhill) <= STEP * part.highest(now), axis=1)
        still[left] += balanced
        done = (near & small) | (still[left] > LINGERS)
        there, moved = _stepped(part, turned, now, (downhill, excess, sized))
        voltages[left] = there
        reached[left] = done | (balanced & ~moved)
        left = left[~done & moved]
    return voltages, reached


def _lifted(core: Core, on: Bools, start: Floats) -> Floats:
    """Return the starting voltages, raised in proportion until they are of the upper kind."""
    voltages = start.copy()
    for _ in range(10):
        low = ~core.upheld(voltages, on) & np.all((core.across(voltages) > 0) | ~on, axis=1)
        if not low.any():
            break
        voltages[low] *= 2
    return voltages


def _stepped(
    core: Core, on: Bools, now: Floats, step: tuple[Floats, Floats, Floats]
) -> tuple[Floats, Bools]:
    """Return where a step leads, shortened as far as it must be, and whether there is one.

    `step` is its way [V], and what `Core.excess` tells where it begins.
    """
    downhill, excess, sized = step
    steep = np.abs(np.sum(excess * downhill, axis=1))
    slack = ROUNDING * np.sum(sized * np.abs(downhill), axis=1)
    length, there, moved = np.ones(len(now)), now.copy(), np.zeros(len(now), np.bool_)
    left = np.arange(len(now))
    for halving in range(HALVINGS):
        left = left[(halving <= CUTS) | ~on[left].any(axis=1)]
        if not len(left):
            break
        tried = now[left]
        tried[:, 1:] += length[left, None] * downhill[left]
        part, turned = core.rows_of(left), on[left]
        taken = part.upheld(tried, turned)
        climbs = np.full(len(left), np.inf)
        beyond, _ = part.rows_of(taken).excess(tried[taken], turned[taken])
        climbs[taken] = np.sum(beyond * downhill[left[taken]], axis=1)
        taken &= climbs <= PAST * steep[left] + slack[left]
        there[left[taken]] = tried[taken]
        moved[left[taken]] = True
        left = left[~taken]
        length[left] /= 2
    return there, moved
