"""The facts of a car that its contacts follow: the key, the engine, every switch, doors."""

from collections.abc import Mapping

from trimwright.build import ENGINE, KEY, OIL, StateSaid, Switch, Wiring, facts, phrase
from trimwright.wiring.logic import (
    NEVER,
    And,
    Condition,
    Fact,
    Fed,
    Grounded,
    Is,
    Live,
    Not,
    Or,
    Pulled,
)

RUNNING = Is("engine", "running")
CRANKING = Is("engine", "cranking")
LIVE: dict[str, tuple[str, ...]] = {
    "accessory": ("accessory", "ignition"),
    "ignition": ("ignition",),
    "start": (),
}
YES, NO = "yes", "no"
REST, WORKED = "rest", "worked"
UP, DOWN = "one way", "other way"
NAMED_ENGINE = "engine running"


def fact_of(switch: Switch) -> str:
    """Return the fact that works a switch: its own, or what is said to work it."""
    return switch.worked_by or switch.name


def worked(switch: Switch) -> Condition:
    """Return the condition under which a switch is worked."""
    if switch.worked_by:
        return Is(switch.worked_by, YES)
    if switch.contacts == "reversing":
        return Not(Is(switch.name, REST))
    return Is(switch.name, WORKED)


def all_facts(wiring: Wiring) -> tuple[Fact, ...]:
    """Return every fact, each with its resting value first."""
    found = [Fact("key", KEY), Fact("engine", ENGINE)]
    for switch in wiring.switches:
        if switch.worked_by is None:
            turned = (REST, UP, DOWN) if switch.contacts == "reversing" else (REST, WORKED)
            found.append(Fact(switch.name, turned))
    return (*found, *(Fact(name, (NO, YES)) for name in facts(wiring)))


def constraints(wiring: Wiring) -> tuple[Condition, ...]:
    """Return what every state keeps.

    The starter turns only with the key at start; an engine runs only with the ignition on. Oil
    pressure is there while the engine runs and not while it stands; while it cranks it may be
    either (common practice, no source).
    """
    told = facts(wiring)
    found: list[Condition] = [
        _implies(CRANKING, Is("key", "start")),
        _implies(RUNNING, Or((Is("key", "ignition"), Is("key", "start")))),
    ]
    if OIL in told:
        found += [
            _implies(RUNNING, Is(OIL, YES)),
            _implies(Is("engine", "stopped"), Is(OIL, NO)),
        ]
    if NAMED_ENGINE in told:
        found += [
            _implies(RUNNING, Is(NAMED_ENGINE, YES)),
            _implies(Is(NAMED_ENGINE, YES), RUNNING),
        ]
    return tuple(found)


def _implies(one: Condition, other: Condition) -> Condition:
    return Or((Not(one), other))


def live_when(live: str, *, dies: bool) -> Condition:
    """Return the condition under which the key makes a feed live."""
    if live == "always":
        return And(())
    on: list[Condition] = [Is("key", value) for value in LIVE[live]]
    if not dies or live == "start":
        on.append(Is("key", "start"))
    return Or(tuple(on))


def condition(texts: tuple[str, ...], wiring: Wiring, at: Mapping[str, str]) -> Condition:
    """Return the condition that any of some phrases says; never, where there are none.

    `at` is the node that each terminal goes by; what no wire comes to is neither live nor grounded.
    """
    if not texts:
        return NEVER
    said = (And(tuple(_said(one, wiring, at) for one in phrase(text, wiring))) for text in texts)
    return Or(tuple(said))


def _said(one: StateSaid, wiring: Wiring, at: Mapping[str, str]) -> Condition:
    """Return the condition of one thing said."""
    found: Condition
    if one.sort == "relay":
        found = Pulled(one.name)
    elif one.sort == "load":
        found = Fed(one.name)
    elif one.sort == "terminal":
        node = at.get(one.name)
        atom = Live if one.value == "live" else Grounded
        found = NEVER if node is None else atom(node)
    elif one.sort == "switch":
        found = worked(next(switch for switch in wiring.switches if switch.name == one.name))
    elif one.sort == "fact":
        found = Is(one.name, YES)
    else:
        found = Is(one.name, one.value)
    return found if one.truth else Not(found)
