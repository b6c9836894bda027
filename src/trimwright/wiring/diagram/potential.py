"""How far between the feeds and ground every terminal lies: what stands above what in a diagram."""

from collections.abc import Iterable

import numpy as np

LEAK = 1e-6  # joins to half way what is joined to nothing
DIGITS = 6


def potentials(
    joins: Iterable[tuple[str, str]], parts: Iterable[tuple[str, str]], fixed: dict[str, float]
) -> dict[str, float]:
    """Return a potential for every node, 1 at the feeds and 0 at ground, all contacts closed.

    Parameters
    ----------
    joins : iterable of (str, str)
        Nodes that wires join: they lie close together.
    parts : iterable of (str, str)
        Nodes that something lies between.
    fixed : dict of str to float
        The potentials that are given.

    Examples
    --------
    >>> found = potentials((), [("feed", "a"), ("a", "b"), ("b", "stud")], {"feed": 1, "stud": 0})
    >>> round(found["a"], 2), round(found["b"], 2)
    (0.67, 0.33)
    """
    pairs = [(a, b, 100.0) for a, b in joins] + [(a, b, 1.0) for a, b in parts]
    names = list(dict.fromkeys([*fixed, *(node for a, b, _ in pairs for node in (a, b))]))
    place = {name: n for n, name in enumerate(names)}
    matrix = np.eye(len(names)) * LEAK
    right = np.full(len(names), LEAK / 2)
    for a, b, weight in pairs:
        i, j = place[a], place[b]
        if i != j:
            matrix[[i, j], [i, j]] += weight
            matrix[[i, j], [j, i]] -= weight
    for name, value in fixed.items():
        matrix[place[name]] = 0.0
        matrix[place[name], place[name]] = 1.0
        right[place[name]] = value
    solved = np.linalg.solve(matrix, right)
    return {name: round(float(solved[n]), DIGITS) for name, n in place.items()}
