"""The circuits of a vehicle as contacts between nodes, and the rules they are to keep."""

from typing import Literal

from msgspec import Struct

from trimwright.wiring.logic.condition import (
    ALWAYS,
    NEVER,
    Atom,
    Closed,
    Condition,
    Fed,
    Grounded,
    Is,
    Live,
    Or,
    Pulled,
    Shorted,
    atoms,
)


class Fact(Struct, frozen=True):
    """Something of the car that a contact may follow; the first of its values is the resting one."""

    name: str
    values: tuple[str, ...]


class Join(Struct, frozen=True):
    """A wire or a fuse between two nodes: closed unless it is at fault."""

    name: str
    a: str
    b: str
    kind: Literal["wire", "fuse"] = "wire"


class Contact(Struct, frozen=True):
    """A contact of a switch or relay between two nodes, closed while a condition holds."""

    name: str
    a: str
    b: str
    when: Condition


class Feed(Struct, frozen=True):
    """A node that is live while a condition holds."""

    name: str
    node: str
    when: Condition = ALWAYS


class Coil(Struct, frozen=True):
    """The coil of a relay between two nodes; the relay is pulled in while its coil is fed."""

    relay: str
    a: str
    b: str


class Load(Struct, frozen=True):
    """A load between two nodes; nothing is reached through it."""

    name: str
    a: str
    b: str


class Output(Struct, frozen=True):
    """A contact inside a control unit, closed in some of the unit's states."""

    name: str
    a: str
    b: str
    states: tuple[str, ...]


class Move(Struct, frozen=True):
    """A control unit goes from a state to another while a condition holds.

    It goes at once, or, if it `waits`, after a while in which facts may change.
    """

    state: str
    when: Condition
    to: str
    waits: bool = False


class Unit(Struct, frozen=True):
    """A control unit as a table of states; the first is the one it wakes in."""

    name: str
    states: tuple[str, ...]
    moves: tuple[Move, ...] = ()
    outputs: tuple[Output, ...] = ()


class State(Struct, frozen=True):
    """Where everything stands: value of each fact, relays pulled in, state of each unit."""

    facts: tuple[tuple[str, str], ...]
    pulled: tuple[str, ...] = ()
    units: tuple[tuple[str, str], ...] = ()


class Rule(Struct, frozen=True):
    """What must never, or must always, hold while a condition holds, but for an exception.

    `asks` is 'never' or 'always'; `subject` is what it is about: a load fed, a contact closed, a
    relay pulled in.
    """

    name: str
    asks: Literal["never", "always"]
    subject: Condition
    when: Condition = ALWAYS
    unless: Condition = NEVER


class Network(Struct, frozen=True):
    """Nodes by name, and what lies between them.

    Raises
    ------
    ValueError
        If a name is given twice, or a condition names what the network does not have.
    """

    facts: tuple[Fact, ...] = ()
    joins: tuple[Join, ...] = ()
    contacts: tuple[Contact, ...] = ()
    feeds: tuple[Feed, ...] = ()
    grounds: tuple[str, ...] = ()
    coils: tuple[Coil, ...] = ()
    loads: tuple[Load, ...] = ()
    units: tuple[Unit, ...] = ()
    constraints: tuple[Condition, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a network that contradicts itself."""
        names = [*(fact.name for fact in self.facts), *(unit.name for unit in self.units)]
        _each_once("facts and units", names)
        _each_once(
            "relays and units",
            [*(coil.relay for coil in self.coils), *(unit.name for unit in self.units)],
        )
        _each_once("joins and contacts", [one.name for one in edges(self)])
        _each_once("loads", [load.name for load in self.loads])
        _each_once("feeds", [feed.name for feed in self.feeds])
        ends: tuple[Edge | Coil | Load, ...] = (*edges(self), *self.coils, *self.loads)
        for one in ends:
            if one.a == one.b:
                raise ValueError(f"both ends must not be one node, got {one}")
        for said in self.constraints:
            _refuse_unknown(self, said, facts_only=True)
        for when in [*(c.when for c in self.contacts), *(f.when for f in self.feeds)]:
            _refuse_unknown(self, when, (Is, Pulled))
        for unit in self.units:
            _refuse_unknown_moves(self, unit)


Edge = Join | Contact


def edges(network: Network) -> tuple[Edge, ...]:
    """Return all that may join two nodes: joins, contacts, and the outputs of units as contacts."""
    outputs = (
        Contact(out.name, out.a, out.b, Or(tuple(Is(unit.name, state) for state in out.states)))
        for unit in network.units
        for out in unit.outputs
    )
    return (*network.joins, *network.contacts, *outputs)


def switched(network: Network) -> tuple[Contact, ...]:
    """Return all contacts: of switches and relays, and the outputs of units."""
    return tuple(one for one in edges(network) if isinstance(one, Contact))


def worked_by(edge: Edge) -> Condition:
    """Return the condition that closes an edge while it is not at fault."""
    return edge.when if isinstance(edge, Contact) else ALWAYS


def nodes(network: Network) -> tuple[str, ...]:
    """Return every node that something ends at, in the order in which they are named."""
    ends = [
        end for one in (*edges(network), *network.coils, *network.loads) for end in (one.a, one.b)
    ]
    return tuple(dict.fromkeys([*ends, *(feed.node for feed in network.feeds), *network.grounds]))


def resting(network: Network) -> State:
    """Return the state of facts at rest, relays dropped out and units as they wake."""
    return State(
        tuple((fact.name, fact.values[0]) for fact in network.facts),
        (),
        tuple((unit.name, unit.states[0]) for unit in network.units),
    )


def refuse_unknown(network: Network, rule: Rule) -> None:
    """Refuse a rule that names what the network does not have.

    Raises
    ------
    ValueError
        Naming the first thing that is not in the network.
    """
    for said in (rule.subject, rule.when, rule.unless):
        _refuse_unknown(network, said)


def _each_once(what: str, names: list[str]) -> None:
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        raise ValueError(f"{what} must have names of their own, got twice: {', '.join(twice)}")


def _known(network: Network, atom: Atom) -> bool:
    """Say whether the network has what an atom names."""
    if isinstance(atom, Is):
        values = {fact.name: fact.values for fact in network.facts}
        states = {unit.name: unit.states for unit in network.units}
        return atom.value in {**values, **states}.get(atom.of, ())
    if isinstance(atom, Live | Grounded):
        return atom.node in nodes(network)
    if isinstance(atom, Pulled):
        return atom.relay in {coil.relay for coil in network.coils}
    if isinstance(atom, Fed):
        return atom.load in {load.name for load in network.loads}
    if isinstance(atom, Closed):
        return atom.contact in {edge.name for edge in edges(network)}
    return atom.feed in {feed.name for feed in network.feeds}


def _refuse_unknown(
    network: Network,
    said: Condition,
    kinds: tuple[type, ...] = (Is, Pulled, Live, Grounded, Fed, Closed, Shorted),
    *,
    facts_only: bool = False,
) -> None:
    facts = {fact.name for fact in network.facts}
    for atom in atoms(said):
        wrong = facts_only and not (isinstance(atom, Is) and atom.of in facts)
        if wrong or not isinstance(atom, kinds) or not _known(network, atom):
            raise ValueError(f"a condition must name what the network has, got {atom}")


def _refuse_unknown_moves(network: Network, unit: Unit) -> None:
    for move in unit.moves:
        _refuse_unknown(network, move.when)
        if not {move.state, move.to} <= set(unit.states):
            raise ValueError(f"a move of {unit.name} must be between its states, got {move}")
    for out in unit.outputs:
        if not set(out.states) <= set(unit.states):
            raise ValueError(f"an output of {unit.name} must name its states, got {out}")
