"""The thinnest wire that will do, by how much it does, and what decides."""

from collections.abc import Iterator, Sequence
from math import inf
from typing import Literal

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.stock import Wire
from trimwright.wiring.copper.ampacity import Laid, jacket
from trimwright.wiring.copper.heat import Jacket, current_at, settled_c
from trimwright.wiring.copper.opening import Fuse, protection
from trimwright.wiring.copper.resistance import wire_resistance

Criterion = Literal["strength", "carries", "drop", "fuse"]
Array = NDArray[np.float64]


class Ask(Struct, frozen=True):
    """What one wire has to do; a criterion that is None is not asked for.

    Parameters
    ----------
    current_a : float
        What it carries for good [A], from 0 up.
    length_m : float
        Length of the conductor the drop counts over [m].
    ambient_c : float
        The air around it [degC].
    share : float, default 1
        What it may carry of what it may alone, from `bundle_factor`.
    drop_v : float, optional
        The largest voltage it may lose [V].
    least_mm2 : float, optional
        The smallest cross-section for its strength [mm2].
    fuse : Fuse, optional
        The fuse that feeds it.
    prospective_a : float, optional
        The largest current a short can drive through it [A]; asked for with a fuse.

    Raises
    ------
    ValueError
        If a fuse comes without the current that a short can drive.
    """

    current_a: float
    length_m: float
    ambient_c: float
    share: float = 1.0
    drop_v: float | None = None
    least_mm2: float | None = None
    fuse: Fuse | None = None
    prospective_a: float | None = None

    def __post_init__(self) -> None:
        """Refuse a fuse that nothing can be said of."""
        if (self.fuse is None) != (self.prospective_a is None):
            raise ValueError("fuse and prospective_a go together: give both or neither")


class Margin(Struct, frozen=True):
    """How a wire stands to one criterion.

    `margin` is how far it is on the right side of its limit, as a share of what is needed: 0 is
    just enough, below 0 it fails, infinite is no demand at all. `found` and `limit` are in A for
    'carries', V for 'drop', mm2 for 'strength', and for 'fuse' the A it bears and the A it is held.
    """

    criterion: Criterion
    found: float
    limit: float
    margin: float

    @property
    def passes(self) -> bool:
        """Whether it does."""
        return self.margin >= 0


class Choice(Struct, frozen=True):
    """The thinnest wire that passes, None if none does, with what decided.

    `margins` are those of the wire, or of the thickest if none passes. `decides` is the criterion
    that stands worst at the next thinner wire; at the thinnest of all, and where none passes, the
    one that stands worst there. `settles_c` is how warm its copper gets.
    """

    wire: Wire | None
    margins: tuple[Margin, ...]
    decides: Criterion
    settles_c: float


def thinnest(ask: Ask, wires: Sequence[Wire]) -> Choice:
    """Return the thinnest of some wires that does what is asked.

    Examples
    --------
    >>> from trimwright.stock import wires
    >>> found = thinnest(Ask(10.0, 3.0, 40.0, drop_v=0.36), wires("metric"))
    >>> found.wire.name, found.decides
    ('2.5 mm2', 'drop')
    """
    return thinnest_of_each((ask,), wires)[0]


def thinnest_of_each(asks: Sequence[Ask], wires: Sequence[Wire]) -> tuple[Choice, ...]:
    """Return the thinnest wire for each of many asks.

    Parameters
    ----------
    asks : sequence of Ask, n of them
        What each wire has to do.
    wires : sequence of Wire
        The wires to choose from, in any order, at least one.

    Raises
    ------
    ValueError
        If there is no wire to choose from.
    """
    if not wires:
        raise ValueError("wires must hold at least one, got none")
    by_area = tuple(sorted(wires, key=lambda one: one.conductor.area_mm2))
    carried, settled = _carried_and_settled(asks, by_area)
    return tuple(_choice(asks[n], by_area, carried[n], settled[n]) for n in range(len(asks)))


def _carried_and_settled(asks: Sequence[Ask], wires: tuple[Wire, ...]) -> tuple[Array, Array]:
    """Return what each wire bears for each ask [A], and what it settles at [degC]."""
    ambient = np.array([[one.ambient_c] for one in asks])
    share = np.array([[one.share] for one in asks])
    amperes = np.array([[one.current_a] for one in asks])
    classes = np.array([one.class_c for one in wires])
    ways = [jacket(one) for one in wires]
    one_each = Jacket(
        np.array([way.ohm_per_m for way in ways]),
        np.array([way.outside_mm for way in ways]),
        np.array([way.wall_k_m_per_w for way in ways]),
    )
    return (
        share * current_at(one_each, classes, ambient),
        settled_c(one_each, amperes / share, ambient),
    )


def _choice(ask: Ask, wires: tuple[Wire, ...], carried: Array, settled: Array) -> Choice:
    """Return the first wire that passes all, told by what the one before it failed."""

    def margins(number: int) -> Iterator[Margin]:
        return _margins(ask, wires[number], float(carried[number]), float(settled[number]))

    for number, wire in enumerate(wires):
        if all(one.passes for one in margins(number)):
            own = tuple(margins(number))
            before = tuple(margins(number - 1)) if number else own
            return Choice(wire, own, _worst(before), float(settled[number]))
    last = tuple(margins(len(wires) - 1))
    return Choice(None, last, _worst(last), float(settled[-1]))


def _worst(margins: tuple[Margin, ...]) -> Criterion:
    return min(margins, key=lambda one: one.margin).criterion


def _margins(ask: Ask, wire: Wire, bears_a: float, celsius: float) -> Iterator[Margin]:
    """Yield how a wire stands to each criterion that is asked for, what takes longest last."""
    yield _margin("carries", bears_a, ask.current_a)
    if ask.least_mm2 is not None:
        yield _margin("strength", wire.conductor.area_mm2, ask.least_mm2)
    if ask.drop_v is not None:
        lost = _drop_v(ask, wire, celsius)
        yield Margin("drop", lost, ask.drop_v, _ratio(ask.drop_v, lost))
    if ask.fuse is not None and ask.prospective_a is not None:
        yield _fused(ask, wire, ask.fuse, ask.prospective_a)


def _margin(criterion: Criterion, found: float, needed: float) -> Margin:
    return Margin(criterion, found, needed, _ratio(found, needed))


def _ratio(larger: float, smaller: float) -> float:
    """Return by which share the first is above the second; infinite above nothing."""
    return larger / smaller - 1 if smaller > 0 else inf


def _drop_v(ask: Ask, wire: Wire, celsius: float) -> float:
    """Return what a wire loses at the temperature it settles at [V]; infinite if it melts."""
    if celsius == inf:
        return inf
    per_m = wire.conductor.ohm_per_m
    return ask.current_a * float(wire_resistance(per_m, ask.length_m, copper_c=celsius))


def _fused(ask: Ask, wire: Wire, fuse: Fuse, prospective_a: float) -> Margin:
    """Return how a wire stands to its fuse."""
    if ask.ambient_c >= wire.class_c:
        return Margin("fuse", 0.0, fuse.rating_a, -1.0)
    laid = Laid(wire, ask.ambient_c, ask.share)
    found = protection(laid, fuse, prospective_a=prospective_a, carried_a=ask.current_a)
    return Margin("fuse", found.carried_a, found.held_a, found.margin)
