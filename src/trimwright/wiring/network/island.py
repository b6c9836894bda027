"""What hangs together."""

import numpy as np
from numpy.typing import NDArray

Whole = NDArray[np.intp]
Bools = NDArray[np.bool_]


def islands(ends: Whole, joined: Bools, nodes: int) -> Whole:
    """Return, for each node, the lowest node that it hangs together with, state by state.

    Parameters
    ----------
    ends : ndarray, shape (elements, 2)
        Which two nodes each element joins.
    joined : ndarray of bool, shape (rows, elements)
        Which elements conduct.
    nodes : int
        How many nodes.

    Returns
    -------
    ndarray, shape (rows, nodes)
        Nodes with one number hang together.

    Notes
    -----
    What joins in all states is put together once. Labels then sink along conducting elements and
    are followed to their roots, over and over; the rounds grow with the logarithm of the longest
    chain.

    Examples
    --------
    >>> islands(np.array([[0, 1], [2, 1]]), np.array([[True, True], [True, False]]), 3)
    array([[0, 0, 0],
           [0, 0, 2]])
    """
    always = np.all(joined, axis=0)
    first = _labels(ends[always], np.ones((1, int(always.sum())), np.bool_), nodes)[0]
    left, places = np.unique(first, return_inverse=True)
    fewer = _labels(places[ends[~always]], joined[:, ~always], len(left))
    return np.asarray(left[fewer][:, places])


def _labels(ends: Whole, joined: Bools, nodes: int) -> Whole:
    """Return the lowest node that each hangs together with, with no thought to what always joins."""
    rows = len(joined)
    row, element = np.nonzero(joined)
    one, other = (row * nodes + ends[element, side] for side in (0, 1))
    labels = np.arange(rows * nodes)
    while True:
        low, high = np.sort([labels[one], labels[other]], axis=0)
        if np.array_equal(low, high):
            return np.asarray(labels.reshape(rows, nodes) - nodes * np.arange(rows)[:, None])
        np.minimum.at(labels, high, low)  # the root that is higher hangs itself below the lower
        while not np.array_equal(labels, deeper := labels[labels]):
            labels = deeper
