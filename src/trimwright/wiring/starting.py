"""Lamps that come on cold: what flows through a fuse until they are hot, solved in the network."""

from functools import lru_cache
from itertools import zip_longest

import numpy as np
from msgspec import Struct

from trimwright.build import Load, Wiring
from trimwright.quantities import Unit
from trimwright.wiring.electric import flows
from trimwright.wiring.filament import Filament
from trimwright.wiring.network import Circuit, Element, Lamp, Resistor
from trimwright.wiring.outcome import KEPT, Electrics, connections, electrics
from trimwright.wiring.use import Use


class ColdLamps(Struct, frozen=True):
    """Lamps that come on together through one fuse.

    Attributes
    ----------
    fuse : str
        Its name.
    names : tuple of str
        The lamps, of which nobody wrote what they take at first.
    firsts_a : tuple of float
        What each takes at first [A].
    currents_a : tuple of float
        What flows through it from when they come on, in steps of the filament's [A].
    """

    fuse: str
    names: tuple[str, ...]
    firsts_a: tuple[float, ...]
    currents_a: tuple[float, ...]


@lru_cache(maxsize=KEPT)
def cold_lamps(wiring: Wiring, unit: Unit) -> tuple[ColdLamps, ...]:
    """Return for each state in which lamps come on, and each fuse they hang on, what flows first.

    All lamps of a state are taken to come on in the same moment, and what else flows is left out. Of
    every fuse the state in which most flows at first is told. None where nothing is solved.
    """
    own = electrics(wiring, unit)
    if own is None:
        return ()
    unsaid = {one.name for one in wiring.loads if one.kind == "lamp" and one.starts_with is None}
    uses = [one for one in connections(wiring)[2] if one.consumer.name in unsaid]
    uses = [one for one in uses if one.consumer.current_a]
    states = list(dict.fromkeys((one.mode, one.state) for one in uses))
    if not states:
        return ()
    rows = [
        next(n for n, row in enumerate(own.rows) if (row.mode, row.state) == one) for one in states
    ]
    cold = _cold(own, rows)
    worst: dict[str, ColdLamps] = {}
    for number, state in enumerate(states):
        mine = [one for one in uses if (one.mode, one.state) == state]
        for one in _through(own, wiring, mine, (rows[number], cold[number])):
            before = worst.get(one.fuse)
            if before is None or one.currents_a[0] > before.currents_a[0]:
                worst[one.fuse] = one
    return tuple(worst.values())


def _cold(own: Electrics, rows: list[int]) -> list[dict[str, tuple[float, float]]]:
    """Return for some rows with all lamps cold the voltage across each element, and its current."""
    built = own.solved.circuit
    elements = tuple(_as_cold(one) for one in built.elements)
    circuit = Circuit(built.reference, elements)
    network = connections(own.wiring)[1]
    told = [(own.rows[n].mode, own.rows[n].closed) for n in rows]
    solved = flows(circuit, told, network, own.wiring)
    names = [one.name for one in elements]
    return [
        {name: (abs(v), abs(a)) for name, v, a in zip(names, across, amps, strict=True)}
        for across, amps in zip(solved.across.tolist(), solved.currents.tolist(), strict=True)
    ]


def _as_cold(one: Element) -> Element:
    """Return an element with a lamp as the resistance that it has cold."""
    return Resistor(one.name, one.plus, one.minus, one.cold_ohms) if isinstance(one, Lamp) else one


def _through(
    own: Electrics,
    wiring: Wiring,
    uses: list[Use],
    told: tuple[int, dict[str, tuple[float, float]]],
) -> list[ColdLamps]:
    """Return what flows through each fuse with the lamps of one state behind it."""
    row, cold = told
    lamps = {one.name: one for one in wiring.loads}
    found = []
    for fuse in wiring.fuses:
        mine = [one for one in uses if fuse.name in one.path.to]
        if mine:
            each = [_current(own, lamps[one.consumer.name], row, cold) for one in mine]
            sums = [sum(some) for some in zip_longest(*each, fillvalue=0.0)]
            names = tuple(one.consumer.name for one in mine)
            found.append(ColdLamps(fuse.name, names, tuple(one[0] for one in each), tuple(sums)))
    return found


def _current(
    own: Electrics, lamp: Load, row: int, cold: dict[str, tuple[float, float]]
) -> list[float]:
    """Return what one lamp takes as it warms [A].

    Its way is what drives it less a share of its own current, both as the network has them with all
    lamps cold and with all hot.
    """
    place = own.solved.circuit.element(lamp.name)
    hot_v = abs(float(own.solved.across[row, place]))
    hot_a = abs(float(own.solved.currents[row, place]))
    cold_v, cold_a = cold[lamp.name]
    way = max(0.0, (hot_v - cold_v) / (cold_a - hot_a)) if cold_a > hot_a else 0.0
    element = own.solved.circuit.elements[place]
    if not isinstance(element, Lamp) or not np.isfinite([hot_v, hot_a, way]).all():
        return [0.0]
    filament = Filament(element.volts, element.watts)
    return [amps for _, amps in filament.warming(cold_v + cold_a * way, way)]
