"""Taking nodes out of a network without changing what the others see."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Whole = NDArray[np.intp]


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


@dataclass(frozen=True, slots=True, eq=False)
class Network:
    """Y v = J: conductances, and the currents that are driven into the nodes, node 0 at 0 V.

    `matrix` has shape (rows, nodes, nodes) [S], `inflow` (rows, nodes) [A].
    """

    matrix: Floats
    inflow: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Taken:
    """How the voltages of nodes that were taken out follow from those that were kept."""

    weight: Floats  # (rows, taken, kept)
    offset: Floats  # (rows, taken) [V]

    def voltages(self, kept: Floats) -> Floats:
        """Return the voltages of all nodes, kept ones first, shape (rows, nodes) [V]."""
        taken = self.offset + (self.weight @ kept[:, :, None])[:, :, 0]
        return np.concatenate([kept, taken], axis=1)


def reduced(network: Network, keep: int) -> tuple[Network, Taken]:
    """Return what a network is to its first nodes alone (Kron's reduction).

    With nodes k kept and i taken out, Y_kk - Y_ki Y_ii^-1 Y_ik and J_k - Y_ki Y_ii^-1 J_i.

    Parameters
    ----------
    network : Network
        Where each taken node hangs on a kept one or is held on its diagonal.
    keep : int
        How many nodes stay, the first ones.
    """
    across, inner = network.matrix[:, :keep, keep:], network.matrix[:, keep:, keep:]
    given = np.concatenate(
        [-network.matrix[:, keep:, :keep], network.inflow[:, keep:, None]], axis=2
    )
    solved = np.linalg.solve(inner, given)
    weight, offset = solved[:, :, :-1], solved[:, :, -1]
    matrix = network.matrix[:, :keep, :keep] + across @ weight
    inflow = network.inflow[:, :keep] - (across @ offset[:, :, None])[:, :, 0]
    return Network(matrix, inflow), Taken(weight, offset)
