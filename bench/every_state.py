"""Every state of contacts, looked at bit by bit: what the solver of the rules is timed against.

States stand side by side in words of 64 bits; the switches that no block has room for are gone
through one setting after another. Relays settle from rest, so no relay may move itself.
"""

from collections.abc import Iterator
from functools import partial, reduce
from itertools import product

import numpy as np
from numpy.typing import NDArray

from trimwright.wiring.logic import (
    And,
    Condition,
    Fault,
    Fed,
    Is,
    Network,
    Not,
    Or,
    Pulled,
    Rule,
)

Words = NDArray[np.uint64]
Values = dict[Condition, Words]

WITHIN, ABREAST = 6, 12  # switches within a word, and words side by side for so many more
PATTERNS = (
    0xAAAAAAAAAAAAAAAA,
    0xCCCCCCCCCCCCCCCC,
    0xF0F0F0F0F0F0F0F0,
    0xFF00FF00FF00FF00,
    0xFFFF0000FFFF0000,
    0xFFFFFFFF00000000,
)
OPENS = ("contact open", "wire broken", "fuse blown")
NONE, ALL = np.uint64(0), ~np.uint64(0)


def any_broken(net: Network, rule: Rule, fault: Fault | None = None) -> bool:
    """Say whether a rule that forbids a load to be fed is broken in some state of the switches.

    Every fact must have two values, every condition be of facts and relays.
    """
    return any(_broken_in(net, rule, fault, values) for values in _blocks(net))


def _blocks(net: Network) -> Iterator[Values]:
    """Yield the settings of the switches, a block at a time."""
    words = 1 << max(0, min(len(net.facts) - WITHIN, ABREAST))
    patterns = [np.full(words, pattern) for pattern in map(np.uint64, PATTERNS)]
    numbers = np.arange(words)
    patterns += [np.where(numbers >> k & 1, ALL, NONE) for k in range(ABREAST)]
    beyond = max(0, len(net.facts) - len(patterns))
    for setting in product((NONE, ALL), repeat=beyond):
        columns = [*patterns, *(np.full(words, bit) for bit in setting)]
        values: Values = {}
        for fact, column in zip(net.facts, columns, strict=False):
            values[Is(fact.name, fact.values[0])] = ~column
            values[Is(fact.name, fact.values[1])] = column
        yield values


def _said(condition: Condition, values: Values) -> Words:
    said = partial(_said, values=values)
    if isinstance(condition, Not):
        return ~said(condition.of)
    if isinstance(condition, And):
        return reduce(np.bitwise_and, map(said, condition.of), _whole(values, ALL))
    if isinstance(condition, Or):
        return reduce(np.bitwise_or, map(said, condition.of), _whole(values, NONE))
    return values[condition]


def _whole(values: Values, bits: np.uint64) -> Words:
    return np.full_like(next(iter(values.values())), bits)


def _broken_in(net: Network, rule: Rule, fault: Fault | None, values: Values) -> bool:
    values = values | {Pulled(coil.relay): _whole(values, NONE) for coil in net.coils}
    while True:
        live, grounded = _joined(net, fault, values)
        moved = False
        for coil in net.coils:
            fed = _between(coil.a, coil.b, live, grounded)
            fed = _whole(values, NONE) if fault == Fault("coil open", coil.relay) else fed
            moved |= bool((fed != values[Pulled(coil.relay)]).any())
            values[Pulled(coil.relay)] = fed
        if not moved:
            break
    for load in net.loads:
        values[Fed(load.name)] = _between(load.a, load.b, live, grounded)
    parts = (rule.subject, rule.when, Not(rule.unless))
    return bool(_said(And(parts), values).any())


def _between(a: str, b: str, live: dict[str, Words], grounded: dict[str, Words]) -> Words:
    return (live[a] & grounded[b]) | (live[b] & grounded[a])


def _joined(
    net: Network, fault: Fault | None, values: Values
) -> tuple[dict[str, Words], dict[str, Words]]:
    """Return where each node is live, and where grounded."""
    edges = [(one.name, one.a, one.b, _whole(values, ALL)) for one in net.joins]
    edges += [(one.name, one.a, one.b, _said(one.when, values)) for one in net.contacts]
    for number, (name, a, b, _) in enumerate(edges):
        if fault and fault.of == name:
            bits = NONE if fault.kind in OPENS else ALL
            edges[number] = (name, a, b, _whole(values, bits))
    feeds = {feed.node: _said(feed.when, values) for feed in net.feeds}
    kept = [node for node in net.grounds if fault != Fault("ground lost", node)]
    grounds = {node: _whole(values, ALL) for node in kept}
    nodes = [end for coil in net.coils for end in (coil.a, coil.b)]
    nodes += [end for load in net.loads for end in (load.a, load.b)]
    nodes += [end for _, a, b, _ in edges for end in (a, b)]
    none = dict.fromkeys(nodes, _whole(values, NONE))
    ways = [(a, b, closed) for _, a, b, closed in edges]
    return _spread(none | feeds, ways, none | grounds), _spread(none | grounds, ways, none | feeds)


def _spread(
    reached: dict[str, Words], ways: list[tuple[str, str, Words]], ending: dict[str, Words]
) -> dict[str, Words]:
    """Return where nodes are reached, from the sources outwards until nothing more is."""
    more = True
    while more:
        more = False
        for one, other, closed in ways:
            for a, b in ((one, other), (other, one)):
                after = reached[b] | (reached[a] & closed & ~ending[a])
                if (after != reached[b]).any():
                    reached[b] = after
                    more = True
    return reached
