"""What comes together at a terminal: how many wires, how much copper, and ends that lead nowhere."""

from collections.abc import Iterator

from msgspec import Struct

from trimwright.build import (
    Feed,
    Fuse,
    Ground,
    Plug,
    Relay,
    Splice,
    Switch,
    by_name,
    devices,
    terminals,
)
from trimwright.wiring.contacts import ends
from trimwright.wiring.loom import Wire
from trimwright.wiring.outcome import WiringOutcome
from trimwright.wiring.plug_face import plug_faces

ON_STUD = 4  # ring terminals on one stud [AC 43.13-1B, 11-16 to 11-18, from memory]
IN_CRIMP = 2  # wires in one crimp; common practice, no source
BLADE_MM2 = 6.0  # copper that a 6.3 mm blade's crimp takes; common practice, no source
BLADE_A = 30.0  # a relay or fuse of more has larger terminals; common practice, no source


class Meeting(Struct, frozen=True):
    """The wires that one stud, or one crimp, holds.

    `terminal` is its name as a stop; `most` and `most_mm2` what it takes, None where it takes all.
    """

    terminal: str
    device: str
    stud: bool
    wires: tuple[Wire, ...]
    most: int
    most_mm2: float | None


class LooseEnd(Struct, frozen=True):
    """A terminal that wires come to, whose device leads on by none of `others`."""

    terminal: str
    device: str
    wires: tuple[str, ...]
    others: tuple[str, ...]


def meetings(found: WiringOutcome) -> tuple[Meeting, ...]:
    """Return what meets at each stud, terminal and half of a cavity that wires come to."""
    own = by_name(found.wiring)
    at: dict[tuple[str, str], list[Wire]] = {}
    for wire in found.loom.wires:
        for end in (wire.start, wire.end):
            if not isinstance(own.get(end.device), Splice | Plug):
                at.setdefault((end.device, end.terminal), []).append(wire)
    told = [_meeting(found, name, terminal, its) for (name, terminal), its in at.items()]
    for face in plug_faces(found):
        for number in range(int(face.plug.cavities.value)):
            sides = [half.cavities[number] for half in face.halves]
            its = max(sides, key=len)
            if its:
                told.append(_meeting(found, face.plug.name, str(1 + number), list(its)))
    return tuple(told)


def _meeting(found: WiringOutcome, name: str, terminal: str, its: list[Wire]) -> Meeting:
    """Return what meets at one terminal."""
    device = by_name(found.wiring).get(name)  # battery and alternator have studs
    stud = device is None or isinstance(device, Ground | Feed)
    blade = isinstance(device, Switch | Plug) or (
        isinstance(device, Relay) and device.carries.value <= BLADE_A
    )
    blade = blade or (isinstance(device, Fuse) and device.rated.value <= BLADE_A)
    return Meeting(
        f"{name} {terminal}",
        name,
        stud,
        tuple(its),
        ON_STUD if stud else IN_CRIMP,
        BLADE_MM2 if blade else None,
    )


def loose_ends(found: WiringOutcome) -> tuple[LooseEnd, ...]:
    """Return the terminals at which a wire ends and nothing goes on, in the order of the schema."""
    used = ends(found.loom)
    return tuple(
        LooseEnd(here, name, tuple(_wires_at(found, here)), others)
        for name, here, others in _asked(found)
        if here in used and not used & {*others}
    )


def _asked(found: WiringOutcome) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """Yield each terminal of what passes a current on, with those that it may go on by."""
    for device in devices(found.wiring):
        for one, others in _passes(device):
            name = device.name
            yield name, f"{name} {one}", tuple(f"{name} {other}" for other in others)


def _passes(device: object) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Yield the terminals of a fuse, switch or relay, with those that each is joined to."""
    if isinstance(device, Relay):
        yield from (("30", ("87", "87a")), ("87", ("30",)), ("87a", ("30",)))
        yield from (("85", ("86",)), ("86", ("85",)))
    elif isinstance(device, Switch) and device.contacts == "changeover":
        yield from (("in", ("worked", "rest")), ("worked", ("in",)), ("rest", ("in",)))
    elif isinstance(device, Switch) and device.contacts == "reversing":
        yield from (("feed", ("a", "b")), ("ground", ("a", "b")))
        yield from (("a", ("feed", "ground")), ("b", ("feed", "ground")))
    elif isinstance(device, Fuse | Switch):
        yield from (("in", ("out",)), ("out", ("in",)))


def _wires_at(found: WiringOutcome, terminal: str) -> Iterator[str]:
    """Yield the wires that end at a terminal."""
    for wire in found.loom.wires:
        if terminal in (wire.start.node, wire.end.node):
            yield wire.name


def single_ends(found: WiringOutcome) -> tuple[LooseEnd, ...]:
    """Return the splices and cavities that only one wire comes to."""
    told = []
    wanted: tuple[Plug | Splice, ...] = (*found.wiring.plugs, *found.wiring.splices)
    for device in wanted:
        for one in terminals(device):
            here = f"{device.name} {one}"
            its = tuple(_wires_at(found, here))
            if len(its) == 1:
                told.append(LooseEnd(here, device.name, its, ()))
    return tuple(told)
