"""A relay on the alternator's D+ that keeps a load from an engine state, as one complete edit."""

from trimwright.build import Plug, WirePath, Wiring, WiringRule, by_name, phrase, stop
from trimwright.checks.wiring.words import new_name
from trimwright.findings import Edit, Remedy

WIRING, PATHS, RELAYS = "wiring", "paths", "relays"


def engine_guard(wiring: Wiring, rule: WiringRule) -> Remedy | None:
    """Return the edits that let a load hang on whether the engine turns, by a wire that knows.

    D+ of the alternator is live only while the engine turns it. A relay on it has its break
    contact in the load's path where the load must not be on with the engine running, its make
    contact where it must not be on with the engine still.

    Parameters
    ----------
    wiring : Wiring
        The build's.
    rule : WiringRule
        'never' of a load, in states of the engine only.

    Returns
    -------
    Remedy or None
        None where the rule is of another kind, there is no alternator, or no path ends in the load.
    """
    contact = _contact(wiring, rule)
    if contact is None or rule.never is None or wiring.alternator is None:
        return None
    for number, path in enumerate(wiring.paths):
        place = _before_load(wiring, path, rule.never)
        if place:
            return _remedy(wiring, (number, path, place), contact, rule.never)
    return None


def _contact(wiring: Wiring, rule: WiringRule) -> str | None:
    """Return which contact of the relay keeps the rule: 87a opens while the engine runs."""
    said = [one for text in rule.when for one in phrase(text, wiring) if one.sort == "engine"]
    rest = [one for text in rule.when for one in phrase(text, wiring) if one.sort != "engine"]
    values = {one.value for one in said if one.truth}
    if not said or any(one.sort != "key" for one in rest) or len(values) != 1:
        return None
    return {"running": "87a", "stopped": "87"}.get(values.pop())


def _before_load(wiring: Wiring, path: WirePath, load: str) -> int:
    """Return the stop at which a load is come to, 0 where a path does not lead to it."""
    for place, text in enumerate(path.goes):
        if place and stop(text, wiring).device == load:
            return place
    return 0


def _remedy(wiring: Wiring, told: tuple[int, WirePath, int], contact: str, load: str) -> Remedy:
    """Return the relay, the load's path through it, and the path of its coil."""
    number, path, place = told
    relay = new_name(wiring, f"{load} guard")
    goes = (*path.goes[:place], f"{relay} 30-{contact}", *path.goes[place:])
    new = len(wiring.paths)
    fuse, source = new_name(wiring, f"{relay} fuse"), wiring.alternator
    worked = ("alternator D+", fuse, f"{relay} 86-85", path.goes[-1])
    at = _place(wiring, path.goes[:place])
    edits = (
        *(
            Edit((WIRING, RELAYS, len(wiring.relays), key), text)
            for key, text in (
                ("name", relay),
                ("at", at),
                ("carries", "70 A"),
                ("coil guard", "resistor"),
            )
            if text
        ),
        *(
            Edit((WIRING, "fuses", len(wiring.fuses), key), text)
            for key, text in (
                ("name", fuse),
                ("at", (source and source.at) or ""),
                ("rated", "1 A"),
            )
            if text
        ),
        Edit((WIRING, PATHS, number, "goes"), None),
        *(Edit((WIRING, PATHS, number, "goes", n), one) for n, one in enumerate(goes)),
        Edit((WIRING, PATHS, new, "name"), f"{relay} worked"),
        *(Edit((WIRING, PATHS, new, "goes", n), one) for n, one in enumerate(worked)),
    )
    does = "opens" if contact == "87a" else "closes"
    says = (
        f"Put a relay on the alternator's D+ ahead of {load}: its contact {does} while the engine"
        " runs."
    )
    return Remedy(says, edits)


def _place(wiring: Wiring, ahead: tuple[str, ...]) -> str:
    """Return the place of the last device ahead that is no plug; nothing where none is written."""
    for text in reversed(ahead):
        own = by_name(wiring).get(stop(text, wiring).device)
        if own is not None and not isinstance(own, Plug) and own.at:
            return own.at
    return ""
