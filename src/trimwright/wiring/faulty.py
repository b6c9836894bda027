"""What can be wrong in a wiring, part by part."""

from msgspec import Struct

from trimwright.build import Wiring
from trimwright.wiring.logic import Fault, Network, single_faults
from trimwright.wiring.outcome import connections
from trimwright.wiring.wording import STUD


class Part(Struct, frozen=True):
    """A wire or a device, the names it is drawn by, and every single thing that can be wrong in it."""

    name: str
    drawn: tuple[str, ...]
    faults: tuple[Fault, ...]


def parts(wiring: Wiring) -> tuple[Part, ...]:
    """Return everything in which something can be wrong: devices as in the file, then wires."""
    _, network, _ = connections(wiring)
    grouped: dict[str, list[Fault]] = {name: [] for name in _devices(wiring)}
    grouped |= {one.name: [] for one in network.joins if one.kind == "wire"}
    for fault in all_faults(network):
        grouped.setdefault(_part(fault, grouped), []).append(fault)
    return tuple(
        Part(name, tuple(dict.fromkeys((name, *map(drawn_as, own)))), tuple(own))
        for name, own in grouped.items()
        if own
    )


def all_faults(network: Network) -> tuple[Fault, ...]:
    """Return every single fault, a bad crimp in each wire among them.

    Left out is a source's own post that is no ground any more: all is dead then.
    """
    wires = (one.name for one in network.joins if one.kind == "wire")
    lost = (one for one in single_faults(network) if one.kind == "ground lost")
    posts = {one for one in lost if not one.of.endswith(STUD)}
    single = (one for one in single_faults(network) if one not in posts)
    return (*single, *(Fault("bad crimp", name) for name in wires))


def drawn_as(fault: Fault) -> str:
    """Return the name by which what a fault befalls is drawn.

    Examples
    --------
    >>> drawn_as(Fault("ground lost", "tail stud stud"))
    'tail stud'
    """
    return fault.of.removesuffix(STUD) if fault.kind == "ground lost" else fault.of


def _devices(wiring: Wiring) -> tuple[str, ...]:
    """Return the names of the devices that have faults of their own."""
    kinds = (
        wiring.feeds,
        wiring.fuses,
        wiring.switches,
        wiring.relays,
        wiring.units,
        wiring.grounds,
    )
    return tuple(one.name for kind in kinds for one in kind)


def _part(fault: Fault, names: dict[str, list[Fault]]) -> str:
    """Return the device or wire that a fault is in: of a contact the longest name it begins with."""
    own = drawn_as(fault)
    if own in names or not fault.kind.startswith("contact"):
        return own
    begun = (name for name in names if own.startswith(f"{name} "))
    return max(begun, key=len, default=own)
