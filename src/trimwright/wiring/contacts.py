"""A build's wiring as contacts between terminals, for what is joined to what in which state."""

from collections.abc import Callable, Iterator, Mapping

from msgspec.structs import replace

from trimwright.build import ControlUnit, Switch, Wiring, WiringRule, terminals
from trimwright.build import Feed as FeedEntry
from trimwright.wiring.fact import (
    DOWN,
    RUNNING,
    UP,
    all_facts,
    condition,
    constraints,
    live_when,
    worked,
)
from trimwright.wiring.logic import (
    ALWAYS,
    Coil,
    Condition,
    Contact,
    Fed,
    Feed,
    Is,
    Join,
    Load,
    Move,
    Network,
    Not,
    Output,
    Pulled,
    Rule,
    Unit,
    nodes,
)
from trimwright.wiring.loom import Link, Loom, Wire

NodeOf = Callable[[str, str], str]
BATTERY, MINUS = "battery +", "battery -"
B_PLUS, D_PLUS, B_MINUS = "alternator B+", "alternator D+", "alternator B-"


def merged(loom: Loom) -> dict[str, str]:
    """Return for terminals that a box joins inside the one terminal they all go by."""
    found: dict[str, str] = {}
    for link in loom.links:
        one, other = (found.get(end.node, end.node) for end in (link.start, link.end))
        for node in (link.end.node, other, *(n for n, by in found.items() if by == other)):
            found[node] = one  # a fuse between two feeds joins these
    return {node: by for node, by in found.items() if node != by}


def ends(loom: Loom) -> set[str]:
    """Return every terminal that a wire or a link comes to."""
    joined: tuple[Wire | Link, ...] = (*loom.wires, *loom.links)
    return {end.node for one in joined for end in (one.start, one.end)}


def contact_network(wiring: Wiring, loom: Loom) -> Network:
    """Return the contact network of a wiring.

    Parameters
    ----------
    wiring : Wiring
        The build's.
    loom : Loom
        Its wires.

    Returns
    -------
    Network
        Its nodes are terminals: 'fog relay 87'. A feed that no path brings a supply to is a feed
        of its own; any other is what the key joins to its supply.
    """
    one_of, used = merged(loom), ends(loom)

    def node(device: str, terminal: str) -> str:
        own = f"{device} {terminal}"
        return one_of.get(own, own)

    joins = [
        Join(
            wire.name,
            one_of.get(wire.start.node, wire.start.node),
            one_of.get(wire.end.node, wire.end.node),
        )
        for wire in loom.wires
        if wire.start.node != wire.end.node
    ]
    joins += [Join(f.name, node(f.name, "in"), node(f.name, "out"), "fuse") for f in wiring.fuses]
    contacts = [one for switch in wiring.switches for one in _switch(switch, node)]
    coils: list[Coil] = []
    for relay in wiring.relays:
        coils.append(Coil(relay.name, node(relay.name, "86"), node(relay.name, "85")))
        pulled = Pulled(relay.name)
        said: tuple[tuple[str, Condition], ...] = (("87", pulled), ("87a", Not(pulled)))
        contacts += [
            Contact(f"{relay.name} 30-{t}", node(relay.name, "30"), node(relay.name, t), when)
            for t, when in said
            if f"{relay.name} {t}" in used
        ]
    feeds: list[Feed] = []
    for feed in wiring.feeds:
        when = live_when(feed.live, dies=feed.cranking == "dies")
        if supplied(feed, used):
            contacts.append(Contact(feed.name, node(feed.name, "in"), node(feed.name, "out"), when))
        else:
            feeds.append(Feed(feed.name, node(feed.name, "out"), when))
    loads = tuple(
        Load(load.name, *(node(load.name, one) for one in terminals(load))) for load in wiring.loads
    )
    plain = Network(
        facts=all_facts(wiring),
        joins=tuple(joins),
        contacts=(*contacts, *_alternator(wiring, used)),
        feeds=(*feeds, *_sources(wiring, used)),
        grounds=(*(f"{ground.name} stud" for ground in wiring.grounds), *_posts(used)),
        coils=tuple(coils),
        loads=loads,
        constraints=constraints(wiring),
    )
    at = _terminals(plain, wiring, one_of)
    return replace(plain, units=tuple(_unit(unit, wiring, at) for unit in wiring.units))


def supplied(feed: FeedEntry, used: set[str]) -> bool:
    """Return whether a path brings a feed its supply."""
    return f"{feed.name} in" in used


def _switch(switch: Switch, node: NodeOf) -> Iterator[Contact]:
    """Yield the contacts of a switch."""
    on, name = worked(switch), switch.name

    def contact(one: str, other: str, when: Condition) -> Contact:
        label = name if switch.contacts in ("make", "break") else f"{name} {one}-{other}"
        return Contact(label, node(name, one), node(name, other), when)

    if switch.contacts == "make":
        yield contact("in", "out", on)
    elif switch.contacts == "break":
        yield contact("in", "out", Not(on))
    elif switch.contacts == "changeover":
        yield contact("in", "worked", on)
        yield contact("in", "rest", Not(on))
    else:
        up, down = Is(name, UP), Is(name, DOWN)
        yield contact("feed", "a", up)
        yield contact("feed", "b", down)
        yield contact("a", "ground", Not(up))
        yield contact("b", "ground", Not(down))


def _alternator(wiring: Wiring, used: set[str]) -> Iterator[Contact]:
    """Yield what an alternator at rest joins: D+ is grounded through its rotor."""
    if wiring.alternator and D_PLUS in used:
        ground = B_MINUS if B_MINUS in used else MINUS
        yield Contact("alternator D+ at rest", D_PLUS, ground, Not(RUNNING))


def _sources(wiring: Wiring, used: set[str]) -> Iterator[Feed]:
    """Yield the battery's post, and what a turning alternator makes live."""
    if wiring.battery and BATTERY in used:
        yield Feed("battery", BATTERY, ALWAYS)
    for terminal in (B_PLUS, D_PLUS):
        if wiring.alternator and terminal in used:
            yield Feed(terminal, terminal, RUNNING)


def _posts(used: set[str]) -> Iterator[str]:
    """Yield the terminals of sources that are ground."""
    yield from (one for one in (MINUS, B_MINUS) if one in used)


def _terminals(network: Network, wiring: Wiring, one_of: Mapping[str, str]) -> dict[str, str]:
    """Return the node that each terminal goes by, of those that something ends at."""
    outputs = (f"{u.name} {one}" for u in wiring.units for out in u.outputs for one in out.joins)
    there = {name: name for name in (*nodes(network), *outputs)}
    return there | {name: node for name, node in one_of.items() if node in there}


def _unit(unit: ControlUnit, wiring: Wiring, at: Mapping[str, str]) -> Unit:
    """Return a control unit as a table of states."""
    moves = (
        Move(one.leaves, condition(one.when, wiring, at), one.enters, waits=one.waits is not None)
        for one in unit.moves
    )
    outputs = (
        Output(
            f"{unit.name} {one.name}",
            at[f"{unit.name} {one.joins[0]}"],
            at[f"{unit.name} {one.joins[1]}"],
            one.closed,
        )
        for one in unit.outputs
    )
    return Unit(unit.name, unit.states, tuple(moves), tuple(outputs))


def _rule_name(rule: WiringRule, wiring: Wiring) -> str:
    """Return what a rule goes by; where another asks the same of the same load, with its states."""
    asks = f"never {rule.never}" if rule.never else f"always {rule.always}"
    alike = [one for one in wiring.rules if (one.never, one.always) == (rule.never, rule.always)]
    return asks if len(alike) < 2 else f"{asks} while {' or '.join(rule.when)}"  # noqa: PLR2004  one of a kind


def rule_of(rule: WiringRule, wiring: Wiring, network: Network, loom: Loom) -> Rule:
    """Return an interlock as something to be proven."""
    load = rule.never or rule.always or ""
    at = _terminals(network, wiring, merged(loom))
    return Rule(
        _rule_name(rule, wiring),
        "never" if rule.never else "always",
        Fed(load),
        condition(rule.when, wiring, at),
        condition(rule.excepting, wiring, at),
    )
