"""A relay in the place of a switch that cannot carry its load, as one complete edit."""

from trimwright.build import Plug, Switch, WirePath, Wiring, by_name, stop
from trimwright.checks.wiring.words import new_name
from trimwright.findings import Edit, Remedy
from trimwright.quantities import shown_current
from trimwright.wiring import relay_rating

WIRING, PATHS, RELAYS = "wiring", "paths", "relays"


def relay_instead(wiring: Wiring, switch: Switch, needed_a: float) -> Remedy | None:
    """Return the edits that put a relay where a switch was, and let the switch work its coil.

    The heavy path goes from its fuse through the relay's 30 and 87 to its load; a path of its own
    brings the switch the same supply and takes it through the coil to the ground point of the
    heavy path. The coil gets a guard, or its kick would burn the switch after all.

    Parameters
    ----------
    wiring : Wiring
        The build's.
    switch : Switch
        With a plain make contact.
    needed_a : float
        The rating that the load asks for [A].

    Returns
    -------
    Remedy or None
        None where no path goes through the switch with its supply ahead of it.
    """
    for number, path in enumerate(wiring.paths):
        if switch.name in path.goes:
            place = path.goes.index(switch.name)
            first, last = _with_plugs(wiring, path.goes, place)
            if first == 0 or last + 1 >= len(path.goes):
                return None
            return _remedy(wiring, (number, path), (first, last), (switch, relay_rating(needed_a)))
    return None


def _remedy(
    wiring: Wiring, told: tuple[int, WirePath], span: tuple[int, int], asked: tuple[Switch, float]
) -> Remedy:
    """Return the remedy: the heavy path changed, the relay and the path that works it added."""
    (number, path), (first, last), (switch, rated) = told, span, asked
    feed, relay = path.goes[first - 1], new_name(wiring, f"{path.name} relay")
    heavy = (*path.goes[:first], f"{relay} 30-87", *path.goes[last + 1 :])
    worked = (feed, *path.goes[first : last + 1], f"{relay} 86-85", path.goes[-1])
    at = _place(wiring, feed)
    new = len(wiring.paths)
    edits = (
        *(
            Edit((WIRING, RELAYS, len(wiring.relays), key), text)
            for key, text in (
                ("name", relay),
                ("at", at),
                ("carries", f"{rated:g} A"),
                ("coil guard", "resistor"),
            )
            if text
        ),
        Edit((WIRING, PATHS, number, "goes"), None),
        *(Edit((WIRING, PATHS, number, "goes", n), one) for n, one in enumerate(heavy)),
        Edit((WIRING, PATHS, new, "name"), f"{path.name} worked"),
        *(Edit((WIRING, PATHS, new, "goes", n), one) for n, one in enumerate(worked)),
    )
    says = (
        f"Put a relay of {shown_current(rated)} with a coil guard into {path.name}, and let"
        f" {switch.name} work its coil."
    )
    return Remedy(says, edits)


def _with_plugs(wiring: Wiring, goes: tuple[str, ...], place: int) -> tuple[int, int]:
    """Return the span of stops that lead to a switch and back: the switch with its plugs."""
    first = last = place
    while first > 0 and _is_plug(wiring, goes[first - 1]):
        first -= 1
    while last + 1 < len(goes) and _is_plug(wiring, goes[last + 1]):
        last += 1
    return first, last


def _is_plug(wiring: Wiring, text: str) -> bool:
    """Return whether a stop is a cavity of a plug."""
    return isinstance(by_name(wiring).get(stop(text, wiring).device), Plug)


def _place(wiring: Wiring, text: str) -> str:
    """Return the place of what a stop names; nothing where it is not written."""
    device = stop(text, wiring).device
    own = by_name(wiring).get(device) or getattr(wiring, device, None)
    return (own.at if own else None) or ""
