"""Circles in the smallest circle found: wires of any diameters, drawn together.

The smallest circle is not known in closed form. Several starts are relaxed at once, each time in a
slightly smaller ring: circles that overlap, or stick out, push each other, until they no longer
give way. What is found is then made exact: centres are drawn together or apart until no two circles
overlap and two touch, so a packing is never smaller than it can be. No chance is involved, and
places are cut to a millionth between the rounds, lest two machines part in the last digit.
"""

from math import pi

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
_GOLDEN_ANGLE = pi * (3 - 5**0.5)
_WORK = 6_400  # pairs of circles looked at in one step, over all starts
_LEAST_STARTS, _MOST_STARTS = 2, 24
_FULL = 0.82  # of the first ring: more than can be, so that all of it pushes
_FIRST_STEPS, _STEPS = 80, 40
_SQUEEZES = (0.985, 0.985, 0.99, 0.985, 0.99, 0.995, 0.997, 0.999)  # of the best ring so far
_KEPT, _GAIN = 0.85, 0.25  # of the speed of the step before, of the push
_SAME_PLACE = 1e-18
_DIGITS = 6
_TOUCHING, _AT_THE_EDGE = 0.02, 0.06  # of the smaller radius, of the circle's
_POLISHES = 4
_HELD_BY = 2  # circles, that a ring needs to be the smallest


def pack(diameters: Array) -> tuple[Array, float]:
    """Return where circles lie, closely packed about the origin, and the diameter round them.

    Parameters
    ----------
    diameters : ndarray, shape (n,)
        Diameters, each above 0, at least one, the largest first.

    Returns
    -------
    centres : ndarray, shape (n, 2)
        Places of the centres, in the order given.
    around : float
        Diameter of the circle round all of them: of equal circles within 0.5 % of the smallest
        known, up to 20.

    Examples
    --------
    >>> round(pack(np.ones(7))[1], 6)
    3.0
    """
    if diameters.size == 1:
        return np.zeros((1, 2)), float(diameters[0])
    unit = float(diameters[0]) / 2
    centres, ring = _relaxed(diameters / 2 / unit)
    return centres * unit, 2 * ring * unit


def _relaxed(radii: Array) -> tuple[Array, float]:
    """Return the best of all starts."""
    ring = float(np.sqrt(np.sum(radii**2) / _FULL))
    moved = _pushed(np.round(_starts(radii), _DIGITS), radii, ring, _FIRST_STEPS)
    centres, ring = _best(moved, radii)
    for squeeze in _SQUEEZES:
        moved = _pushed(np.round(moved, _DIGITS), radii, ring * squeeze, _STEPS)
        found, size = _best(moved, radii)
        if size < ring:
            centres, ring = found, size
    return _polished(centres, ring, radii)


def _best(moved: Array, radii: Array) -> tuple[Array, float]:
    """Return the smallest of some packings, made exact."""
    placed, rings = _exact(moved, radii)
    best = int(np.argmin(rings))
    return placed[best], float(rings[best])


def _starts(radii: Array) -> Array:
    """Return sunflower patterns of all the circles, turned and dealt out differently."""
    count = radii.size
    number = int(np.clip(_WORK // count**2, _LEAST_STARTS, _MOST_STARTS))
    place = np.arange(count)
    reach = float(np.sqrt(np.sum(radii**2)))
    patterns = []
    for start in range(number):
        # the largest inside, the largest outside, or dealt through the pattern by a stride
        stride = 1 + start // 2
        while np.gcd(stride, count) != 1:
            stride += 1
        dealt = (place * stride + start) % count
        dealt = dealt if start % 2 == 0 else count - 1 - dealt
        out = reach * np.sqrt((dealt + 0.5 * (start % 3) / 2) / count)
        turn = dealt * _GOLDEN_ANGLE * (1 + start / 7)
        patterns.append(np.stack([out * np.cos(turn), out * np.sin(turn)], axis=1))
    return np.array(patterns)


def _pushed(centres: Array, radii: Array, ring: float, steps: int) -> Array:
    """Return centres after circles have pushed each other for a while, all starts at once."""
    apart = radii[:, np.newaxis] + radii
    np.fill_diagonal(apart, 0.0)
    x, y = centres[..., 0].copy(), centres[..., 1].copy()
    speed_x, speed_y = np.zeros_like(x), np.zeros_like(y)
    for _ in range(steps):
        dx, dy = x[:, :, np.newaxis] - x[:, np.newaxis], y[:, :, np.newaxis] - y[:, np.newaxis]
        # overlap over distance, so that times the difference of two places it is a push
        push = np.maximum(apart / np.sqrt(dx * dx + dy * dy + _SAME_PLACE) - 1, 0.0)
        whole = np.sum(push, axis=2)
        out = np.sqrt(x * x + y * y + _SAME_PLACE)
        inward = 2 * np.maximum(1 - (ring - radii) / out, 0.0)
        force_x = (whole - inward) * x - np.einsum("sij,sj->si", push, x)
        force_y = (whole - inward) * y - np.einsum("sij,sj->si", push, y)
        speed_x, speed_y = _KEPT * speed_x + _GAIN * force_x, _KEPT * speed_y + _GAIN * force_y
        x, y = x + speed_x, y + speed_y
    return np.stack([x, y], axis=2)


def _exact(centres: Array, radii: Array) -> tuple[Array, Array]:
    """Return packings drawn together or apart until two circles touch and none overlap."""
    apart = radii[:, np.newaxis] + radii
    delta = centres[:, :, np.newaxis] - centres[:, np.newaxis]
    distance = np.sqrt(np.sum(delta**2, axis=3))
    above = np.triu_indices(radii.size, 1)
    scale = np.max(apart[above] / np.maximum(distance[:, *above], 1e-9), axis=1)
    placed = centres * scale[:, np.newaxis, np.newaxis]
    moved = placed - _middle(placed, radii)[:, np.newaxis]
    before, after = _rings(placed, radii), _rings(moved, radii)
    better = (after < before)[:, np.newaxis, np.newaxis]
    return np.where(better, moved, placed), np.minimum(before, after)


def _rings(placed: Array, radii: Array) -> Array:
    """Return the radius of the circle round each packing, about its origin."""
    return np.asarray(np.max(np.sqrt(np.sum(placed**2, axis=2)) + radii, axis=1))


def _middle(placed: Array, radii: Array) -> Array:
    """Return near the middle of the smallest circle round each packing."""
    middle = np.zeros((placed.shape[0], 2))
    step = 0.5
    for _ in range(24):
        delta = placed - middle[:, np.newaxis]
        reach = np.sqrt(np.sum(delta**2, axis=2))
        far = np.argmax(reach + radii, axis=1)
        rows = np.arange(placed.shape[0])
        length = (reach + radii)[rows, far] - np.partition(reach + radii, -2, axis=1)[:, -2]
        toward = delta[rows, far] / np.maximum(reach[rows, far], 1e-12)[:, np.newaxis]
        middle = middle + step * length[:, np.newaxis] * toward
    return middle


def _polished(centres: Array, ring: float, radii: Array) -> tuple[Array, float]:
    """Return the packing with its contacts made exact, where that makes it smaller."""
    best, best_ring = centres, ring
    current, size = centres, ring
    for _ in range(_POLISHES):
        step = _contact_step(current, size, radii)
        if step is None:
            break
        placed, rings = _exact((current + step)[np.newaxis], radii)
        current, size = placed[0], float(rings[0])
        if size < best_ring:
            best, best_ring = current, size
    return best, best_ring


def _contact_step(centres: Array, ring: float, radii: Array) -> Array | None:
    """Return the smallest move after which circles that nearly touch do."""
    count = radii.size
    first, second = np.triu_indices(count, 1)
    delta = centres[first] - centres[second]
    distance = np.sqrt(np.sum(delta**2, axis=1))
    gap = distance - radii[first] - radii[second]
    near = gap < _TOUCHING * np.minimum(radii[first], radii[second])
    first, second, gap = first[near], second[near], gap[near]
    toward = delta[near] / distance[near, np.newaxis]
    reach = np.sqrt(np.sum(centres**2, axis=1))
    edge = np.flatnonzero(ring - reach - radii < _AT_THE_EDGE * radii)
    if edge.size < _HELD_BY:
        return None
    rows = first.size + edge.size
    matrix = np.zeros((rows, 2 * count + 1))
    pair = np.arange(first.size)
    for axis in (0, 1):
        matrix[pair, 2 * first + axis] = toward[:, axis]
        matrix[pair, 2 * second + axis] = -toward[:, axis]
    rim = first.size + np.arange(edge.size)
    for axis in (0, 1):
        matrix[rim, 2 * edge + axis] = centres[edge, axis] / reach[edge]
    matrix[rim, -1] = -1.0
    wanted = np.concatenate([-gap, ring - reach[edge] - radii[edge]])
    move = np.linalg.lstsq(matrix, wanted, rcond=None)[0]
    return np.asarray(move[:-1].reshape(count, 2))
