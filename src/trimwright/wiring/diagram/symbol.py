"""The parts and joins of a wiring, each part the right way up for current that flows downwards."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from trimwright.build import (
    ControlUnit,
    Device,
    Fuse,
    Load,
    Plug,
    Relay,
    Splice,
    Switch,
    Wiring,
    by_name,
    terminals,
)
from trimwright.build import Feed as FeedEntry
from trimwright.wiring.diagram.part import At, Joint, Kind, Part, Port, Side
from trimwright.wiring.diagram.potential import potentials
from trimwright.wiring.loom import End, Loom

PLUS, MINUS = "battery +", "battery -"
UNKNOWN = "888"  # as wide as a path's number gets
ALTERNATOR = ("B+", "D+", "B-")


class Symbols(Struct, frozen=True):
    """What a diagram is drawn of."""

    parts: tuple[Part, ...]
    joints: tuple[Joint, ...]


def _joints(wiring: Wiring, loom: Loom, labels: Mapping[str, str]) -> tuple[Joint, ...]:
    """Return every wire and link of a loom as a join between parts, rails and feet."""
    wires = [
        Joint(w.name, _at(w.start, wiring, "out"), _at(w.end, wiring, "in"), labels[w.name])
        for w in loom.wires
        if w.start.node != w.end.node
    ]
    links = [
        Joint(
            f"{one.start.node} in the box {number}",
            _at(one.start, wiring, "out"),
            _at(one.end, wiring, "in"),
            "",
            is_wire=False,
        )
        for number, one in enumerate(loom.links)
    ]
    return (*wires, *links)


def _at(end: End, wiring: Wiring, half: str) -> At:
    """Return what an end of a wire comes to."""
    own = by_name(wiring).get(end.device)
    if end.node == PLUS or (isinstance(own, FeedEntry) and end.terminal == "out"):
        return At("rail", PLUS if end.node == PLUS else end.device)
    if end.terminal == "stud" and own in wiring.grounds:
        return At("foot", end.device)
    if isinstance(own, Plug):
        return At("port", end.node, half)
    return At("port", end.device, half if isinstance(own, Splice) else end.terminal)


def symbols(wiring: Wiring, loom: Loom, labels: Mapping[str, str]) -> Symbols:
    """Return the parts that wires come to, in the order of the wires, and their joins.

    Parameters
    ----------
    wiring, loom : Wiring, Loom
        The build's, and its wires.
    labels : mapping of str to str
        What is written along each wire, by its name.
    """
    found, posts = _posted(_joints(wiring, loom, labels))
    used: dict[str, set[str]] = {}
    for joint in found:
        for at in joint.ends:
            if at.what == "port":
                used.setdefault(at.name, set()).add(at.terminal)
    high = _heights(wiring, found)
    made = {name: posts.get(name) or _part(name, own, wiring, high) for name, own in used.items()}
    rails = {at.name for joint in found for at in joint.ends if at.what == "rail"}
    if PLUS in rails and "battery" not in made:
        made["battery"] = _battery(wiring, set())
    return Symbols(tuple(made.values()), tuple(_settled(one, made) for one in found))


def _posted(found: tuple[Joint, ...]) -> tuple[tuple[Joint, ...], dict[str, Part]]:
    """Return joins of which none lies between two feet or two rails: one of these is a post."""
    kept: list[Joint] = []
    posts: dict[str, Part] = {}
    for joint in found:
        if joint.start.what == joint.end.what != "port":
            side: Side = "bottom" if joint.end.what == "foot" else "top"
            own = joint.start if side == "bottom" else joint.end
            name = f"{own.name} as {joint.name}"
            port = Port("post", 0, side)
            posts[name] = Part(name, own.name, "post", (port,), title=own.name)
            at = At("port", name, "post")
            kept.append(replace(joint, start=at) if side == "bottom" else replace(joint, end=at))
        else:
            kept.append(joint)
    return tuple(kept), posts


def _settled(joint: Joint, made: Mapping[str, Part]) -> Joint:
    """Return a join that comes to a splice from above or below, as its other end lies."""
    start, end = joint.ends
    return replace(joint, start=_side(start, end, made), end=_side(end, start, made))


def _side(at: At, other: At, made: Mapping[str, Part]) -> At:
    """Return an end at a splice on the side that faces the other end."""
    if at.what != "port" or made[at.name].kind != "splice":
        return at
    if other.what != "port":
        return replace(at, terminal="in" if other.what == "rail" else "out")
    if made[other.name].kind in ("plug", "splice"):
        return at
    above = made[other.name].port(other.terminal).side == "bottom"
    return replace(at, terminal="in" if above else "out")


def _heights(wiring: Wiring, found: tuple[Joint, ...]) -> dict[str, float]:
    """Return the potential of every terminal."""
    fixed = {At("rail", PLUS): 1.0}
    fixed |= {At("rail", feed.name): 1.0 for feed in wiring.feeds}
    fixed |= {At("foot", ground.name): 0.0 for ground in wiring.grounds}
    told = {_node(at): value for at, value in fixed.items()} | {MINUS: 0.0, "alternator B-": 0.0}
    joined = [(_node(joint.start), _node(joint.end)) for joint in found]
    return potentials(joined, _inside(wiring), told)


def _node(at: At) -> str:
    """Return the name of what a join's end comes to; a half of a plug is on its own."""
    return f"{at.name} {at.terminal}" if at.what == "port" else f"{at.what} {at.name}"


def _inside(wiring: Wiring) -> Iterator[tuple[str, str]]:
    """Yield the pairs of terminals that something lies between."""
    for plug in wiring.plugs:
        for cavity in terminals(plug):
            yield f"{plug.name} {cavity} in", f"{plug.name} {cavity} out"
    for splice in wiring.splices:
        yield f"{splice.name} in", f"{splice.name} out"
    both: tuple[Fuse | Load, ...] = (*wiring.fuses, *wiring.loads)
    for one in both:
        yield f"{one.name} {terminals(one)[0]}", f"{one.name} {terminals(one)[1]}"
    for switch in wiring.switches:
        names = [f"{switch.name} {one}" for one in terminals(switch)]
        if switch.contacts == "reversing":
            feed, a, b, ground = names
            yield from ((feed, a), (feed, b), (a, ground), (b, ground))
        else:
            yield from ((names[0], other) for other in names[1:])
    for relay in wiring.relays:
        yield f"{relay.name} 86", f"{relay.name} 85"
        yield f"{relay.name} 30", f"{relay.name} 87"
        yield f"{relay.name} 30", f"{relay.name} 87a"


def _part(name: str, used: set[str], wiring: Wiring, high: Mapping[str, float]) -> Part:
    """Return the part that terminals of a name are of."""
    if name == "battery":
        return _battery(wiring, used)
    if name == "alternator":
        return _alternator(used, wiring)
    own = by_name(wiring).get(name)
    if isinstance(own, Relay):
        return _relay(own, used, high)
    if isinstance(own, ControlUnit):
        return _unit(own, used, high)
    if isinstance(own, Switch) and own.contacts in ("changeover", "reversing"):
        return _switch(own, used, high)
    return _plain(name, own, used, high)


def _plain(name: str, own: Device | None, used: set[str], high: Mapping[str, float]) -> Part:
    """Return a part of one contact or none."""
    if own is None:
        device = name.rpartition(" ")[0]
        two = (Port("in", 0, "top"), Port("out", 0, "bottom"))
        return Part(name, device, "plug", tuple(p for p in two if p.terminal in used), turns=True)
    if isinstance(own, Splice):
        return Part(name, name, "splice", (Port("in", 0, "top"), Port("out", 0, "bottom")))
    if isinstance(own, FeedEntry):
        said = (f"live {own.live}",)
        return Part(name, name, "feed", (Port("in", 0, "top"),), 1, said, lead_down=name)
    return _two_ended(own, used, high)


def _two_ended(own: Device, used: set[str], high: Mapping[str, float]) -> Part:
    """Return a fuse, a load or a plain switch, the side nearer to the feeds on top."""
    name, (first, second) = own.name, terminals(own)
    ports = _upright(name, first, second, high)
    kept = tuple(one for one in ports if one.terminal in used)
    if isinstance(own, Fuse):
        return Part(name, name, "fuse", kept, 1, (f"{own.rated.value:g} A",))
    if isinstance(own, Load):
        return Part(name, name, own.kind, kept, 1, load_says(own))
    if isinstance(own, Switch):
        kind: Kind = "make" if own.contacts == "make" else "break"
        return Part(name, name, kind, kept, 1, _switch_says(own), worked=_worked(own))
    raise TypeError(f"name must be of something that wires come to, got {name!r}")


def _upright(name: str, first: str, second: str, high: Mapping[str, float]) -> tuple[Port, Port]:
    """Return two ports, the one nearer to the feeds on top; the first one where neither is."""
    down = high.get(f"{name} {first}", 0.5) < high.get(f"{name} {second}", 0.5)
    sides: tuple[Side, Side] = ("bottom", "top") if down else ("top", "bottom")
    return Port(first, 0, sides[0]), Port(second, 0, sides[1])


def load_says(load: Load) -> tuple[str, ...]:
    """Return what stands below a load's name: what it takes, and for how long."""
    if load.power is not None:
        takes = f"{load.power.value:g} W"
    elif load.current is not None:
        takes = f"{load.current.value:g} A"
    else:
        return ()
    return (takes + (f", {load.on_for.value:g} s" if load.on_for else ""),)


def _switch_says(switch: Switch) -> tuple[str, ...]:
    """Return what stands below a switch's name: what works it, where that is not a hand."""
    return (switch.worked_by,) if switch.worked_by else ()


def _battery(wiring: Wiring, used: set[str]) -> Part:
    """Return the battery, its plus side on its rail."""
    own = wiring.battery
    said: tuple[str, ...] = ()
    if own is not None:
        holds = f", {own.holds.value:g} Ah" if own.holds else ""
        said = (f"{own.volts.value:g} V{holds}",)
    ports = (Port("-", 0, "bottom"),) if "-" in used else ()
    return Part("battery", "battery", "battery", ports, 1, said, lead_up=PLUS)


def _alternator(used: set[str], wiring: Wiring) -> Part:
    """Return the alternator: B+ above B-, D+ beside."""
    places: dict[str, tuple[int, Side]] = {
        "B+": (0, "top"),
        "D+": (1, "top"),
        "B-": (0, "bottom"),
    }
    ports = tuple(Port(one, *places[one]) for one in ALTERNATOR if one in used)
    said = (f"{wiring.alternator.gives.value:g} A",) if wiring.alternator else ()
    return Part("alternator", "alternator", "alternator", ports, 1 + ("D+" in used), said)


def _unit(unit: ControlUnit, used: set[str], high: Mapping[str, float]) -> Part:
    """Return a control unit: each terminal in a slot of its own, up where it is nearer the feeds."""
    there = [one for one in unit.terminals if one in used]
    ports = tuple(
        Port(one, slot, "top" if high.get(f"{unit.name} {one}", 0.5) >= 0.5 else "bottom")  # noqa: PLR2004  halfway
        for slot, one in enumerate(there)
    )
    said = (f"at rest {unit.states[0]}",)
    return Part(unit.name, unit.name, "unit", ports, max(1, len(ports)), said)


def _thrown(
    name: str, common: str, throws: Sequence[str], high: Mapping[str, float]
) -> tuple[Port, ...]:
    """Return the ports of a contact with one common terminal and one throw a slot."""
    mean = sum(high.get(f"{name} {one}", 0.5) for one in throws) / max(1, len(throws))
    up = high.get(f"{name} {common}", 0.5) >= mean
    side: Side = "top" if up else "bottom"
    away: Side = "bottom" if up else "top"
    return (Port(common, 0, side), *(Port(one, n, away) for n, one in enumerate(throws)))


def _relay(relay: Relay, used: set[str], high: Mapping[str, float]) -> Part:
    """Return a relay: its contact, a second throw beside it if both are used, and its coil."""
    name = relay.name
    throws = [one for one in ("87", "87a") if one in used]
    contact = _thrown(name, "30", throws, high) if throws or "30" in used else ()
    coil = {"85", "86"} & used
    slots = max(1, len(throws)) if contact else 0
    found = [one for one in contact if one.terminal in used]
    if coil:
        both = _upright(name, "86", "85", high)
        found += [Port(p.terminal, slots, p.side) for p in both if p.terminal in used]
    said = [f"coil {UNKNOWN}", f"contact {UNKNOWN}"] if coil and contact else []
    return Part(name, name, "relay", tuple(found), slots + bool(coil), tuple(said))


def _switch(switch: Switch, used: set[str], high: Mapping[str, float]) -> Part:
    """Return a switch of more than two terminals."""
    name, said = switch.name, _switch_says(switch)
    if switch.contacts == "reversing":
        four = (
            Port("feed", 0, "top"),
            Port("a", 0, "bottom"),
            Port("b", 1, "bottom"),
            Port("ground", 2, "bottom"),
        )
        kept = tuple(p for p in four if p.terminal in used)
        return Part(name, name, "reversing", kept, 3, said, worked=_worked(switch))
    every = _thrown(name, "in", ["worked", "rest"], high)
    ports = tuple(one for one in every if one.terminal in used)
    return Part(name, name, "changeover", ports, 2, said, worked=_worked(switch))


def _worked(switch: Switch) -> Literal["push", "turn", "other"]:
    """Return what works a switch."""
    if switch.worked_by:
        return "other"
    return "push" if switch.action == "momentary" else "turn"
