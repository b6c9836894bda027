"""What a meter shows at every place with nothing wrong, and with each single fault."""

from collections.abc import Iterator
from functools import lru_cache
from itertools import product

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from trimwright.build import Wiring
from trimwright.quantities import Unit
from trimwright.wiring.electric import STARTER
from trimwright.wiring.logic import (
    Fault,
    Is,
    Network,
    State,
    cone,
    influence_of,
    single_faults,
)
from trimwright.wiring.metered import Stand, befallen, carrying, varied
from trimwright.wiring.mode import Mode
from trimwright.wiring.network import Solved, States
from trimwright.wiring.outcome import KEPT, connections
from trimwright.wiring.probing import Probing, loads_read, points_read
from trimwright.wiring.rig import Rig, rig_of

Floats = NDArray[np.float64]
Whole = NDArray[np.intp]

LEAST_A = 2e-3  # below this nothing flows but what electronics pass while they are off
CRIMP_A = 0.02  # below this a bad crimp loses less than 10 mV
APART_V = 1e-3  # between the ends of an open contact that would change something by closing
STOPPED = (
    0.5  # of its voltage: below this share a load does not do its work; common practice, no source
)
RATED_V, BATTERY_V = 12.6, (12.2, 12.8)  # charged and at rest, and between which a battery may be
RESISTANCES = (0.8, 1.2)  # of what is written or computed
METER_V = 0.02  # that a meter itself may be off; common practice, no source

Key = tuple[Mode, State]


class MeterTable(Struct, frozen=True):
    """What a meter shows.

    Attributes
    ----------
    probings : tuple of Probing
        Every reading that may be taken: across loads first, in the order of the file.
    faults : tuple of Fault
        Every single fault.
    sound, low, high : ndarray, shape (readings,)
        What is expected, and between which limits [V].
    faulted : ndarray, shape (faults, readings)
        With each fault [V]; NaN where it could not be solved or relays find no rest.
    stops : ndarray of bool, shape (faults, readings)
        Whether the fault stops the load that the reading is across.
    """

    probings: tuple[Probing, ...]
    faults: tuple[Fault, ...]
    sound: Floats
    low: Floats
    high: Floats
    faulted: Floats
    stops: NDArray[np.bool_]

    def place(self, name: str) -> int | None:
        """Return the number of the reading with these words; None where none has."""
        return next((n for n, one in enumerate(self.probings) if one.name == name), None)


def meter_table(wiring: Wiring, unit: Unit) -> MeterTable | None:
    """Return what a meter shows in a wiring, with nothing wrong and with each single fault.

    None where nothing is solved: the battery is not known, or nothing can be set to work.

    Notes
    -----
    Limits: the battery's voltage and all resistances of the way together, and all of the loads
    together, are put to both their ends, and the least and most of these eight are taken. In one
    way from the battery through a load and back these are the true limits, as the reading rises or
    falls with each of the three; where ways join, resistances that err against each other may
    carry a reading a little further.

    A fault is solved only where it can tell: opening what carries nothing moves no voltage where
    current flows, nor does closing a contact whose ends stand alike or hang on nothing.
    """
    return _table(wiring.model_copy(update={"readings": ()}), unit)  # a reading moves no voltage


@lru_cache(maxsize=KEPT)
def _table(wiring: Wiring, unit: Unit) -> MeterTable | None:
    """Return what a meter shows, computed once for all readings that are taken."""
    rig = rig_of(wiring, unit)
    if rig is None:
        return None
    _, network, found = connections(wiring)
    inside = {one.name for one in rig.circuit.elements}
    loads = tuple(one for one in loads_read(network, found) if one.of in inside)
    probings = (*loads, *points_read(wiring, network, loads))
    bench = _Bench(rig, probings)
    faults = (*single_faults(network), *(_crimps(network)))
    faults = tuple(one for one in faults if befallen(one) in inside)
    sound, low, high = bench.expected()
    faulted, stops = bench.with_each(faults, sound)
    return MeterTable(probings, faults, sound, low, high, faulted, stops)


def _crimps(network: Network) -> Iterator[Fault]:
    """Yield a bad crimp for every wire."""
    yield from (Fault("bad crimp", one.name) for one in network.joins if one.kind == "wire")


class _Bench:
    """A wiring laid out for reading it in many states."""

    def __init__(self, rig: Rig, probings: tuple[Probing, ...]) -> None:
        """Let the relays settle in every state that is read in."""
        self.rig, self.probings = rig, probings
        self.loads = {
            *(one.name for one in rig.wiring.loads),
            *(one.name for one in rig.wiring.relays),
            STARTER,
        }
        kept = dict.fromkeys((one.use.mode, one.use.state) for one in probings)
        begun = [(key, one) for key in kept if (one := rig.stand(*key)) is not None]
        _, settled = rig.met([one for _, one in begun])
        told = zip(begun, settled, strict=True)
        self.stands = {key: one for (key, _), one in told if not one.chatters}

    def read_in(self, key: Key) -> tuple[int, ...]:
        """Return the numbers of the readings that are taken in a state."""
        return tuple(
            n for n, one in enumerate(self.probings) if (one.use.mode, one.use.state) == key
        )

    def _probed(self, key: Key) -> frozenset[str]:
        """Return the nodes that are read in a state."""
        own = (self.probings[number] for number in self.read_in(key))
        return frozenset(node for one in own for node in (one.red, one.black))

    def expected(self) -> tuple[Floats, Floats, Floats]:
        """Return what is expected of every reading, and its limits [V]."""
        sound, low, high = (np.full(len(self.probings), np.nan) for _ in range(3))
        shares = [volts / RATED_V for volts in BATTERY_V]
        corners = np.array([(1.0, 1.0, 1.0), *product(shares, RESISTANCES, RESISTANCES)])

        def vary(given: States, rows: Whole) -> States:
            battery, way, load = corners[rows % len(corners)].T
            return varied(self.rig.circuit, given, self.loads, (battery, way, load))

        whole = [one for one in self.stands.values() for _ in corners]
        if not whole:
            return sound, low, high
        probed = frozenset[str]().union(*map(self._probed, self.stands))
        met = self.rig.solved(whole, probed, vary)
        for row, key in enumerate(self.stands):
            rows = slice(row * len(corners), (row + 1) * len(corners))
            for n in self.read_in(key):
                shown = met.reading(self.probings[n].red, self.probings[n].black)[rows]
                sound[n] = shown[0]
                low[n], high[n] = np.min(shown) - METER_V, np.max(shown) + METER_V
        return sound, low, high

    def with_each(
        self, faults: tuple[Fault, ...], sound: Floats
    ) -> tuple[Floats, NDArray[np.bool_]]:
        """Return every reading with each fault [V], and which loads it stops."""
        shown = np.tile(sound, (len(faults), 1))
        stops = np.zeros(shown.shape, np.bool_)
        whole = list(self.stands.values())
        if not whole:
            return shown, stops
        rig, solved = self.rig, self.rig.whole(whole)
        told, asked = list[tuple[int, Key]](), list[Stand]()
        for row, key in enumerate(self.stands):
            places = list(self.read_in(key))
            for number, one in self._told(faults, set(self._telling(faults, solved, row)), key):
                shown[number, places] = np.nan
                if one is not None:
                    told.append((number, key))
                    asked.append(one)
        probed = frozenset[str]().union(*map(self._probed, self.stands))
        met, _ = rig.met(asked, probed)
        for key in self.stands:
            rows = [row for row, (_, own) in enumerate(told) if own is key]
            numbers = [told[row][0] for row in rows]
            for place in self.read_in(key):
                at = self.probings[place]
                shown[numbers, place] = met.reading(at.red, at.black)[rows]
                if at.kind == "load":
                    stops[:, place] = np.abs(shown[:, place]) < STOPPED * abs(sound[place])
        return shown, stops

    def _telling(self, faults: tuple[Fault, ...], solved: Solved, row: int) -> list[int]:
        """Return the numbers of the faults that can move a voltage where current flows."""
        carries = carrying(solved, row, LEAST_A)
        crimped = carrying(solved, row, CRIMP_A)
        parted = self._parted(solved, row)
        told = {"contact welded": parted, "bad crimp": crimped}
        return [
            number
            for number, fault in enumerate(faults)
            if befallen(fault) in told.get(fault.kind, carries)
        ]

    def _told(
        self, faults: tuple[Fault, ...], telling: set[int], key: Key
    ) -> Iterator[tuple[int, Stand | None]]:
        """Yield the faults that tell in a state, with how the car then stands.

        One that leaves a unit elsewhere tells, though nothing flows there.
        """
        whole = self._fed(self.stands[key])
        for number, fault in enumerate(faults):
            if number in telling or self._leads_units(fault):
                one = self.rig.stand(*key, fault)
                if number in telling or (one is not None and self._fed(one) != whole):
                    yield number, one

    def _leads_units(self, fault: Fault) -> bool:
        """Return whether a fault may lead a unit elsewhere, by where it lies."""
        network = self.rig.network
        if fault.kind == "bad crimp" or not network.units:  # a bad crimp joins all the same
            return False
        wakes = (Is(unit.name, unit.states[0]) for unit in network.units)
        near = cone(influence_of(network), *wakes)
        named = near.relays if fault.kind == "coil open" else near.edges
        return fault.kind == "ground lost" or fault.of in named

    def _fed(self, one: Stand) -> frozenset[str]:
        """Return the loads that are fed, and the relays that are pulled in."""
        return self.rig.board(one.fault).fed(self.rig.standing(one))

    def _parted(self, solved: Solved, row: int) -> frozenset[str]:
        """Return the contacts whose ends hang on something and stand apart."""
        volts = np.abs(np.nan_to_num(solved.across[row]))
        ends = self.rig.circuit.ends
        apart = np.nan_to_num(
            np.abs(solved.voltages[row, ends[:, 0]] - solved.voltages[row, ends[:, 1]])
        )
        wide = np.maximum(volts, apart) > APART_V
        return frozenset(
            one.name
            for one, is_wide in zip(self.rig.circuit.elements, wide, strict=True)
            if is_wide
        )
