"""The places that a wire passes on its way."""

from trimwright.build import Wiring
from trimwright.wiring.loom import Wire


def passed(wire: Wire, wiring: Wiring) -> tuple[str, ...]:
    """Return the places along a wire's way, both its ends included, in order.

    Raises
    ------
    ValueError
        If its way is not known.
    """
    if wire.route is None or wire.start.place is None:
        raise ValueError(f"wire must have a way, got {wire.name!r}")
    places = [wire.start.place]
    for number in wire.route.trunks:
        trunk = wiring.trunks[number]
        places.append(trunk.end if places[-1] == trunk.start else trunk.start)
    return tuple(places)
