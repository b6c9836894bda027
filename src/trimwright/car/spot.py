"""Every place of the tunnel that was touched, and how it follows its readings."""

from typing import Final

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Car, Section
from trimwright.car.half_width import Widths
from trimwright.car.reading_sum import Sum
from trimwright.car.section import Term
from trimwright.car.shape import Unmeasured, affine, top_height
from trimwright.car.touched import TOP_APART, places_of

Floats = NDArray[np.float64]

FLATTEST: Final = 8.0  # mm of half width for a mm of depth: flatter than this is floor, not side
NEAREST: Final = 4  # places of a side from which its steepness is taken
SHARPEST: Final = 0.05  # mm: no reading is taken to be better than this (sigma)


class Spots(Struct, frozen=True, eq=False):
    """Touched places, front to rear: `places` (n, 3) [mm] and their `moves` (n, 3, m) per mm.

    `keys` (m,): the readings they hang on, in the order of the file. `tops`: the height of each
    section's top. `widths`: the same places as half widths.
    """

    sections: tuple[Section, ...]
    tops: tuple[Sum, ...]
    keys: tuple[str, ...]
    places: Floats
    moves: Floats
    widths: Widths

    def row(self, figure: Sum) -> Floats:
        """Return how a figure follows the readings, (m,)."""
        return _row(figure, self.keys)


def _row(figure: Sum, keys: tuple[str, ...]) -> Floats:
    column = {key: number for number, key in enumerate(keys)}
    row = np.zeros(len(keys))
    for key, _, times in figure.parts:
        if key in column:
            row[column[key]] += times
    return row


def measured_top(car: Car, section: Section) -> Sum:
    """Return the height of a section's top, 0 where nothing says it: depths count from it."""
    try:
        return top_height(car, section)
    except Unmeasured:
        return Sum()


def spots(car: Car, sigmas: dict[str, float], more: tuple[str, ...] = ()) -> Spots | None:
    """Return all places that were touched and lie beside the top; None without any.

    Parameters
    ----------
    car : Car
    sigmas : dict
        Standard deviation [mm] of every reading by its key, in the order of the file.
    more : tuple of str
        Keys of readings to keep besides those the places hang on.
    """
    touched = (one for one in car.tunnel if one.touched)
    sections = tuple(sorted(touched, key=lambda one: one.at.value))
    tops = tuple(measured_top(car, one) for one in sections)
    solved = [affine(places_of(one, top), Sum()) for one, top in zip(sections, tops, strict=True)]
    used = {term.key for _, terms in solved for term in terms} | set(more)
    keys = tuple(key for key in sigmas if key in used)
    found = [
        _beside(section, top, keys, *one)
        for section, top, one in zip(sections, tops, solved, strict=True)
    ]
    sizes = [len(one[2]) for one in found]
    if not sum(sizes):
        return None
    places, moves, depth = (np.concatenate(part) for part in zip(*found, strict=True))
    station = np.repeat(np.arange(len(found)), sizes)
    falls = np.stack([_row(tops[k], keys) for k in station]) - moves[:, 2]
    side = np.sign(places[:, 1])
    steep = _steepness(station * 3 + side, depth, np.abs(places[:, 1]))
    hangs = np.any(falls != 0, axis=1)  # on a depth that was read, not set on the gauge
    kept = ~hangs | (np.abs(steep) <= FLATTEST)
    widths = Widths(
        np.array([one.at.value for one in sections]),
        station[kept],
        depth[kept],
        side[kept].astype(np.intp),
        np.abs(places[kept, 1]),
        (side[:, None] * moves[:, 1] - steep[:, None] * falls)[kept],
        np.array([max(sigmas[key], SHARPEST) for key in keys]),
        np.where(hangs, 1 / np.hypot(1, steep), 1.0)[kept],
    )
    return Spots(sections, tops, keys, places[kept], moves[kept], widths)


def _beside(
    section: Section, top: Sum, keys: tuple[str, ...], fixed: Floats, terms: tuple[Term, ...]
) -> tuple[Floats, Floats, Floats]:
    """Return a section's places beside its top, (n, 3), their moves (n, 3, m), depths (n,)."""
    values = fixed + sum(term.value * term.share for term in terms)
    moves = np.zeros((len(fixed), 3, len(keys)))
    column = {key: number for number, key in enumerate(keys)}
    for term in terms:
        if term.key in column:
            moves[:, 1:, column[term.key]] += term.share
    depth = top.value - values[:, 1]
    kept = (np.abs(values[:, 0]) >= TOP_APART) & (depth > 0)
    x = np.full((len(values), 1), section.at.value)
    return np.concatenate([x, values], axis=1)[kept], moves[kept], depth[kept]


def _steepness(group: Floats, depth: Floats, half: Floats) -> Floats:
    """Return the change of the half width with depth at each place, by the places nearest to it.

    Straight in the root of the depth, of least squares, so that a slip of one does little.
    """
    found = np.zeros(len(depth))
    for n in range(len(depth)):
        own = np.flatnonzero(group == group[n])
        own = own[np.argsort(np.abs(depth[own] - depth[n]), kind="stable")][:NEAREST]
        root = np.sqrt(depth[own])
        root, rise = root - root.mean(), half[own] - half[own].mean()
        spread = float(root @ root)
        # a lone place, or several at one depth: as if the side began at the top
        slope = float(root @ rise) / spread if spread > 0 else float(half[n] / np.sqrt(depth[n]))
        found[n] = slope / (2 * np.sqrt(depth[n]))
    return found


__all__ = ["Spots", "measured_top", "spots"]
