"""The planar elastica: the shape that a springy line takes of itself between two points.

Of all curves of one length between two points, its ends free to turn or held in a direction, it is
one whose bending energy, the integral of the curvature's square, no small change lowers. The
stiffness does not matter, only the geometry. The direction along the line is a sum of Legendre
polynomials; where the energy is least is found by Newton's steps that keep to the constraints.
"""

from functools import cache
from math import hypot, pi, sqrt

import numpy as np
from msgspec import Struct
from numpy.polynomial import legendre
from numpy.typing import NDArray

Array = NDArray[np.float64]
_TERMS, _NODES, _SHOWN = 22, 56, 241
_MOST_STEPS, _MOST_HALVINGS = 80, 12
_LONGEST_STEP = 0.6  # rad, of any term at once
_NEAR = 1e-10
_FLOOR = 1e-3  # of the reduced Hessian's eigenvalues
_PENALTY = 4.0  # times the multipliers: what a breach of the constraints weighs


class Bent(Struct, frozen=True, eq=False):
    """A line of length 1 that is bent.

    Attributes
    ----------
    points : ndarray, shape (n, 2), read-only
        Where it goes, from the origin on.
    curvature : ndarray, shape (n,), read-only
        How it bends there, left positive, per length of the line.
    terms : ndarray, shape (m,), read-only
        The direction's terms, to start the next from.
    energy : float
        Half the integral of the curvature's square.
    """

    points: Array
    curvature: Array
    terms: Array
    energy: float

    @property
    def tightest(self) -> float:
        """The greatest curvature anywhere, without its sign."""
        return float(np.max(np.abs(self.curvature)))


class Ends(Struct, frozen=True):
    """Between what a line of length 1 is bent.

    Parameters
    ----------
    chord : tuple of float
        The far end as seen from the near one, below 1 long.
    start, end : float or None
        Directions it is held in [rad], with whole turns; None where it is free to turn.
    """

    chord: tuple[float, float]
    start: float | None
    end: float | None


class NoShapeError(ValueError):
    """No shape was found."""


def bent(ends: Ends, first: Array) -> Bent:
    """Return the shape of least energy that is reached from a first guess.

    Parameters
    ----------
    ends : Ends
        The constraints.
    first : ndarray, shape (m,)
        Terms to begin with: of `guess`, or of a shape nearby.

    Raises
    ------
    ValueError
        If the ends are as far apart as the line is long, or further.
    NoShapeError
        If none was found.

    Examples
    --------
    A half circle, from its own directions:

    >>> arc = Ends((0.0, 2 / pi), 0.0, pi)
    >>> round(bent(arc, guess(arc, 0)).tightest / pi, 6)
    1.0
    """
    if not hypot(*ends.chord) < 1.0:
        raise ValueError(f"chord must be below the line's length 1, got {hypot(*ends.chord):g}")
    terms, grid = first, _grid()
    for _ in range(_MOST_STEPS):
        breach, jacobian = _constraints(terms, ends, grid)
        slope = grid.stiff @ terms
        pull = _solved(jacobian.T, -slope)
        left = slope + jacobian.T @ pull
        if np.max(np.abs(breach)) < _NEAR and np.max(np.abs(left)) < _NEAR * (
            1 + sqrt(slope @ slope)
        ):
            return _shape(terms, grid)
        step = _step((breach, jacobian, slope, pull), terms, grid)
        terms = _moved(terms, step, (ends, pull), grid)
    raise NoShapeError(f"no shape was found for {ends}")


def guess(ends: Ends, side: int) -> Array:
    """Return terms to begin with: an even turn from end to end, bulging left (1), right (-1) or not.

    Parameters
    ----------
    ends : Ends
        The constraints.
    side : {-1, 0, 1}
        To which side of the way from the near to the far end the line bulges.
    """
    grid, (x, y) = _grid(), ends.chord
    along = float(np.arctan2(y, x))
    swell = side * 2 * sqrt(max(1.0 - hypot(x, y), 0.0))
    s = grid.places
    if ends.start is None and ends.end is None:
        wanted = along + swell * np.cos(pi * s)
    elif ends.start is None or ends.end is None:
        held = ends.start if ends.end is None else ends.end
        far = 1 - s if ends.end is None else s
        wanted = along + ((held or 0.0) - along) * far + swell * np.cos(pi * s) * (1 - far)
    else:
        wanted = ends.start + (ends.end - ends.start) * s + swell * np.sin(2 * pi * s)
    root = np.sqrt(grid.weights)
    return _solved(grid.values * root[:, np.newaxis], wanted * root)


def _solved(matrix: Array, wanted: Array) -> Array:
    """Return the least-squares solution."""
    return np.asarray(np.linalg.lstsq(matrix, wanted, rcond=None)[0], dtype=np.float64)


class _Grid(Struct, frozen=True):
    """Legendre polynomials on 0 to 1: at the nodes of a quadrature, their slopes, their energy."""

    places: Array
    weights: Array
    values: Array
    stiff: Array
    ends: Array  # both ends' rows
    shown: Array
    shown_slopes: Array
    between: Array  # halfway from each place that is shown to the next


@cache
def _grid() -> _Grid:
    """Return the grid; it is always the same."""
    nodes, weights = legendre.leggauss(_NODES)
    shown = np.linspace(-1.0, 1.0, _SHOWN)
    slope = _slopes(nodes)
    return _Grid(
        (nodes + 1) / 2,
        weights / 2,
        _values(nodes),
        slope.T @ (slope * weights[:, np.newaxis] / 2),
        _values(np.array([-1.0, 1.0])),
        _values(shown),
        _slopes(shown),
        _values((shown[1:] + shown[:-1]) / 2),
    )


def _values(places: Array) -> Array:
    """Return every polynomial at places from -1 to 1."""
    return np.asarray(legendre.legvander(places, _TERMS - 1), dtype=np.float64)


def _slopes(places: Array) -> Array:
    """Return the slope of every polynomial, per length of the line, at places from -1 to 1."""
    rows = [legendre.legval(places, 2 * legendre.legder(row)) for row in np.eye(_TERMS)]
    return np.stack(rows, axis=1, dtype=np.float64)


def _constraints(terms: Array, ends: Ends, grid: _Grid) -> tuple[Array, Array]:
    """Return by how much the constraints are not kept, and how they change with the terms."""
    turn = grid.values @ terms
    over = grid.values * grid.weights[:, np.newaxis]
    breach = [
        float(grid.weights @ np.cos(turn)) - ends.chord[0],
        float(grid.weights @ np.sin(turn)) - ends.chord[1],
    ]
    rows = [-np.sin(turn) @ over, np.cos(turn) @ over]
    for held, row in zip((ends.start, ends.end), grid.ends, strict=True):
        if held is not None:
            breach.append(float(row @ terms) - held)
            rows.append(row)
    return np.array(breach), np.array(rows)


def _step(state: tuple[Array, Array, Array, Array], terms: Array, grid: _Grid) -> Array:
    """Return one step: back to the constraints, and along them downhill."""
    breach, jacobian, slope, pull = state
    turn = grid.values @ terms
    # second derivatives of both ends' places, times the forces that hold them there
    bow = -grid.weights * (pull[0] * np.cos(turn) + pull[1] * np.sin(turn))
    hessian = grid.stiff + grid.values.T @ (grid.values * bow[:, np.newaxis])
    basis = np.linalg.qr(jacobian.T, mode="complete")[0]
    free = basis[:, len(breach) :]
    back = -_solved(jacobian, breach)
    eigen, turned = np.linalg.eigh(free.T @ hessian @ free)
    downhill = turned.T @ (free.T @ (slope + hessian @ back))
    step: Array = back - free @ (turned @ (downhill / np.maximum(np.abs(eigen), _FLOOR)))
    return step * min(1.0, _LONGEST_STEP / float(np.max(np.abs(step)) or 1.0))


def _moved(terms: Array, step: Array, held: tuple[Ends, Array], grid: _Grid) -> Array:
    """Return terms after a step, halved until energy and breach together are less."""
    ends, pull = held
    weight = _PENALTY * (1.0 + float(np.max(np.abs(pull))))

    def merit(at: Array) -> float:
        breach = _constraints(at, ends, grid)[0]
        return float(at @ grid.stiff @ at / 2 + weight * np.sum(np.abs(breach)))

    before = merit(terms)
    for halving in range(_MOST_HALVINGS):
        tried = terms + step / 2**halving
        if merit(tried) < before:
            return np.asarray(tried)
    return np.asarray(terms + step)  # at the bottom, where merits differ in the last digits only


def _shape(terms: Array, grid: _Grid) -> Bent:
    """Return the line of some terms, as points."""
    at, between = grid.shown @ terms, grid.between @ terms
    piece = 1.0 / (_SHOWN - 1)
    steps = [
        piece / 6 * (way(at[:-1]) + 4 * way(between) + way(at[1:])) for way in (np.cos, np.sin)
    ]
    points = np.concatenate([np.zeros((1, 2)), np.cumsum(np.stack(steps, axis=1), axis=0)])
    curvature = grid.shown_slopes @ terms
    kept = terms.copy()
    for one in (points, curvature, kept):
        one.flags.writeable = False
    return Bent(points, curvature, kept, float(terms @ grid.stiff @ terms / 2))
