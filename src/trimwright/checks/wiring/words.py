"""Words that several rules of the wiring use alike."""

from collections.abc import Container
from collections.abc import Set as AbstractSet

from trimwright.build import Wiring, by_name
from trimwright.wiring import WiringOutcome


def sentence(text: str) -> str:
    """Return a text with a capital at its beginning; the rest stays as the builder wrote it.

    Examples
    --------
    >>> sentence("fog lamps")
    'Fog lamps'
    """
    return text[:1].upper() + text[1:]


def new_name(wiring: Wiring, name: str) -> str:
    """Return a name that no device has yet: the one asked for, else with a number behind it."""
    taken, number, found = set(by_name(wiring)), 2, name
    while found in taken:
        found, number = f"{name} {number}", number + 1
    return found


def waits_for(
    found: WiringOutcome, wires: Container[str], parts: AbstractSet[str] = frozenset()
) -> tuple[str, ...]:
    """Return what must be known before anything of some wires or parts is called good, each once.

    The place or trunk by which a wire lies, and what every load takes whose current goes there.
    """
    ways = [one.missing for one in found.loom.wires if one.name in wires and one.missing]
    passed = {name for use in found.uses for name in (*use.path.to, *use.path.back)}
    shared = bool(parts - passed)  # between source and body, where every load's current goes
    loads = [
        f"what {use.consumer.name} takes"
        for use in found.uses
        if use.consumer.current_a is None and (shared or parts & {*use.path.to, *use.path.back})
    ]
    return tuple(dict.fromkeys([*ways, *loads]))
