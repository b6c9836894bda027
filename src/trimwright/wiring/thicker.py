"""Thicker wire for what gets too little: the least more copper that brings it enough."""

from trimwright.stock import Wire
from trimwright.wiring.laid import length_m
from trimwright.wiring.outcome import Electrics, connections
from trimwright.wiring.sizing import NOMINAL_V
from trimwright.wiring.sold import choice
from trimwright.wiring.supply import Supply

KEPT = 0.97  # of the limit that is aimed at: what is thicker lets a little more flow


def thicker(electrics: Electrics, supply: Supply) -> dict[int, Wire] | None:
    """Return for current paths, by number, the wire that brings a consumer enough.

    One path after another goes up a size, each time the one where that saves the most, until what
    is lost on the way is within what the consumer's kind allows.

    Parameters
    ----------
    electrics : Electrics
        The solved wiring.
    supply : Supply
        The consumer, in the mode in which most is lost.

    Returns
    -------
    dict of int to Wire, or None
        Empty where nothing is too thin; None where no wire of the table is thick enough.
    """
    sizes = {one.wire: one.used for one in electrics.sizings}
    way = set(supply.use.path.to) | set(supply.use.path.back)
    amps = dict(supply.amps)
    volts: dict[int, float] = {}  # of a path: V lost for each ohm a metre
    now: dict[int, Wire] = {}
    for wire in connections(electrics.wiring)[0].wires:
        own = sizes.get(wire.name)
        if wire.name in way and own is not None:
            volts[wire.path] = volts.get(wire.path, 0.0) + amps[wire.name] * length_m(wire)
            now[wire.path] = min(now.get(wire.path, own), own, key=_area)
    over = supply.lost * NOMINAL_V - KEPT * supply.use.consumer.kind.drop * NOMINAL_V
    ladder, taken = choice(electrics.unit), dict(now)
    while over > 0:
        steps = {
            path: (volts[path] * (own.conductor.ohm_per_m - above.conductor.ohm_per_m), above)
            for path, own in taken.items()
            if (above := _above(own, ladder)) is not None
        }
        if not steps:
            return None
        best = max(steps, key=lambda path: (steps[path][0], -path))
        over -= steps[best][0]
        taken[best] = steps[best][1]
    return {path: own for path, own in taken.items() if own != now[path]}


def _area(wire: Wire) -> float:
    return wire.conductor.area_mm2


def _above(own: Wire, ladder: tuple[Wire, ...]) -> Wire | None:
    """Return the next thicker wire, None above the thickest."""
    return next((one for one in ladder if _area(one) > 1.05 * _area(own)), None)
