"""Phrases of an interlock rule: 'engine stalled', 'fog switch worked and not key out'."""

from msgspec import Struct

from trimwright.build.wiring import Wiring
from trimwright.build.wiring_device import Feed
from trimwright.build.wiring_stop import NoStopError, by_name, stop
from trimwright.build.wiring_unit import ControlUnit

KEY = ("out", "accessory", "ignition", "start")
ENGINE = ("stopped", "cranking", "running")
STALLED = "engine stalled"
OIL = "oil pressure"


class Said(Struct, frozen=True):
    """One thing that a phrase says of a state: what (a fact, relay or load), and how it is.

    `sort` is 'key', 'engine', 'switch', 'fact', 'relay', 'load', 'unit' or 'terminal'; `value` a
    position of the key, the engine's or a unit's state, else 'worked', 'true', 'pulled in', 'on',
    'live' or 'grounded'.
    """

    sort: str
    name: str
    value: str
    truth: bool = True


Both = tuple[Said, ...]


def facts(wiring: Wiring) -> tuple[str, ...]:
    """Return what works switches other than a hand, each once, in the order of the file."""
    return tuple(dict.fromkeys(one.worked_by for one in wiring.switches if one.worked_by))


def phrase(text: str, wiring: Wiring) -> Both:
    """Return the things that a phrase says, all of which must hold.

    Raises
    ------
    NoStopError
        If a part of it is no state that this wiring knows of.

    Examples
    --------
    >>> phrase("engine stalled", Wiring())[0]
    Said(sort='engine', name='engine', value='stopped', truth=True)
    """
    found: list[Said] = []
    for part in text.strip().split(" and "):
        words = " ".join(part.split())
        truth = not words.startswith("not ")
        words = words.removeprefix("not ")
        if words == STALLED:
            if not truth:
                raise NoStopError("what is the case instead", "engine running")
            found += [Said("engine", "engine", "stopped"), Said("key", "key", "ignition")]
        else:
            found.append(_one(words, wiring, truth=truth))
    return tuple(found)


def _one(words: str, wiring: Wiring, *, truth: bool) -> Said:
    """Return what one part of a phrase says."""
    if words in facts(wiring):
        return Said("fact", words, "true", truth)
    head, _, tail = words.partition(" ")
    tail = tail.removeprefix("at ")
    if head == "key" and tail in KEY:
        return Said("key", "key", tail, truth)
    if head == "engine" and tail in ENGINE:
        return Said("engine", "engine", tail, truth)
    for sort, names, value, endings in (
        ("switch", [one.name for one in wiring.switches], "worked", (" worked", " pressed")),
        ("relay", [one.name for one in wiring.relays], "pulled in", (" pulled in",)),
        ("load", [one.name for one in wiring.loads], "on", (" on",)),
    ):
        for ending in endings:
            if words.endswith(ending) and words.removesuffix(ending) in names:
                return Said(sort, words.removesuffix(ending), value, truth)
    of_unit = _of_unit(words, wiring, truth=truth)
    if of_unit is not None:
        return of_unit
    expected = "a state, such as engine running, key at start, a switch that is worked"
    raise NoStopError(expected, "engine stalled")


def _of_unit(words: str, wiring: Wiring, *, truth: bool) -> Said | None:
    """Return what words say of a unit's state, or of a terminal; None where they say neither."""
    for unit in wiring.units:
        if words.startswith(f"{unit.name} is "):
            return _unit_is(unit, words.removeprefix(f"{unit.name} is "), truth=truth)
    for value in ("live", "grounded"):
        if words.endswith(f" {value}"):
            return Said("terminal", _node(words.removesuffix(f" {value}"), wiring), value, truth)
    return None


def _unit_is(unit: ControlUnit, state: str, *, truth: bool) -> Said:
    """Return that a unit stands in a state."""
    if state not in unit.states:
        expected = f"a state of {unit.name}: {', '.join(unit.states)}"
        raise NoStopError(expected, f"{unit.name} is {unit.states[0]}" if unit.states else "")
    return Said("unit", unit.name, state, truth)


def _node(words: str, wiring: Wiring) -> str:
    """Return the terminal that words name: of a device with two, the one its current comes by."""
    at = stop(words, wiring)
    own = by_name(wiring).get(at.device)
    return f"{at.device} {'out' if isinstance(own, Feed) else at.comes}"
