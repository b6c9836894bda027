"""Rules proven over every state of a circuit, against looking at every state one after another.

Two circuits by chance. One is meshed on purpose and has 24 switches, so 16.8 million states; the
other has 40 wires, 6 relays and 12 switches, and is asked for every single fault. The peer puts the
states side by side in words of 64 bits, and has relays settle from rest until nothing moves.
"""

from itertools import count
from random import Random

from msgspec.structs import replace

from bench.every_state import any_broken
from bench.measure import Bench
from trimwright.wiring.logic import (
    Coil,
    Condition,
    Contact,
    Fact,
    Fed,
    Feed,
    Is,
    Join,
    Load,
    Network,
    Not,
    Pulled,
    Rule,
    fault_breaks,
    single_faults,
    verdicts,
)

SWITCHES, RELAYS = 24, 6
BREAKS = 2
NUMBERS = count(1)


def meshed(switches: int, seed: int) -> Network:
    """Return a mesh of 20 nodes, 44 contacts and 6 relays; no relay moves itself."""
    chance = Random(seed)  # noqa: S311  no secret
    relays = [f"K{k}" for k in range(6)]
    contacts = []
    for number in range(44):
        end, other = chance.sample(range(18), 2)
        of = f"switch {chance.randrange(switches)}"
        when: Condition = Is(of, "shut") if chance.random() < 0.7 else Is(of, "open")
        if number % 11 == 0:
            pulled = Pulled(chance.choice(relays))
            when = pulled if chance.random() < 0.7 else Not(pulled)
        contacts.append(Contact(f"contact {number}", f"n{end}", f"n{other}", when))
    for number in range(len(relays)):
        of = f"switch {chance.randrange(switches)}"
        contacts.append(Contact(f"coil switch {number}", "n0", f"c{number}", Is(of, "shut")))
    contacts.append(Contact("door switch", "n17", "lamp", Is("switch 0", "open")))
    return Network(
        facts=tuple(Fact(f"switch {k}", ("open", "shut")) for k in range(switches)),
        contacts=tuple(contacts),
        feeds=(Feed("battery", "n0"),),
        grounds=("31",),
        coils=tuple(Coil(relay, f"c{number}", "31") for number, relay in enumerate(relays)),
        loads=(Load("lamp", "lamp", "31"),),
    )


def wired(seed: int) -> Network:
    """Return 40 wires and fuses, 6 relays and 12 switches, another for each seed."""
    net = chained(RELAYS)
    second = Join(f"second earth {seed}", "stud 0", "31")  # no two turns have the same
    return replace(net, joins=(*net.joins, second))


def chained(relays: int) -> Network:
    """Return relays of which each keeps the next one out, two switches a relay."""
    joins = [Join("main fuse", "30", "bus", "fuse")]
    contacts: list[Contact] = []
    coils: list[Coil] = []
    loads: list[Load] = []
    for k in range(relays):
        earth = f"stud {k % 2}"
        joins += [
            Join(f"fuse {k}", "bus", f"{k} fused", "fuse"),
            Join(f"switch feed {k}", f"{k} fused", f"{k} switch"),
            Join(f"coil wire {k}", f"{k} 86 in", f"{k} 86"),
            Join(f"relay feed {k}", f"{k} fused", f"{k} 30"),
            Join(f"load wire {k}", f"{k} 87", f"{k} load"),
            Join(f"load earth {k}", f"{k} load earth", earth),
        ]
        blocking = Not(Pulled(f"K{k - 1}")) if k else Is(f"switch {2 * relays - 1}", "open")
        contacts += [
            Contact(
                f"switch {k} contact", f"{k} switch", f"{k} mid", Is(f"switch {2 * k}", "shut")
            ),
            Contact(f"block {k}", f"{k} mid", f"{k} 86 in", blocking),
            Contact(f"coil earth {k}", f"{k} 85", earth, Is(f"switch {2 * k + 1}", "open")),
            Contact(f"K{k} 30-87", f"{k} 30", f"{k} 87", Pulled(f"K{k}")),
        ]
        coils.append(Coil(f"K{k}", f"{k} 86", f"{k} 85"))
        loads.append(Load(f"load {k}", f"{k} load", f"{k} load earth"))
    joins += [Join(f"earth strap {k}", f"stud {k}", "31") for k in range(2)]
    return Network(
        facts=tuple(Fact(f"switch {k}", ("open", "shut")) for k in range(2 * relays)),
        joins=tuple(joins),
        contacts=tuple(contacts),
        feeds=(Feed("battery", "30"),),
        grounds=("31",),
        coils=tuple(coils),
        loads=tuple(loads),
    )


def kept_out() -> Rule:
    """Return the rule that the second relay keeps its load off while the first is pulled in."""
    return Rule("kept out", "never", Fed("load 1"), Pulled("K0"))


def door_shut() -> Rule:
    """Return the rule that the lamp of the mesh is off with the door shut."""
    return Rule("door", "never", Fed("lamp"), Is("switch 0", "shut"))


def one_rule() -> None:
    """Prove the rule of a mesh that was not looked at before."""
    if verdicts(meshed(SWITCHES, next(NUMBERS)), [door_shut()])[0].answer != "proven":
        raise ValueError("the rule must be proven")


def one_rule_by_states() -> None:
    """Look at every state of such a mesh."""
    if any_broken(meshed(SWITCHES, next(NUMBERS)), door_shut()):
        raise ValueError("the rule must be kept")


def every_fault() -> None:
    """Ask which single faults break the rule of wires that were not looked at before."""
    if len(fault_breaks(wired(next(NUMBERS)), [kept_out()])) != BREAKS:
        raise ValueError(f"the rule must be broken by {BREAKS} faults")


def every_fault_by_states() -> None:
    """Look at every state with every single fault of such wires."""
    net = wired(next(NUMBERS))
    if sum(any_broken(net, kept_out(), fault) for fault in single_faults(net)) != BREAKS:
        raise ValueError(f"the rule must be broken by {BREAKS} faults")


PEER_SAYS = "looking at every state in words of 64 bits"
RULE = Bench("interlock", one_rule, one_rule_by_states, PEER_SAYS)
FAULTS = Bench("interlock, single faults", every_fault, every_fault_by_states, PEER_SAYS)
