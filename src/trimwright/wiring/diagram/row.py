"""Which row every part of a page stands in: below all that feeds it."""

from collections.abc import Iterator

from trimwright.wiring.diagram.column import Columns
from trimwright.wiring.diagram.part import Joint

LOADS = ("lamp", "LED", "heater", "motor", "solenoid", "electronics")


def rows(made: Columns, joints: tuple[Joint, ...]) -> dict[str, int]:
    """Return the row of each part, from 1 at the top; loads as low as what is below them lets.

    Where parts lie in a ring, what was come to last gives way.
    """
    under: dict[str, list[str]] = {name: [] for name in made.parts}
    for upper, lower in (*made.below, *_nets(made, joints)):
        if lower not in under[upper] and not _reaches(under, lower, upper):
            under[upper].append(lower)
    found: dict[str, int] = {}
    for name in made.parts:
        _depth(name, under, found)
    deepest = max(found.values(), default=1)
    level = {name: 1 + deepest - depth for name, depth in found.items()}
    return _risen(made, under, level)


def _reaches(under: dict[str, list[str]], start: str, goal: str) -> bool:
    """Return whether a part stands below another, over any number of others, or is the same."""
    seen, waiting = {start}, [start]
    while waiting:
        here = waiting.pop()
        if here == goal:
            return True
        more = [one for one in under[here] if one not in seen]
        seen.update(more)
        waiting += more
    return False


def _depth(name: str, under: dict[str, list[str]], found: dict[str, int]) -> None:
    """Find how many parts stand one below the other from a part on."""
    waiting = [name]
    while waiting:
        here = waiting[-1]
        left = [one for one in under[here] if one not in found]
        if left:
            waiting += left
            continue
        waiting.pop()
        found[here] = 1 + max((found[one] for one in under[here]), default=0)


def _risen(made: Columns, under: dict[str, list[str]], low: dict[str, int]) -> dict[str, int]:
    """Return rows as near to the feeds as can be, but for loads and what is below them."""
    over: dict[str, list[str]] = {name: [] for name in low}
    for upper, lowers in under.items():
        for lower in lowers:
            over[lower].append(upper)
    found: dict[str, int] = {}
    for name in sorted(low, key=lambda one: low[one]):
        ends = made.parts[name].kind in LOADS and not under[name]
        above = max((found[one] for one in over[name]), default=0)
        found[name] = low[name] if ends else above + 1
    return found


def _nets(made: Columns, joints: tuple[Joint, ...]) -> Iterator[tuple[str, str]]:
    """Yield pairs of parts that wires join, the one that faces down before the one that faces up."""
    group: dict[tuple[str, str], tuple[str, str]] = {}

    def root(key: tuple[str, str]) -> tuple[str, str]:
        while group.setdefault(key, key) != key:
            key = group[key]
        return key

    for joint in joints:
        a, b = joint.ends
        if a.what == b.what == "port":
            group[root((a.name, a.terminal))] = root((b.name, b.terminal))
    nets: dict[tuple[str, str], list[tuple[str, str]]] = {}
    for key in group:
        nets.setdefault(root(key), []).append(key)
    for keys in nets.values():
        facing = {side: [k[0] for k in keys if made.parts[k[0]].port(k[1]).side == side]
                  for side in ("top", "bottom")}  # fmt: skip
        for upper in facing["bottom"]:
            yield from ((upper, lower) for lower in facing["top"] if lower != upper)
