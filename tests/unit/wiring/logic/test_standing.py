"""What is live and grounded with each fault, one board for all of them, against the whole table."""

import pytest

from tests.contact_table import Table
from tests.invented_network import network
from trimwright.wiring.logic import (
    Board,
    Closed,
    Fault,
    Grounded,
    Join,
    Live,
    Network,
    State,
    nodes,
    resting,
    single_faults,
    switched,
)


def states(net: Network) -> list[State]:
    """Return the state of rest, and others with each fact at its last value."""
    rest = resting(net)
    worked = tuple((fact.name, fact.values[-1]) for fact in net.facts)
    relays = tuple(coil.relay for coil in net.coils)
    return [rest, State(worked, (), rest.units), State(worked, relays, rest.units)]


def by_table(net: Network, fault: Fault | None, state: State) -> tuple[set[str], ...]:
    """Return the nodes live and grounded, and the contacts closed, by the whole table."""
    table = Table(net, fault)
    row = table.row(state)
    live = {node for node in nodes(net) if table.column(Live(node)) & row}
    grounded = {node for node in nodes(net) if table.column(Grounded(node)) & row}
    return live, grounded, {c.name for c in switched(net) if table.column(Closed(c.name)) & row}


@pytest.mark.parametrize("seed", range(20))
def test_a_board_with_one_fault_after_another_is_as_the_table_with_each(seed: int) -> None:
    net = network(seed)
    board = Board(net)
    contacts = {one.name for one in switched(net)}
    crimps = [Fault("bad crimp", one.name) for one in net.joins[:1]]
    for state in states(net):
        for fault in (None, *single_faults(net), *crimps, None):
            seen = board.with_fault(fault).standing(state)
            told = set(seen.live), set(seen.grounded), set(seen.closed) & contacts
            assert told == by_table(net, fault, state), fault


def test_a_ring_that_breaks_stays_joined_and_what_hangs_on_one_wire_does_not() -> None:
    # feed - a - b - c, and a - c beside it: only the break of the one way in takes all away
    pairs = (("in", "a"), ("a", "b"), ("b", "c"), ("c", "a"), ("c", "out"))
    joins = tuple(Join(one + other, one, other) for one, other in pairs)
    net = Network(joins=joins, grounds=("in",))
    rest, board = resting(net), Board(net)
    grounded = {one.name: board.with_fault(Fault("wire broken", one.name)) for one in joins}
    told = {name: set(one.standing(rest).grounded) for name, one in grounded.items()}
    whole = {"in", "a", "b", "c", "out"}
    assert told == {
        "ina": {"in"},
        "ab": whole,
        "bc": whole,
        "ca": whole,
        "cout": whole - {"out"},
    }
