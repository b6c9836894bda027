"""Scrambled Sobol points and the normal scores drawn from them."""

import csv
from functools import lru_cache
from importlib.resources import files
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from trimwright.quantities import normal_quantile

BITS = 30  # binary places of a point
AT_ONCE = 8  # factors whose scores are found together: they stay in the processor's cache
MOST_DIMENSIONS = 1111  # rows of sobol_numbers.csv; property A holds up to here [joe-kuo-2008]
FEWEST_EACH, MOST_EACH = 2, 1 << 20  # points of one scramble

Words = NDArray[np.uint32]


def _columns(degree: int, coefficients: int, initial: list[int]) -> list[int]:
    """Return the BITS direction numbers of one dimension, as words of BITS bits."""
    # m_k = 2 a_1 m_(k-1) xor ... xor 2^s m_(k-s) xor m_(k-s) [joe-kuo-2008, equation 2]
    odd = list(initial[:BITS])
    while degree and len(odd) < BITS:
        k = len(odd)
        new = odd[k - degree] ^ (odd[k - degree] << degree)
        for i in range(1, degree):
            if coefficients >> (degree - 1 - i) & 1:
                new ^= odd[k - i] << i
        odd.append(new)
    if not degree:  # the first dimension counts in plain binary
        odd = [1] * BITS
    return [number << (BITS - 1 - k) for k, number in enumerate(odd)]


def _rows(dimensions: int) -> list[dict[str, str]]:
    """Return the first rows of the table."""
    text = (files("trimwright.chance") / "sobol_numbers.csv").read_text("utf-8")
    return list(islice(csv.DictReader(text.splitlines()), dimensions))


@lru_cache(maxsize=8)
def _direction_numbers(dimensions: int) -> Words:
    """Return the direction numbers, shape (dimensions, BITS)."""
    if not 1 <= dimensions <= MOST_DIMENSIONS:
        raise ValueError(f"factors must be from 1 to {MOST_DIMENSIONS}, got {dimensions}")
    numbers = [
        _columns(
            int(row["degree"]), int(row["coefficients"]), [int(m) for m in row["initial"].split()]
        )
        for row in _rows(dimensions)
    ]
    words = np.array(numbers, dtype=np.uint32)
    words.setflags(write=False)
    return words


def _gray_points(columns: Words) -> Words:
    """Return the 2^m digital-net points in Gray-code order, shape (..., 2^m), from (..., m)."""
    m = columns.shape[-1]
    points = np.zeros((*columns.shape[:-1], 1 << m), dtype=np.uint32)
    for k in range(m):
        half = 1 << k
        points[..., half : 2 * half] = points[..., half - 1 :: -1] if k else points[..., :1]
        points[..., half : 2 * half] ^= columns[..., k, None]
    return points


def _power(each: int) -> int:
    """Return m where `each` is 2^m."""
    if not FEWEST_EACH <= each <= MOST_EACH or each & (each - 1):
        raise ValueError(f"each must be a power of two from 2 to {MOST_EACH}, got {each}")
    return each.bit_length() - 1


def sobol_points(factors: int, each: int) -> NDArray[np.float64]:
    """Return the plain Sobol points from the origin on, unscrambled, in Gray-code order.

    Parameters
    ----------
    factors : int
        Dimensions, 1 to 1111.
    each : int
        Number of points, a power of two up to 2^20.

    Returns
    -------
    ndarray, shape (each, factors)
        Points in [0, 1).

    Raises
    ------
    ValueError
        If `factors` or `each` is out of range.

    References
    ----------
    joe-kuo-2008

    Examples
    --------
    >>> sobol_points(2, 4)
    array([[0.  , 0.  ],
           [0.5 , 0.5 ],
           [0.75, 0.25],
           [0.25, 0.75]])
    """
    m = _power(each)
    return _gray_points(_direction_numbers(factors)[:, :m]).T.astype(np.float64) * 2.0**-BITS


def _scrambled(columns: Words, random: Words) -> Words:
    """Return the columns multiplied by random lower-triangular bit matrices.

    `columns` has shape (factors, 1, m), `random` (factors, scrambles, BITS): row i of the matrix,
    from the leading bit down, keeps bit i and adds the drawn choice of the bits above it.
    """
    mixed = np.zeros(np.broadcast_shapes(columns.shape, (*random.shape[:2], 1)), dtype=np.uint32)
    top = (1 << BITS) - 1
    for i in range(BITS):
        own = 1 << (BITS - 1 - i)
        above = np.uint32(top & ~(2 * own - 1))
        row = (random[:, :, i, None] & above) | np.uint32(own)
        parity = np.bitwise_count(row & columns) & np.uint8(1)
        mixed |= parity.astype(np.uint32) << np.uint32(BITS - 1 - i)
    return mixed


def sobol_scores(
    factors: int, *, scrambles: int = 8, each: int = 512, seed: int
) -> NDArray[np.float64]:
    """Return independent standard normal scores from scrambled Sobol points.

    Every scramble is a random linear matrix scramble with a digital shift, so each is unbiased
    and their spread gives the standard error. A factor's column depends on its place and the
    seed only: more factors leave the earlier columns as they were.

    Parameters
    ----------
    factors : int
        Number of factors, 0 to 1111.
    scrambles : int, default 8
        Independent scrambles, at least 1.
    each : int, default 512
        Points of each scramble, a power of two up to 2^20.
    seed : int
        Seed, 0 or above.

    Returns
    -------
    ndarray, shape (scrambles * each, factors)
        Scores; rows of one scramble stand together.

    Raises
    ------
    ValueError
        If an argument is out of range.

    References
    ----------
    joe-kuo-2008, matousek-1998, owen-1998

    Examples
    --------
    >>> sobol_scores(3, seed=1).shape
    (4096, 3)
    """
    m = _power(each)
    if scrambles < 1 or seed < 0:
        raise ValueError(
            f"scrambles must be at least 1 and seed at least 0, got {scrambles}, {seed}"
        )
    if factors == 0:
        return np.zeros((scrambles * each, 0))
    return _scores(factors, scrambles, m, seed)


@lru_cache(maxsize=4)
def _scores(factors: int, scrambles: int, m: int, seed: int) -> NDArray[np.float64]:
    """Return the scores, kept: one edit after another asks for the same."""
    columns = _direction_numbers(factors)[:, None, :m]
    # raw output of PCG64: its stream is fixed for good, unlike that of the Generator's methods
    raw = np.random.PCG64(seed).random_raw(factors * scrambles * (BITS + 1))
    random = (raw >> np.uint64(64 - BITS)).astype(np.uint32).reshape(factors, scrambles, BITS + 1)
    words = _gray_points(_scrambled(columns, random[:, :, :BITS]))
    words ^= random[:, :, BITS, None]
    chances = (words.reshape(factors, scrambles << m) + 0.5) * 2.0**-BITS
    rows = [normal_quantile(chances[k : k + AT_ONCE]) for k in range(0, factors, AT_ONCE)]
    scores = np.ascontiguousarray(np.concatenate(rows).T)
    scores.setflags(write=False)
    return scores
