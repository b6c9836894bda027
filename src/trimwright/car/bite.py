"""Overlapping bites of a contour gauge, joined by the points they share."""

from collections.abc import Sequence

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

Floats = NDArray[np.float64]
FEWEST = 2  # shared points that fix a bite: shift and turn


class Joined(Struct, frozen=True, eq=False):
    """All points in the first bite's place; `kept` is False for a point already there."""

    points: Floats  # (n, 2)
    kept: tuple[bool, ...]
    apart: Floats  # (s, 2): each shared point read again, less where it was before


def turned(own: Floats, onto: Floats) -> tuple[Floats, Floats]:
    """Return the rotation (2, 2) and shift (2,) that lay `own` (n, 2) best onto `onto` (n, 2).

    Least squares over turns and shifts, never mirrored.

    References
    ----------
    Arun, Huang and Blostein, IEEE Trans. PAMI 9 (1987) 698-700, in the plane.

    Examples
    --------
    >>> rotation, shift = turned(np.array([[0.0, 0], [10, 0]]), np.array([[5.0, 5], [5, 15]]))
    >>> (np.array([[4.0, 0]]) @ rotation.T + shift).round(6)
    array([[5., 9.]])
    """
    middle, target = own.mean(axis=0), onto.mean(axis=0)
    a, b = own - middle, onto - target
    sine = float((a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]).sum())
    cosine = float((a * b).sum())
    length = float(np.hypot(sine, cosine))
    if length == 0:
        raise ValueError("own must have two points apart, got points that coincide")
    c, s = cosine / length, sine / length
    rotation = np.array([[c, -s], [s, c]])
    return rotation, target - rotation @ middle


def joined(bites: Sequence[Sequence[tuple[str, float, float]]]) -> Joined:
    """Return all bites in the place of the first, each laid onto the shared points before it.

    Parameters
    ----------
    bites : sequence of sequences of (letter, y, z)
        Points in each bite's own place [mm]; a letter names a point that another bite has too.

    Raises
    ------
    ValueError
        If a bite shares fewer than two points with those before it.
    """
    known: dict[str, Floats] = {}
    points: list[Floats] = []
    kept: list[bool] = []
    apart: list[Floats] = []
    for number, bite in enumerate(bites):
        own = np.array([[y, z] for _, y, z in bite])
        shared = [k for k, (letter, _, _) in enumerate(bite) if letter and letter in known]
        if number:
            if len(shared) < FEWEST:
                raise ValueError(
                    f"bite {number + 1} must share 2 lettered points or more, got {len(shared)}"
                )
            onto = np.array([known[bite[k][0]] for k in shared])
            rotation, shift = turned(own[shared], onto)
            own = own @ rotation.T + shift
            apart += list(own[shared] - onto)
        for k, (letter, _, _) in enumerate(bite):
            kept.append(not (letter and letter in known))
            points.append(own[k])
        known.update(
            {
                letter: own[k]
                for k, (letter, _, _) in enumerate(bite)
                if letter and letter not in known
            }
        )
    return Joined(np.array(points), tuple(kept), np.array(apart).reshape(-1, 2))
