"""Which readings are worth taking, and what one that was taken speaks of."""

from collections.abc import Sequence

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.stock import fault_chance
from trimwright.wiring.faulted import METER_V, MeterTable
from trimwright.wiring.logic import Fault
from trimwright.wiring.odds import chances

Floats = NDArray[np.float64]

APART_V = 0.3  # readings nearer to each other than this are one; common practice, no source
EXPLAINED_V = 0.5  # what misses by more explains nothing; common practice, no source
TIED = 0.1  # of the chance of the likeliest: what has no less than this is not ruled out beside it
SIGMAS = 2  # that a limit stands for: 19 readings in 20 lie within


class Likely(Struct, frozen=True):
    """A fault, what the meter would show with it [V], and by how much that misses what was read.

    `chance` is that it is this fault, from 0 to 1, all that was read counted.
    """

    fault: Fault
    shows_v: float
    misses_v: float
    chance: float


class Diagnosis(Struct, frozen=True):
    """What readings that were taken speak of.

    Attributes
    ----------
    likely : tuple of Likely
        Single faults that explain it, the likeliest first.
    tied : int
        How many of the first have at least a tenth of the chance of the very first.
    following : int or None
        The reading that parts these best; None where there is one alone, or none parts them.
    unsolved : int
        How many faults could not be solved.
    nothing, other : float
        The chances that nothing is wrong, and that it is something that is not in the list.
    """

    likely: tuple[Likely, ...]
    tied: int
    following: int | None
    unsolved: int
    nothing: float
    other: float


def chosen(table: MeterTable) -> tuple[int, ...]:
    """Return the fewest readings found that see every single fault that stops a load.

    The reading that sees most of what none before it saw is taken time after time; of equals the
    first. Faults that no reading sees are left: `unseen` names them.
    """
    left: NDArray[np.bool_] = np.asarray(np.any(table.stops, axis=1))
    seen = wrong_readings(table)
    taken: list[int] = []
    while True:
        counts = (seen & left[:, None]).sum(axis=0)
        best = int(np.argmax(counts)) if len(counts) else 0
        if not len(counts) or not counts[best]:
            return tuple(sorted(taken))
        taken.append(best)
        left = np.asarray(left & ~seen[:, best])


def wrong_readings(table: MeterTable) -> NDArray[np.bool_]:
    """Return which readings each fault puts outside their limits, shape (faults, readings)."""
    shown = np.nan_to_num(table.faulted, nan=np.inf)
    solved = np.isfinite(table.faulted)
    return np.asarray(solved & ((shown < table.low) | (shown > table.high)))


def unseen(table: MeterTable, readings: Sequence[int]) -> tuple[Fault, ...]:
    """Return the faults that stop a load and that none of some readings sees."""
    seen = np.any(wrong_readings(table)[:, list(readings)], axis=1)
    missed = np.flatnonzero(np.any(table.stops, axis=1) & ~seen)
    return tuple(table.faults[n] for n in missed)


def as_expected(table: MeterTable, place: int, reads_v: float) -> bool:
    """Return whether a reading lies within its limits."""
    return bool(table.low[place] <= reads_v <= table.high[place])


def diagnosis(table: MeterTable, read: dict[int, float], place: int) -> Diagnosis:
    """Return which single faults a wrong reading speaks of, all other readings taken counted.

    What a fault shows has the doubt of the sound reading, in share of it: it misses what was read
    by what lies outside; one that misses any of the readings by more than 0.5 V explains nothing.
    A fault's chance is how often its kind comes, times how likely it makes all that was read, beside
    every other single fault, nothing wrong, and anything else: two faults, one of another kind or
    one that could not be solved, which leave every voltage as likely as any other.

    Parameters
    ----------
    table : MeterTable
        What is shown with each fault.
    read : dict
        Every reading taken [V], by its number.
    place : int
        The one that is wrong.
    """
    moved = wrong_readings(table)[:, place] & np.isfinite(table.faulted).all(axis=1)
    missed = np.max([_missed(table, n, volts) for n, volts in read.items()], axis=0)
    chance = _chances(table, read)
    numbers = [int(n) for n in np.flatnonzero(moved & (missed <= EXPLAINED_V))]
    numbers.sort(key=lambda n: (-round(float(chance[n]), 6), n))
    likely = tuple(
        Likely(table.faults[n], float(table.faulted[n, place]), float(missed[n]), float(chance[n]))
        for n in numbers
    )
    tied = [n for n in numbers if chance[n] >= TIED * chance[numbers[0]]]
    unsolved = np.isnan(table.faulted[:, place])
    other = 1.0 - float(np.sum(chance[:-1][np.append(~unsolved, True)]))
    following = _following(table, tied, set(read))
    return Diagnosis(likely, len(tied), following, int(unsolved.sum()), float(chance[-2]), other)


def _chances(table: MeterTable, read: dict[int, float]) -> Floats:
    """Return the chance of each fault, of nothing wrong, and of anything else."""
    places = list(read)
    sound, low, high = (one[places] for one in (table.sound, table.low, table.high))
    share = np.zeros_like(sound)
    np.divide((high - low) / 2 - METER_V, np.abs(sound), out=share, where=sound != 0)
    faulted = table.faulted[:, places]
    nowhere = np.full((1, len(places)), np.nan)
    shown = np.concatenate([faulted, sound[None], nowhere])
    moves = np.abs(shown - sound) > METER_V
    doubt = np.hypot(np.hypot(shown * share, METER_V), np.where(moves, EXPLAINED_V, 0.0)) / SIGMAS
    before = [fault_chance(one.kind) for one in table.faults]
    odds = np.array([*(p / (1 - p) for p in before), 1.0, fault_chance("anything else")])
    span = 2 * float(np.nanmax(np.abs(table.high)))  # from as much below nought to as much above
    return chances(odds, shown, doubt, np.array([read[n] for n in places]), span)


def _missed(table: MeterTable, place: int, volts: float) -> Floats:
    """Return by how much each fault misses a reading [V], shape (faults,)."""
    shown, sound = table.faulted[:, place], table.sound[place]
    shares = (table.low[place] / sound, table.high[place] / sound) if sound else (1.0, 1.0)
    ends = np.sort(np.array([shown * share for share in shares]), axis=0)
    below, above = ends[0] - METER_V - volts, volts - ends[1] - METER_V
    return np.asarray(np.maximum(0.0, np.maximum(below, above)))


def _following(table: MeterTable, tied: list[int], taken: set[int]) -> int | None:
    """Return the reading not yet taken whose largest group of faults that look alike is least."""
    best: tuple[int, int, int] | None = None
    for place in range(len(table.probings)):
        if place in taken or len(tied) < 2:  # noqa: PLR2004  one alone needs no parting
            continue
        sizes = [len(one) for one in alike(table.faulted[tied, place])]
        ranked = (max(sizes), -len(sizes), place)
        best = ranked if best is None or ranked < best else best
    return best[2] if best is not None and best[0] < len(tied) else None


def alike(volts: Floats) -> tuple[tuple[int, ...], ...]:
    """Return the places of voltages that cannot be told from their neighbours, lowest first.

    Examples
    --------
    >>> alike(np.array([12.1, 0.0, 12.0]))
    ((1,), (2, 0))
    """
    found: list[list[int]] = []
    last = -np.inf
    for place in np.argsort(volts, kind="stable"):
        here = float(volts[place])
        if not found or here - last > APART_V:
            found.append([])
        found[-1].append(int(place))
        last = here
    return tuple(tuple(one) for one in found)
