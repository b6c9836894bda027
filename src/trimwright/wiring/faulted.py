"""What a meter shows at every place with nothing wrong, and with each single fault."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import product

import numpy as np
from numpy.typing import NDArray

from trimwright.build import Wiring
from trimwright.quantities import Unit
from trimwright.wiring.electric import STARTER
from trimwright.wiring.logic import Board, Fault, Network, State, single_faults
from trimwright.wiring.metered import (
    Stand,
    befallen,
    carrying,
    metered,
    solved_part,
    stacked,
    stand,
    varied,
)
from trimwright.wiring.mode import Mode
from trimwright.wiring.network import Circuit, Solved, solve
from trimwright.wiring.outcome import KEPT, connections, electrics
from trimwright.wiring.probing import Probing, loads_read, points_read

Floats = NDArray[np.float64]

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


@dataclass(frozen=True, slots=True)
class MeterTable:
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
    own = electrics(wiring, unit)
    if own is None:
        return None
    _, network, found = connections(wiring)
    circuit = own.solved.circuit
    inside = {one.name for one in circuit.elements}
    loads = tuple(one for one in loads_read(network, found) if one.of in inside)
    probings = (*loads, *points_read(wiring, network, loads))
    bench = _Bench(wiring, network, circuit, probings)
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

    def __init__(
        self, wiring: Wiring, network: Network, circuit: Circuit, probings: tuple[Probing, ...]
    ) -> None:
        """Let the relays settle in every state that is read in."""
        self.wiring, self.network, self.circuit = wiring, network, circuit
        self.probings = probings
        self.loads = {
            *(one.name for one in wiring.loads),
            *(one.name for one in wiring.relays),
            STARTER,
        }
        self.boards: dict[Fault | None, Board] = {None: Board(network)}
        kept = dict.fromkeys((one.use.mode, one.use.state) for one in probings)
        stands = {key: self.stand(*key, None) for key in kept}
        self.stands = {key: one for key, one in stands.items() if one is not None}

    def stand(self, mode: Mode, state: State, fault: Fault | None) -> Stand | None:
        """Return how the car stands with its relays settled; None if they find no rest."""
        if fault not in self.boards:
            self.boards[fault] = self.boards[None].with_fault(fault)
        return stand(self.boards[fault], mode, state)

    def read_in(self, key: Key) -> tuple[int, ...]:
        """Return the numbers of the readings that are taken in a state."""
        return tuple(
            n for n, one in enumerate(self.probings) if (one.use.mode, one.use.state) == key
        )

    def expected(self) -> tuple[Floats, Floats, Floats]:
        """Return what is expected of every reading, and its limits [V]."""
        sound, low, high = (np.full(len(self.probings), np.nan) for _ in range(3))
        shares = [volts / RATED_V for volts in BATTERY_V]
        for key, whole in self.stands.items():
            given = metered(self.circuit, [whole], self.network, self.wiring)
            corners = [
                varied(self.circuit, given, self.loads, factors)
                for factors in product(shares, RESISTANCES, RESISTANCES)
            ]
            met = solved_part(self.circuit, stacked([given, *corners]))
            for n in self.read_in(key):
                shown = met.reading(self.probings[n].red, self.probings[n].black)
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
        solved = solve(self.circuit, metered(self.circuit, whole, self.network, self.wiring))
        for row, key in enumerate(self.stands):
            telling = self._telling(faults, solved, row)
            telling = sorted({*telling, *self._led_astray(faults, key)})
            stands = {n: self.stand(*key, faults[n]) for n in telling}
            welded = {n for n in telling if faults[n].kind == "contact welded"}
            for some in (set(telling) - welded, welded):  # welded ones bring in more of the circuit
                rested = sorted(n for n in some if stands[n] is not None)
                asked = [whole[row], *(at for n in rested if (at := stands[n]) is not None)]
                met = solved_part(
                    self.circuit, metered(self.circuit, asked, self.network, self.wiring)
                )
                for place in self.read_in(key):
                    one = self.probings[place]
                    shown[sorted(some), place] = np.nan
                    shown[rested, place] = met.reading(one.red, one.black)[1:]
            for place in self.read_in(key):
                if self.probings[place].kind == "load":
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

    def _led_astray(self, faults: tuple[Fault, ...], key: Key) -> Iterator[int]:
        """Yield the numbers of the faults that leave a unit elsewhere, though nothing flows there."""
        whole = self.stands[key]
        for number, fault in enumerate(faults if self.network.units else ()):
            one = None if fault.kind == "bad crimp" else self.stand(*key, fault)
            if one is not None and one.fed != whole.fed:
                yield number

    def _parted(self, solved: Solved, row: int) -> frozenset[str]:
        """Return the contacts whose ends hang on something and stand apart."""
        volts = np.abs(np.nan_to_num(solved.across[row]))
        ends = self.circuit.ends
        apart = np.nan_to_num(
            np.abs(solved.voltages[row, ends[:, 0]] - solved.voltages[row, ends[:, 1]])
        )
        wide = np.maximum(volts, apart) > APART_V
        return frozenset(
            one.name for one, is_wide in zip(self.circuit.elements, wide, strict=True) if is_wide
        )
