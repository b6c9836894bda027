"""The size of every wire: what is asked of it, how the written one does, the thinnest that will."""

from collections.abc import Mapping
from math import inf, sqrt

import numpy as np
from msgspec import Struct

from trimwright.build import Wiring
from trimwright.quantities import Unit
from trimwright.stock import Wire as StockWire
from trimwright.stock import fuse_class, least_area
from trimwright.wiring.copper import Ask, Choice, Fuse, Laid, Margin, ampacity, thinnest_of_each
from trimwright.wiring.laid import Met, company, first_fuses, length_m, met
from trimwright.wiring.loom import Loom
from trimwright.wiring.network import Solved
from trimwright.wiring.sold import choice, meanwhile, sold
from trimwright.wiring.use import Row, Use

NOMINAL_V = 12.0  # that a share of loss is a share of
FUSE_CLASS = {"blade": "blade", "glass": "glass 5x20", "bolted": "bolted"}
STRENGTH = "wire in a sheath"
LEAST_DROP_V = 0.001  # a loss that no wire keeps: all of the allowance is gone elsewhere


class Sizing(Struct, frozen=True):
    """One wire's size.

    Attributes
    ----------
    wire : str
        Its name in the loom.
    met : Met
        What it meets.
    written : StockWire or None
        The wire as sold that the builder wrote; None where no size is written, or none is sold.
    margins : tuple of Margin
        How the written one, else the needed one, stands to each criterion.
    stout : StockWire or None
        The thinnest that bears its current, its fuse and its handling, whatever it loses.
    needed : StockWire or None
        The thinnest that passes all; None where none does.
    decides : str
        The criterion that decides.
    carries_a : float
        What the written one, else the needed one, may carry there for good [A].
    drop_of : str
        The consumer whose loss decides its share of the allowance; '' where none does.
    """

    wire: str
    met: Met
    written: StockWire | None
    margins: tuple[Margin, ...]
    stout: StockWire | None
    needed: StockWire | None
    decides: str
    carries_a: float
    drop_of: str

    @property
    def used(self) -> StockWire | None:
        """The wire that is there: as written, else as needed."""
        return self.written or self.needed

    @property
    def short(self) -> Margin | None:
        """The criterion that it fails by most; None if it passes all."""
        failed = [one for one in self.margins if not one.passes]
        return min(failed, key=lambda one: one.margin) if failed else None


class Allowance(Struct, frozen=True):
    """What one wire may lose [V] at a current [A], for the sake of one consumer."""

    volts: float
    current_a: float
    consumer: str


def sizings(
    wiring: Wiring,
    loom: Loom,
    found: tuple[Use, ...],
    rows: tuple[Row, ...],
    solved: Solved,
    unit: Unit,
) -> dict[str, Sizing]:
    """Return the sizing of every wire, by its name, in the order of the loom.

    What a consumer may lose is shared out among the wires on its way by their length times the
    square root of their current: so the least copper keeps the allowance.
    """
    told = met(wiring, loom, found, rows, solved)
    stand_in = meanwhile(unit)
    lies = {one.name: sold(one.size) if one.size else None for one in loom.wires}
    bears = {
        name: ampacity(Laid(lies[name] or stand_in, own.ambient_c))
        for name, own in told.items()
        if own.ambient_c < (lies[name] or stand_in).class_c
    }
    shares = company(told, loom, bears)
    allowed = allowances(loom, found, rows, solved)
    leading = first_fuses(wiring, found)
    values = {one.name: one.values() for one in solved.circuit.elements}
    volts = values["battery"].volts
    ohms = {name: 1 / of.siemens if of.siemens else inf for name, of in values.items()}
    asks: dict[str, tuple[Ask, Ask | None]] = {}
    for one in loom.wires:
        own, allowance = told[one.name], allowed.get(one.name)
        short_a = _short_a(volts, ohms, found, one.name) if own.ahead else None
        # wire that is chosen here bears as well what the fuse that it leads to may let through
        name = own.fuse or (leading.get(one.name) if one.size is None else None)
        fuse = _fuse(wiring, name) if name and short_a is not None else None
        ask = Ask(
            own.lasting_a,
            length_m(one),
            own.ambient_c,
            shares[one.name],
            least_mm2=least_area(STRENGTH).area_mm2,
            fuse=fuse,
            prospective_a=short_a if fuse else None,
        )
        drop = None
        if allowance is not None and allowance.current_a > 0:
            drop = Ask(allowance.current_a, ask.length_m, ask.ambient_c, drop_v=allowance.volts)
        asks[one.name] = (ask, drop)
    return _chosen(asks, told, allowed, lies, unit)


def _chosen(
    asks: Mapping[str, tuple[Ask, Ask | None]],
    told: Mapping[str, Met],
    allowed: Mapping[str, Allowance],
    lies: Mapping[str, StockWire | None],
    unit: Unit,
) -> dict[str, Sizing]:
    """Return the sizing of each wire from what is asked of it."""
    listed = choice(unit)
    names = list(asks)
    lasting = thinnest_of_each([asks[name][0] for name in names], listed)
    with_drop = [name for name in names if asks[name][1] is not None]
    drops = dict(
        zip(
            with_drop,
            thinnest_of_each([one for n in with_drop if (one := asks[n][1])], listed)
            if with_drop
            else (),
            strict=True,
        )
    )
    found: dict[str, Sizing] = {}
    for name, plain in zip(names, lasting, strict=True):
        drop = drops.get(name)
        needed, decides = _thicker(plain, drop)
        own = lies[name] or needed or listed[-1]
        margins = _margins(asks[name], own)
        carried = next(one.found for one in margins if one.criterion == "carries")
        drop_of = allowed[name].consumer if name in allowed else ""
        found[name] = Sizing(
            name, told[name], lies[name], margins, plain.wire, needed, decides, carried, drop_of
        )
    return found


def _thicker(plain: Choice, drop: Choice | None) -> tuple[StockWire | None, str]:
    """Return the wire that passes both, and what decides it."""
    if drop is None:
        return plain.wire, plain.decides
    if plain.wire is None or drop.wire is None:
        return None, plain.decides if plain.wire is None else "drop"
    if drop.wire.conductor.area_mm2 > plain.wire.conductor.area_mm2:
        return drop.wire, "drop"
    return plain.wire, plain.decides


def _margins(asked: tuple[Ask, Ask | None], own: StockWire) -> tuple[Margin, ...]:
    """Return how one wire stands to all that is asked."""
    plain, drop = asked
    margins = list(thinnest_of_each((plain,), (own,))[0].margins)
    if drop is not None:
        (lost,) = thinnest_of_each((drop,), (own,))
        margins += [one for one in lost.margins if one.criterion == "drop"]
    return tuple(margins)


def allowances(
    loom: Loom, found: tuple[Use, ...], rows: tuple[Row, ...], solved: Solved
) -> dict[str, Allowance]:
    """Return what each wire may lose, by its name: the least over all uses of it."""
    long = {one.name: length_m(one) for one in loom.wires}
    names = {one.name: n for n, one in enumerate(solved.circuit.elements)}
    best: dict[str, Allowance] = {}
    for use in found:
        row = _row(use, rows)
        if row is None:
            continue
        across = np.abs(np.nan_to_num(solved.across[row]))
        amps = np.abs(np.nan_to_num(solved.currents[row]))
        ways = [name for name in (*use.path.to, *use.path.back) if name in long]
        parts = [name for name in (*use.path.to, *use.path.back) if name not in long]
        spent = sum(float(across[names[name]]) for name in parts if name in names)
        left = use.consumer.kind.drop * NOMINAL_V - spent
        weigh = {name: long[name] * sqrt(float(amps[names[name]])) for name in ways}
        total = sum(weigh.values())
        for name in ways:
            current = float(amps[names[name]])
            if total == 0 or current == 0:
                continue
            volts = max(left * weigh[name] / total, LEAST_DROP_V)
            old = best.get(name)
            if old is None or volts / current < old.volts / old.current_a:
                best[name] = Allowance(volts, current, use.consumer.name)
    return best


def _row(use: Use, rows: tuple[Row, ...]) -> int | None:
    """Return the row in which a use has the least else on."""
    return next(
        (number for number, row in enumerate(rows) if row.is_of(use)),
        None,
    )


def _fuse(wiring: Wiring, name: str) -> Fuse:
    """Return a fuse of the build as a fuse of its class."""
    own = next(fuse for fuse in wiring.fuses if fuse.name == name)
    return fuse_of_class(own.type, own.rated.value)


def fuse_of_class(made: str, rated_a: float) -> Fuse:
    """Return a fuse by how it is made, 'blade', 'glass' or 'bolted', and its rating [A]."""
    return Fuse(fuse_class(FUSE_CLASS[made]), rated_a)


def _short_a(volts: float, ohms: dict[str, float], found: tuple[Use, ...], name: str) -> float:
    """Return the most that a short to ground at the far end of a wire drives through it [A].

    The battery's voltage over what lies between, ground taken as without resistance.
    """
    most = 0.0
    for use in found:
        if name not in use.path.to:
            continue
        upto = use.path.to[: use.path.to.index(name) + 1]
        between = sum(ohms[n] for n in upto if n in ohms)
        most = max(most, volts / (ohms["battery"] + between))
    return most or inf


def with_chosen(loom: Loom, found: Mapping[str, Sizing], unit: Unit) -> dict[str, float]:
    """Return the resistance of every wire [ohm] with its written size, else the needed one."""
    listed = choice(unit)
    return {
        one.name: (found[one.name].used or listed[-1]).conductor.ohm_per_m * length_m(one)
        for one in loom.wires
    }
