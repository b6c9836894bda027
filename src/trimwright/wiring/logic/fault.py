"""Single faults: one thing that no longer does what it is there for."""

from typing import Literal

from msgspec import Struct

from trimwright.wiring.logic.network import Join, Network, edges

Kind = Literal[
    "contact welded",
    "contact open",
    "wire broken",
    "fuse blown",
    "ground lost",
    "coil open",
    "bad crimp",
]
OPENS: tuple[Kind, ...] = ("contact open", "wire broken", "fuse blown")


class Fault(Struct, frozen=True):
    """A kind of fault, and what it befalls: a join, a contact, a ground's node or a relay.

    A bad crimp joins all the same: no contact logic knows it from a good one.
    """

    kind: Kind
    of: str


def single_faults(network: Network) -> tuple[Fault, ...]:
    """Return every single fault of a network, in the network's order.

    Examples
    --------
    >>> single_faults(Network(joins=(Join("fuse 7", "30", "lamp", "fuse"),), grounds=("stud",)))
    (Fault(kind='fuse blown', of='fuse 7'), Fault(kind='ground lost', of='stud'))
    """
    found: list[Fault] = []
    for edge in edges(network):
        if isinstance(edge, Join):
            found.append(Fault("fuse blown" if edge.kind == "fuse" else "wire broken", edge.name))
        else:
            found += [Fault("contact welded", edge.name), Fault("contact open", edge.name)]
    found += [Fault("ground lost", node) for node in network.grounds]
    return (*found, *(Fault("coil open", coil.relay) for coil in network.coils))
