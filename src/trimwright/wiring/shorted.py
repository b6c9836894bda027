"""Every wire rubbed through to the body: what flows, which fuse opens and when, how warm it gets.

A wire is looked at with either end at the body, in the state in which it carries most of what it is
there for: with the engine running and cold wires, when most flows, and with the engine off and wires
as warm as they bear, when least does. At each of these currents the fuse is as late as its band has
it. Contacts stay as they are: relays that drop out for lack of voltage would only help.
"""

from collections.abc import Callable
from functools import lru_cache
from math import inf

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Wiring
from trimwright.quantities import Unit
from trimwright.stock import Wire as StockWire
from trimwright.wiring.copper import (
    Laid,
    ampacity,
    celsius_after,
    copper_c,
    opening_band,
    resistance_factor,
)
from trimwright.wiring.loom import Loom, Wire
from trimwright.wiring.outcome import KEPT, connections, electrics
from trimwright.wiring.rubbed import LEAST_SHARE, Bench, Flow, Point
from trimwright.wiring.shorting import Ways, node_names, ways
from trimwright.wiring.sizing import Sizing, fuse_of_class
from trimwright.wiring.sold import choice

Floats = NDArray[np.float64]
DIGITS = 7  # of a share: wires one after the other that get equally far are told by the first
LEAST_C = 1.0  # that is left to a wire that is as warm as it bears already
WHOLE = 0.9  # of a short's current through one fuse: it looks after all of it


class Warmest(Struct, frozen=True):
    """The wire on a short's way that gets furthest towards what it bears.

    `celsius` is when the fuse has opened, `start_c` when the short came, `bears_c` what its
    insulation bears for a while [degC]; `amps` what flows in it [A], `seconds` how long [s].
    """

    wire: str
    celsius: float
    start_c: float
    bears_c: float
    amps: float
    seconds: float

    @property
    def share(self) -> float:
        """How much of the way from where it was to what it bears it gets; of equals none more."""
        share = (self.celsius - self.start_c) / max(self.bears_c - self.start_c, LEAST_C)
        return round(share, DIGITS)


class Rub(Struct, frozen=True):
    """What happens where one wire is rubbed through to the body.

    Attributes
    ----------
    wire : str
        Its name in the loom.
    mode : str
        How the car stands when most flows, in words; '' where nothing ever does.
    most_a, least_a : float
        Into the body: the most, and the least with warm wires and the engine off [A].
    fuses : tuple of str
        Those that open, one after the other, until nothing flows; none where no fuse is on the way,
        or where it goes through a load.
    fuse_a, broken_a : float
        The least that goes through the last of them, which may never open, and the most [A].
    also : tuple of str
        Other fuses on the way that may open before it.
    soonest_s, latest_s : float
        Between which times they have opened [s]; infinite where they may never.
    warmest : Warmest or None
        On the way, when they open; None where nothing flows but what a load takes.
    loads : tuple of str
        The loads that the current goes through: they work.
    fed : bool
        Whether the battery reaches it other than through a load.
    from_end : bool
        Whether the way of the current is from the wire's end to its start.
    solved : bool
        Whether all of this could be computed.
    """

    wire: str
    mode: str = ""
    most_a: float = 0.0
    least_a: float = 0.0
    fuses: tuple[str, ...] = ()
    fuse_a: float = 0.0
    broken_a: float = 0.0
    also: tuple[str, ...] = ()
    soonest_s: float = inf
    latest_s: float = inf
    warmest: Warmest | None = None
    loads: tuple[str, ...] = ()
    fed: bool = False
    from_end: bool = False
    solved: bool = True

    @property
    def unfused(self) -> bool:
        """Whether nothing but a wire that melts ends it."""
        return self.fed and not self.fuses


@lru_cache(maxsize=KEPT)
def shorted(wiring: Wiring, unit: Unit) -> tuple[Rub, ...]:
    """Return what happens where each wire is rubbed through, in the order of the loom.

    None at all where nothing is solved: the battery is not known, or nothing can be set to work.
    """
    own = electrics(wiring, unit)
    if own is None:
        return ()
    loom, network, _ = connections(wiring)
    circuit, sizes = own.solved.circuit, own.sizings
    warmed = np.ones(len(circuit.elements))
    for one in sizes:
        if one.used is not None:
            warmed[circuit.element(one.wire)] = resistance_factor(one.used.class_c)
    told = ways(loom, network, own.rows, own.solved)
    bench = Bench(wiring, network, circuit, told.rows, warmed)
    points = _points(loom, told)
    order = {one: number for number, one in enumerate(dict.fromkeys(p for s in points for p in s))}
    laid = [_laid(one, wire) for one, wire in zip(sizes, loom.wires, strict=True)]
    ends = _Ends(bench, list(order), laid, loom)
    return tuple(
        ends.rub(wire.name, [order[one] for one in mine])
        for wire, mine in zip(loom.wires, points, strict=True)
    )


def _points(loom: Loom, told: Ways) -> list[tuple[Point, ...]]:
    """Return for each wire the points that are shorted: both ends, when most flows and when least."""
    found = []
    for wire, (most, least) in zip(loom.wires, told.of, strict=True):
        mine: list[Point] = []
        if most is not None and least is not None:
            start, end = node_names(wire, loom)
            mine = [
                Point(row, node, warm=warm)
                for node in (start, end)
                for row, warm in ((most, False), (least, True))
            ]
        found.append(tuple(mine))
    return found


def _laid(one: Sizing, wire: Wire) -> tuple[Laid, float] | None:
    """Return a wire where it lies and how warm it is when the short comes; None where not known."""
    in_no_table = wire.size is not None and one.written is None
    if in_no_table or one.used is None or one.met.ambient_c >= one.used.class_c:
        return None
    alone = Laid(one.used, one.met.ambient_c)
    laid = Laid(one.used, one.met.ambient_c, min(1.0, one.carries_a / ampacity(alone)))
    start = float(copper_c(laid, one.met.lasting_a))
    return laid, min(start, one.used.excursion_c)


class _Ends:
    """All points that are shorted, with what becomes of each."""

    def __init__(
        self, bench: Bench, points: list[Point], laid: list[tuple[Laid, float] | None], loom: Loom
    ) -> None:
        """Let the fuses open."""
        self.bench, self.points, self.loom = bench, points, loom
        self.laid = {one.name: own for one, own in zip(loom.wires, laid, strict=True)}
        circuit = bench.circuit
        self.fuses = bench.wiring.fuses
        self.at = [circuit.element(one.name) for one in self.fuses]
        self.flow = bench.flow(points)
        self.peak = self.flow.amps.copy()
        count = len(points)
        self.soonest, self.latest = np.zeros(count), np.zeros(count)
        self.opened: list[tuple[str, ...]] = [()] * count
        self.also: list[tuple[str, ...]] = [()] * count
        self.fuse_a = np.zeros(count)
        self._cleared()
        self.warmest = self._warmest()

    def _cleared(self) -> None:
        """Open one fuse after the other, as long as the battery still reaches the point."""
        left, flow = list(range(len(self.points))), self.flow
        while left:
            early, late = self._bands(flow)
            more = []
            for row, number in enumerate(left):
                if not flow.fed[row] or not np.isfinite(flow.short_a[row]):
                    continue
                if self._opens(number, flow, row, (early[row], late[row])):
                    more.append(number)
            left = more
            if left:
                again = [
                    Point(one.row, one.node, one.warm, self.opened[n])
                    for n in left
                    for one in [self.points[n]]
                ]
                flow = self.bench.flow(again)
                self.peak[left] = np.fmax(self.peak[left], flow.amps)

    def _bands(self, flow: Flow) -> tuple[Floats, Floats]:
        """Return the earliest and the latest that each fuse on the way opens, (points, fuses) [s]."""
        shape = (len(flow.short_a), len(self.fuses))
        early, late = np.full(shape, inf), np.full(shape, inf)
        for place, (at, fuse) in enumerate(zip(self.at, self.fuses, strict=True)):
            amps = flow.amps[:, at]
            on = amps > LEAST_SHARE * flow.short_a
            if on.any():
                known = fuse_of_class(fuse.type, fuse.rated.value)
                early[on, place], late[on, place] = opening_band(known, amps[on])
        return early, late

    def _opens(self, number: int, flow: Flow, row: int, band: tuple[Floats, Floats]) -> bool:
        """Let the next fuse of a point open; return whether there is more to come."""
        early, late = band
        amps = flow.amps[row, self.at]
        on = amps > LEAST_SHARE * flow.short_a[row]
        on &= [one.name not in self.opened[number] for one in self.fuses]
        if not on.any():
            self.latest[number] = self.soonest[number] = inf
            self.opened[number] = ()  # the rest of it goes on without a fuse
            return False
        rated = np.array([one.rated.value for one in self.fuses])
        times = np.where(on, late, inf)
        first = (
            int(np.argmin(times)) if np.isfinite(times).any() else int(np.argmax(on * amps / rated))
        )
        self.opened[number] = (*self.opened[number], self.fuses[first].name)
        self.also[number] = tuple(
            one.name
            for n, one in enumerate(self.fuses)
            if on[n] and n != first and early[n] < late[first] < inf
        )
        self.fuse_a[number] = amps[first]
        self.soonest[number] += min(early[on])
        self.latest[number] += late[first]
        return bool(np.isfinite(late[first]) and amps[first] < WHOLE * flow.short_a[row])

    def _warmest(self) -> list[Warmest | None]:
        """Return the wire on each point's way that gets furthest towards what it bears."""
        found: list[Warmest | None] = [None] * len(self.points)
        short = np.nan_to_num(self.flow.short_a)
        for name, own in self.laid.items():
            if own is None:
                continue
            laid, start = own
            amps = np.nan_to_num(self.peak[:, self.bench.circuit.element(name)])
            some = np.flatnonzero(self.flow.fed & (amps > LEAST_SHARE * short) & (short > 0))
            if not len(some):
                continue
            celsius = celsius_after(laid, amps[some], self.latest[some], start_c=start)
            for number, warm in zip(some.tolist(), celsius.tolist(), strict=True):
                one = Warmest(
                    name,
                    warm,
                    start,
                    laid.wire.excursion_c,
                    float(amps[number]),
                    float(self.latest[number]),
                )
                before = found[number]
                if before is None or one.share > before.share:
                    found[number] = one
        return found

    def rub(self, wire: str, mine: list[int]) -> Rub:
        """Return what becomes of one wire from the points that are shorted for it."""
        if not mine:
            return Rub(wire)
        short = self.flow.short_a[mine]
        mode = self.bench.rows[self.points[mine[0]].row].mode.name
        if not np.isfinite(short).all():
            return Rub(wire, mode, solved=False)
        fed = [n for n in mine if self.flow.fed[n]]
        least, most = float(short.min()), float(short.max())
        if not fed:
            loads = dict.fromkeys(name for n in mine for name in self.flow.through[n])
            return Rub(wire, mode, most, least, loads=tuple(loads))
        slow = max(fed, key=lambda n: (self.latest[n], -self.fuse_a[n]))
        warm = [one for n in fed if (one := self.warmest[n]) is not None]
        return Rub(
            wire,
            mode,
            most,
            least,
            self.opened[slow],
            float(self.fuse_a[slow]),
            float(max(self.fuse_a[n] for n in fed)),
            tuple(dict.fromkeys(name for n in fed for name in self.also[n])),
            float(min(self.soonest[n] for n in fed)),
            float(self.latest[slow]),
            max(warm, key=lambda one: one.share, default=None),
            fed=True,
            from_end=bool(short[2] > short[0]),  # more flows at the end that is nearer
        )


def borne_by(wiring: Wiring, unit: Unit, warmest: Warmest) -> StockWire | None:
    """Return the thinnest wire that bears what is too warm for the one that is there; None if none.

    It is taken to carry as much for as long, from where that one was: thicker copper is cooler
    before, and lets a little more flow.
    """

    def bears(laid: Laid) -> bool:
        start, limit = warmest.start_c, laid.wire.excursion_c
        if start >= limit:
            return False
        found = celsius_after(laid, warmest.amps, warmest.seconds, start_c=start)
        return float(found[0]) <= limit

    return _thinnest(wiring, unit, warmest.wire, bears)


def bearing(wiring: Wiring, unit: Unit, wire: str, current_a: float) -> StockWire | None:
    """Return the thinnest wire that bears a current [A] for good in the place of one; None if none."""
    return _thinnest(wiring, unit, wire, lambda laid: ampacity(laid) >= current_a)


def _thinnest(
    wiring: Wiring, unit: Unit, wire: str, bears: Callable[[Laid], bool]
) -> StockWire | None:
    """Return the thinnest wire that will do where one lies, in its company."""
    own = electrics(wiring, unit)
    sizings = () if own is None else own.sizings
    loom, _, _ = connections(wiring)
    for sizing, there in zip(sizings, loom.wires, strict=False):  # none where nothing is solved
        known = _laid(sizing, there) if sizing.wire == wire else None
        if known is None:
            continue
        ambient, share = known[0].ambient_c, known[0].share
        able = (one for one in choice(unit) if ambient < one.class_c)
        return next((one for one in able if bears(Laid(one, ambient, share))), None)
    return None
