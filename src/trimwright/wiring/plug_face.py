"""The two halves of each plug, cavity by cavity: which wires come in from which side."""

from collections import deque
from typing import Literal

from msgspec import Struct

from trimwright.build import Plug
from trimwright.wiring.loom import Loom, Wire
from trimwright.wiring.outcome import WiringOutcome

HERE = -1  # for a wire that stays at the plug's place
Side = Literal[0, 1]


class Half(Struct, frozen=True):
    """One half of a plug: the places its wires go towards, and the wires in each cavity."""

    towards: tuple[str, ...]
    cavities: tuple[tuple[Wire, ...], ...]


class PlugFace(Struct, frozen=True):
    """A plug with both its halves.

    Attributes
    ----------
    plug : Plug
        As in the build.
    halves : tuple of two Half
        The one that most of its first wires come in by, and the other.
    """

    plug: Plug
    halves: tuple[Half, Half]

    @property
    def empty(self) -> tuple[int, ...]:
        """Numbers of cavities that no wire goes to on either half."""
        pairs = enumerate(zip(*(half.cavities for half in self.halves), strict=True), start=1)
        return tuple(number for number, (a, b) in pairs if not a and not b)

    @property
    def crowded(self) -> tuple[int, ...]:
        """Numbers of cavities that two wires or more go to on one half."""
        pairs = enumerate(zip(*(half.cavities for half in self.halves), strict=True), start=1)
        return tuple(number for number, sides in pairs if max(map(len, sides)) > 1)

    @property
    def one_sided(self) -> tuple[int, ...]:
        """Numbers of cavities that wires go to on one half only."""
        pairs = enumerate(zip(*(half.cavities for half in self.halves), strict=True), start=1)
        return tuple(number for number, (a, b) in pairs if bool(a) != bool(b))


def plug_faces(found: WiringOutcome) -> tuple[PlugFace, ...]:
    """Return every plug with its halves, in the order of the file.

    Wires that leave along one trunk are on one half. The two wires of a cavity are on different
    halves wherever that can be; where both leave along one trunk, the one that comes to the plug
    in the order of its path is on the first half.
    """
    return tuple(_face(plug, found) for plug in found.wiring.plugs)


def _face(plug: Plug, found: WiringOutcome) -> PlugFace:
    """Return one plug."""
    count = int(plug.cavities.value)
    cavities = [_at(plug, str(1 + n), found.loom) for n in range(count)]
    sides = _sides([[_leaves_by(wire, plug) for wire, _ in some] for some in cavities])
    halves: tuple[list[tuple[Wire, ...]], list[tuple[Wire, ...]]] = ([], [])
    for some in cavities:
        ways = {_leaves_by(wire, plug) for wire, _ in some}
        split: tuple[list[Wire], list[Wire]] = ([], [])
        for wire, comes in some:
            both_one_way = len(some) > 1 and len(ways) == 1
            own = (0 if comes else 1) if both_one_way else sides[_leaves_by(wire, plug)]
            split[own].append(wire)
        for half, wires in zip(halves, split, strict=True):
            half.append(tuple(wires))
    first, second = (
        Half(_towards(side, sides, plug, found), tuple(half)) for side, half in enumerate(halves)
    )
    return PlugFace(plug, (first, second))


def _at(plug: Plug, cavity: str, laid: Loom) -> list[tuple[Wire, bool]]:
    """Return the wires at a cavity, each with whether it comes to it in the order of its path."""
    there = (plug.name, cavity)
    found = [(one, True) for one in laid.wires if (one.end.device, one.end.terminal) == there]
    found += [(one, False) for one in laid.wires if (one.start.device, one.start.terminal) == there]
    return found


def _leaves_by(wire: Wire, plug: Plug) -> int:
    """Return the trunk by which a wire leaves a plug, `HERE` where it leaves by none."""
    if wire.route is None or not wire.route.trunks:
        return HERE
    return wire.route.trunks[-1 if wire.end.device == plug.name else 0]


def _sides(cavities: list[list[int]]) -> dict[int, Side]:
    """Return for each way on which half its wires are: those that share a cavity on different ones.

    Ways that share no cavity with others are on the first half.
    """
    beside: dict[int, set[int]] = {}
    for ways in cavities:
        for way in ways:
            beside.setdefault(way, set()).update(other for other in ways if other != way)
    sides: dict[int, Side] = {}
    for first in beside:
        if first in sides:
            continue
        sides[first] = 0
        waiting = deque([first])
        while waiting:
            here = waiting.popleft()
            for there in sorted(beside[here] - sides.keys()):
                sides[there] = 1 if sides[here] == 0 else 0
                waiting.append(there)
    return sides


def _towards(
    side: int, sides: dict[int, Side], plug: Plug, found: WiringOutcome
) -> tuple[str, ...]:
    """Return the places that the wires of one half go towards first."""
    names = []
    for way in sorted(way for way, own in sides.items() if own == side):
        if way == HERE:
            continue
        trunk = found.wiring.trunks[way]
        names.append(trunk.end if trunk.start == plug.at else trunk.start)
    return tuple(dict.fromkeys(names))
