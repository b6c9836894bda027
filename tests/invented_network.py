"""Contact networks by chance: meshes, relays that hang on each other, a unit now and then."""

from random import Random
from typing import Literal

from trimwright.wiring.logic import (
    ALWAYS,
    NEVER,
    And,
    Closed,
    Coil,
    Condition,
    Contact,
    Fact,
    Fed,
    Feed,
    Grounded,
    Is,
    Join,
    Live,
    Load,
    Move,
    Network,
    Not,
    Or,
    Output,
    Pulled,
    Rule,
    Unit,
)

INNER = tuple("abcdefg")
STATES = ("asleep", "awake", "alarmed")


def _fact_said(chance: Random, facts: tuple[Fact, ...]) -> Condition:
    fact = chance.choice(facts)
    said = Is(fact.name, chance.choice(fact.values))
    return Not(said) if chance.random() < 0.3 else said


def _said(chance: Random, facts: tuple[Fact, ...], relays: tuple[str, ...]) -> Condition:
    """Return a fact or a relay, upright or turned round, or two of them together."""
    one: Condition = _fact_said(chance, facts)
    if relays and chance.random() < 0.55:
        one = Pulled(chance.choice(relays))
        one = Not(one) if chance.random() < 0.35 else one
    if chance.random() < 0.2:
        other = _fact_said(chance, facts)
        return And((one, other)) if chance.random() < 0.5 else Or((one, other))
    return one


def _pair(chance: Random, ends: list[str]) -> tuple[str, str]:
    one, other = chance.sample(ends, 2)
    return one, other


def _unit(chance: Random, facts: tuple[Fact, ...], nodes: list[str]) -> Unit:
    states = STATES[: chance.choice((2, 2, 3))]
    moves = []
    for _ in range(chance.choice((1, 2, 3))):
        state, to = _pair(chance, [*states])
        said = Live(chance.choice(nodes)) if chance.random() < 0.4 else _fact_said(chance, facts)
        moves.append(Move(state, said, to, waits=chance.random() < 0.3))
    output = Output("output", *_pair(chance, nodes), states[-1:])
    return Unit("unit", states, tuple(moves), (output,))


def network(seed: int) -> Network:
    """Return a network of up to four facts, four relays and twelve nodes."""
    chance = Random(seed)  # noqa: S311  no secret
    facts = [Fact("key", ("off", "on"))]
    facts += [Fact(f"switch {k}", ("up", "down")) for k in range(chance.choice((1, 2, 2)))]
    if chance.random() < 0.3:
        facts.append(Fact("lever", ("park", "neutral", "drive")))
    given = tuple(facts)
    relays = tuple(f"K{k}" for k in range(chance.choice((0, 1, 2, 3, 3, 4))))
    nodes = ["plus", *INNER[: chance.choice((4, 5, 6, 7))]]
    ends = [*nodes, "earth"] if chance.random() < 0.5 else nodes
    joins: list[Join] = [
        Join(f"wire {k}", *_pair(chance, ends), "fuse" if chance.random() < 0.5 else "wire")
        for k in range(chance.choice((1, 2, 3)))
    ]
    contacts = [
        Contact(f"contact {k}", *_pair(chance, ends), _said(chance, given, relays))
        for k in range(chance.choice((4, 6, 8, 10)))
    ]
    sinks = ["earth", "earth", "earth", *nodes[1:]]
    coils = tuple(Coil(relay, *_apart(chance, nodes[1:], sinks)) for relay in relays)
    loads = tuple(Load(name, *_apart(chance, nodes[1:], sinks)) for name in ("lamp", "motor"))
    feeds = [Feed("battery", "plus")]
    if chance.random() < 0.5:
        feeds.append(Feed("ignition", chance.choice(nodes[1:]), Is("key", "on")))
    grounds = ("earth", chance.choice(nodes[1:])) if chance.random() < 0.15 else ("earth",)
    wired = sorted({end for one in joins for end in (one.a, one.b)})
    units = (_unit(chance, given, wired),) if chance.random() < 0.4 else ()
    laws: tuple[Condition, ...] = ()
    if chance.random() < 0.3:
        laws = (Or((Is("key", "on"), Is("switch 0", "up"))),)
    return Network(
        given, tuple(joins), tuple(contacts), tuple(feeds), grounds, coils, loads, units, laws
    )


def rivals(seed: int) -> Network:
    """Return two to four relays that hold themselves, let others in or keep them out."""
    chance = Random(seed)  # noqa: S311  no secret
    relays = tuple(f"K{k}" for k in range(chance.choice((2, 3, 4))))
    facts = (Fact("key", ("off", "on")), Fact("switch", ("open", "shut")))
    contacts = [Contact("ignition switch", "plus", "bus", Is("key", "on"))]
    for relay in relays:
        for way in range(chance.choice((1, 1, 2))):
            other = Pulled(chance.choice(relays))
            parts: list[Condition] = [Not(other) if chance.random() < 0.7 else other]
            parts += [Is("switch", "shut")] if chance.random() < 0.3 else []
            contacts.append(Contact(f"{relay} way {way}", "bus", f"{relay} 86", And(tuple(parts))))
    coils = tuple(Coil(relay, f"{relay} 86", "earth") for relay in relays)
    loads = (Load("lamp", "K0 86", "earth"), Load("motor", "K1 86", "earth"))
    feeds, grounds = (Feed("battery", "plus"),), ("earth",)
    return Network(facts, (), tuple(contacts), feeds, grounds, coils, loads)


def _apart(chance: Random, ones: list[str], others: list[str]) -> tuple[str, str]:
    one = chance.choice(ones)
    return one, chance.choice([other for other in others if other != one])


def rules(net: Network, seed: int) -> tuple[Rule, ...]:
    """Return some rules on a network."""
    chance = Random(seed)  # noqa: S311  no secret
    relays = tuple(coil.relay for coil in net.coils)
    subjects: list[Condition] = [
        Fed("lamp"),
        Fed("motor"),
        Closed("contact 0"),
        *map(Pulled, relays),
    ]
    if net.joins and chance.random() < 0.3:
        subjects = [Live(net.joins[0].a), Grounded(net.joins[0].b), Grounded(net.contacts[1].a)]
    found: list[Rule] = []
    for number in range(3):
        when = _said(chance, net.facts, relays if chance.random() < 0.2 else ())
        unless = _fact_said(chance, net.facts) if chance.random() < 0.5 else NEVER
        when = ALWAYS if chance.random() < 0.1 else when
        asks: Literal["never", "always"] = "never" if chance.random() < 0.67 else "always"
        found.append(Rule(f"rule {number}", asks, chance.choice(subjects), when, unless))
    return tuple(found)
