"""Wires taken off a terminal that holds too many: to a stud beside it, or to a joint ahead of it."""

from trimwright.build import Ground, Plug, WirePath, Wiring, by_name, stop
from trimwright.findings import Edit
from trimwright.quantities import Unit
from trimwright.wiring.draft import Draft
from trimwright.wiring.loom import Wire
from trimwright.wiring.met_at import Meeting


def parted(wiring: Wiring, one: Meeting, unit: Unit) -> tuple[str, tuple[Edit, ...]] | None:
    """Return the new stud or joint, and the edits that bring to it what one terminal cannot hold.

    Only wires that a path begins or ends with are moved; None where these are too few, or what
    holds too many is neither a ground nor a crimp.

    Parameters
    ----------
    wiring : Wiring
        The build's.
    one : Meeting
        Of more wires than it takes.
    unit : {'mm', 'in'}
        The build's.
    """
    own = by_name(wiring).get(one.device)
    if one.stud and not isinstance(own, Ground):
        return None
    kept = one.most if one.stud else one.most - 1  # the joint's own wire comes to the crimp too
    movable = [(wire, at) for wire in one.wires if (at := _end_of(wiring, wire, one)) is not None]
    # what two devices hear of each other hangs on their common ground: they stay longest
    movable.sort(key=lambda told: not _is_heard(wiring, told[0]))
    over = len(one.wires) - kept
    if len(movable) < over:
        return None
    moved = movable[-over:][: one.most] if one.stud else movable[-over:]
    draft = Draft(wiring, unit)
    if isinstance(own, Ground):
        name = draft.device_name(own.name.rstrip("0123456789 "))
        told = {"name": name, "at": own.at, "to battery": own.to_battery.text}
        draft.add("grounds", told)
    else:
        whole = one.terminal if isinstance(own, Plug) else one.device
        name = draft.device_name(f"{whole} joint")
        draft.add("splices", {"name": name, "at": _place(moved[0][0], one)})
        goes = (one.terminal, name)
        draft.add("paths", {"name": draft.path_name(name), "goes": goes})
    ends = tuple(Edit(("wiring", "paths", wire.path, "goes", at), name) for wire, at in moved)
    return name, (*draft.edits, *ends)


def _is_heard(wiring: Wiring, wire: Wire) -> bool:
    """Return whether the path of a wire goes through a device on a signal lead."""
    heard = {name for lead in wiring.signals for name in (lead.start, lead.end)}
    return not heard.isdisjoint(wiring.paths[wire.path].goes)


def _end_of(wiring: Wiring, wire: Wire, one: Meeting) -> int | None:
    """Return at which stop of its path a wire meets a terminal, if the path begins or ends there."""
    path: WirePath = wiring.paths[wire.path]
    last = len(path.goes) - 1
    for at, own in ((0, wire.start), (last, wire.end)):
        if own.node == one.terminal and stop(path.goes[at], wiring).device == one.device:
            return at
    return None


def _place(wire: Wire, one: Meeting) -> str | None:
    """Return where the joint is: where the wire that is moved comes from."""
    own, other = (
        (wire.start, wire.end) if wire.start.node == one.terminal else (wire.end, wire.start)
    )
    return other.place or own.place
