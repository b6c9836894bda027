"""Phrases of an interlock rule: 'engine stalled', 'fog switch worked and not key out'."""

from dataclasses import dataclass

from trimwright.build.wiring import Wiring
from trimwright.build.wiring_stop import NoStopError

KEY = ("out", "accessory", "ignition", "start")
ENGINE = ("stopped", "cranking", "running")
STALLED = "engine stalled"
OIL = "oil pressure"


@dataclass(frozen=True, slots=True)
class Said:
    """One thing that a phrase says of a state: what (a fact, relay or load), and how it is.

    `sort` is 'key', 'engine', 'switch', 'fact', 'relay' or 'load'; `value` a position of the key
    or the engine's state, else 'worked', 'true', 'pulled in' or 'on'.
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
    expected = "a state, such as engine running, key at start, a switch that is worked"
    raise NoStopError(expected, "engine stalled")
