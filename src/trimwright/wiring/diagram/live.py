"""What is live in a state: the wires, contacts and consumers to be inked in the diagram."""

from dataclasses import dataclass

from trimwright.wiring.contacts import merged
from trimwright.wiring.logic import Board, Fed, Network, Pulled, at_rest
from trimwright.wiring.loom import Loom

Facts = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Live:
    """Names of what is live in a state.

    Attributes
    ----------
    wires : tuple of str
        Those that are joined to a live feed, in the order of the loom.
    contacts : tuple of str
        Those that are closed, whether anything is live there or not.
    consumers : tuple of str
        The loads that work and the relays that are pulled in.
    """

    wires: tuple[str, ...]
    contacts: tuple[str, ...]
    consumers: tuple[str, ...]


def live(loom: Loom, network: Network, facts: Facts) -> Live | None:
    """Return what is live once the relays have settled; None if they never do.

    Parameters
    ----------
    loom : Loom
        The wires.
    network : Network
        The same as contacts.
    facts : tuple
        A value for each fact of the network: the key, the engine, switches, doors.

    Raises
    ------
    ValueError
        If a fact of the network has no value, or one that it cannot have.
    """
    told = dict(facts)
    for fact in network.facts:
        if told.get(fact.name) not in fact.values:
            raise ValueError(
                f"facts must say {fact.name}: {', '.join(fact.values)}, got {told.get(fact.name)!r}"
            )
    board = Board(network)
    seen = at_rest(board, facts)
    if seen is None:
        return None
    one_of = merged(loom)
    wires = (w.name for w in loom.wires if one_of.get(w.start.node, w.start.node) in seen.live)
    loads = (one.name for one in network.loads if board.holds(Fed(one.name), seen))
    coils = (one.relay for one in network.coils if board.holds(Pulled(one.relay), seen))
    return Live(
        tuple(wires),
        tuple(one.name for one in network.contacts if one.name in seen.closed),
        (*loads, *coils),
    )
