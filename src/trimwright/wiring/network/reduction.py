"""Taking nodes out of a network without changing what the others see."""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Whole = NDArray[np.intp]

SCATTER = 2654435761  # odd: by it, numbers in a row fall all over what 32 bits hold


def stamped(ends: Whole, siemens: Floats, nodes: int) -> Floats:
    """Return the conductance matrix of elements between nodes.

    Parameters
    ----------
    ends : ndarray, shape (elements, 2)
        Which two nodes each element joins.
    siemens : ndarray, shape (rows, elements)
        Conductances [S].
    nodes : int
        How many nodes.

    Returns
    -------
    ndarray, shape (rows, nodes, nodes)
        Sums of conductances [S]: of a node on the diagonal, between two with a minus off it.
    """
    rows = len(siemens)
    plus, minus = ends.T
    corners = np.concatenate([plus, minus, plus, minus]) * nodes
    corners = corners + np.concatenate([plus, minus, minus, plus])
    places = np.arange(rows)[:, None] * nodes**2 + corners
    signed = np.concatenate([siemens, siemens, -siemens, -siemens], axis=1)
    summed = np.bincount(places.ravel(), signed.ravel(), rows * nodes**2)
    return summed.astype(np.float64, copy=False).reshape(rows, nodes, nodes)


def totalled(ends: Whole, at_plus: Floats, at_minus: Floats, nodes: int) -> Floats:
    """Return the sums of figures over what ends at each node, shape (rows, nodes).

    Parameters
    ----------
    ends : ndarray, shape (elements, 2)
        Each element's plus and minus node.
    at_plus, at_minus : ndarray, shape (rows, elements)
        What an element adds at its plus and at its minus end.
    nodes : int
        How many nodes.

    Examples
    --------
    An ampere from node 0 to node 1 flows out of the one and into the other:

    >>> totalled(np.array([[0, 1]]), np.array([[1.0]]), np.array([[-1.0]]), 2)
    array([[ 1., -1.]])
    """
    rows = len(at_plus)
    places = np.arange(rows)[:, None] * nodes + np.concatenate([ends[:, 0], ends[:, 1]])
    figures = np.concatenate([at_plus, at_minus], axis=1)
    summed = np.bincount(places.ravel(), figures.ravel(), rows * nodes)
    return summed.astype(np.float64, copy=False).reshape(rows, nodes)


class Branches(Struct, frozen=True, eq=False):
    """Conductances between nodes, and the currents that are driven into nodes.

    `ends` has shape (branches, 2), `siemens` (branches, rows) [S], `inflow` (nodes, rows) [A]. Node
    0 is at 0 V. The first branch is one of nothing, from node 0 to itself.
    """

    ends: Whole
    siemens: Floats
    inflow: Floats


class Taken(Struct, frozen=True, eq=False):
    """How the voltages of nodes that were taken out follow from those of two others each."""

    nodes: Whole  # (taken,)
    far: Whole  # (2, taken)
    shares: Floats  # (2, taken, rows)
    offset: Floats  # (taken, rows) [V]

    def put_back(self, voltages: Floats) -> None:
        """Write the voltages of its nodes into those of all, shape (nodes, rows) [V]."""
        (one, other), (near, away) = self.far, self.shares
        voltages[self.nodes] = self.offset + near * voltages[one] + away * voltages[other]


def branches(ends: Whole, siemens: Floats, inflow: Floats) -> Branches:
    """Return a network with one branch between two nodes, whatever lies side by side.

    Parameters
    ----------
    ends : ndarray, shape (elements, 2)
        Which two nodes each element joins.
    siemens : ndarray, shape (rows, elements)
        Conductances [S].
    inflow : ndarray, shape (rows, nodes)
        Currents that are driven into the nodes [A].
    """
    nothing = np.zeros((1, len(siemens)))
    ends = np.concatenate([np.zeros((1, 2), np.intp), ends])
    return _merged(ends, np.concatenate([nothing, siemens.T]), inflow.T.copy())


def _merged(ends: Whole, siemens: Floats, inflow: Floats) -> Branches:
    low, high = np.sort(ends, axis=1).T
    pairs = low * len(inflow) + high
    order = np.argsort(pairs, kind="stable")
    first = np.flatnonzero(np.diff(pairs[order], prepend=-1))
    both = np.stack([low, high], axis=1)[order[first]]
    return Branches(both, np.add.reduceat(siemens[order], first, axis=0), inflow)


def thinned(network: Branches, keep: Bools) -> tuple[Branches, Bools, tuple[Taken, ...]]:
    """Return what a network is to some of its nodes, with as many others taken out as is quick.

    Out go nodes next to which no more than two others lie, all at once that lie apart, time after
    time: loose ends, and what lies between two branches, which become one. New conductances are
    made by sums, products and quotients of such, so none loses digits. A node that no branch
    conducts to stands at 0 V, and so does one of each part that hangs on nothing.

    Parameters
    ----------
    network : Branches
        The network.
    keep : ndarray of bool, shape (nodes,)
        Which nodes must stay, node 0 among them.

    Returns
    -------
    network : Branches
        Between the nodes that are left.
    left : ndarray of bool, shape (nodes,)
        Which they are.
    taken : tuple of Taken
        The others, in the order in which they are put back.

    Examples
    --------
    Two ohms and two ohms one after the other:

    >>> wires = branches(np.array([[0, 1], [1, 2]]), np.array([[0.5, 0.5]]), np.zeros((1, 3)))
    >>> thinned(wires, np.array([True, False, True]))[0].siemens[1:]
    array([[0.25]])
    """
    left, taken = np.ones_like(keep), list[Taken]()
    while len(nodes := _apart(network.ends, left & ~keep)):
        left[nodes] = False
        network, out = _without(network, nodes)
        taken.append(out)
    return network, left, tuple(taken[::-1])


def _apart(ends: Whole, may: Bools) -> Whole:
    """Return nodes with no more than two branches, none of which lies next to another."""
    may = may & (np.bincount(ends[1:].ravel(), minlength=len(may)) <= 2)  # noqa: PLR2004  two
    turn = np.arange(len(may)) * SCATTER % 2**32
    beside = ends[1:][may[ends[1:]].all(axis=1)]
    may[beside[np.arange(len(beside)), np.argmin(turn[beside], axis=1)]] = False
    return np.flatnonzero(may)


def _without(network: Branches, nodes: Whole) -> tuple[Branches, Taken]:
    """Return a network without some nodes that lie apart and have no more than two branches."""
    ends, inflow = network.ends, network.inflow
    numbers = _at(ends, nodes)
    far = np.where(numbers > 0, ends[numbers].sum(axis=2) - nodes, 0)
    mho, amps = network.siemens[numbers], inflow[nodes]
    whole = mho[0] + mho[1]
    shares, offset = np.zeros_like(mho), np.zeros_like(amps)
    np.divide(mho, whole, out=shares, where=whole > 0)
    np.divide(amps, whole, out=offset, where=whole > 0)
    if amps.any():
        inflow = inflow.copy()
        np.add.at(inflow, far, shares * amps)
    stays = np.ones(len(ends), np.bool_)
    stays[numbers] = False
    stays[0] = True
    through = numbers.all(axis=0)
    joined = np.concatenate([ends[stays], far[:, through].T])
    siemens = np.concatenate([network.siemens[stays], (shares[0] * mho[1])[through]])
    return _merged(joined, siemens, inflow), Taken(nodes, far, shares, offset)


def _at(ends: Whole, nodes: Whole) -> Whole:
    """Return the two branches at each node, shape (2, nodes); that of nothing where there are less."""
    halves = ends.T.ravel()
    order = np.argsort(halves, kind="stable")
    halves, branch = halves[order], order % len(ends)
    first, past = (np.searchsorted(halves, nodes, side) for side in ("left", "right"))
    one = np.where(past > first, branch[np.minimum(first, len(branch) - 1)], 0)
    return np.stack([one, np.where(past > first + 1, branch[past - 1], 0)])
