"""What to buy: wire by size and colour, what is crimped on, fuses, relays, plugs, cables, wrap."""

from collections import Counter
from math import ceil

from msgspec import Struct

from trimwright.build import BoughtCable, Plug, Relay
from trimwright.quantities import Unit
from trimwright.wiring.bundling import Bundling, bundlings
from trimwright.wiring.crimp import Crimp, crimp
from trimwright.wiring.loom import End
from trimwright.wiring.made_of import made_of
from trimwright.wiring.outcome import WiringOutcome

SPARE_SHARE = (
    0.1  # more wire than is cut, for a wrong cut or a late thought; common practice, no source
)
SOLD_BY_MM: dict[Unit, float] = {"mm": 1000.0, "in": 304.8}  # a metre, a foot [yard-pound-1959]


class WireToBuy(Struct, frozen=True):
    """Wire of one size and colour.

    Attributes
    ----------
    size, colour : str
        '' where they are not known.
    pieces : int
        How many wires are cut from it.
    cut_mm : float
        What they come to [mm].
    lengths : int
        Metres or feet to buy, spare included, rounded up.
    unknown : int
        How many of the pieces have no known length, so that more is needed.
    """

    size: str
    colour: str
    pieces: int
    cut_mm: float
    lengths: int
    unknown: int


class CrimpToBuy(Struct, frozen=True):
    """Ends of one kind for wire of one size, and how many."""

    crimp: Crimp
    size: str
    count: int


class FuseToBuy(Struct, frozen=True):
    """Fuses of one kind and rating: in use, and one to spare."""

    type: str
    rated_a: float
    count: int
    spare: int = 1


class Shared(Struct, frozen=True):
    """A terminal that several wires end at, so that they are joined ahead of it or crimped together."""

    end: End
    wires: tuple[str, ...]


class Buying(Struct, frozen=True):
    """Everything a wiring asks for, each list in a fixed order."""

    wires: tuple[WireToBuy, ...]
    crimps: tuple[CrimpToBuy, ...]
    joints: tuple[Shared, ...]
    shared: tuple[Shared, ...]
    fuses: tuple[FuseToBuy, ...]
    relays: tuple[tuple[str, float, int], ...]
    plugs: tuple[Plug, ...]
    wraps: tuple[Bundling, ...]
    cables: tuple[BoughtCable, ...]


def buying(found: WiringOutcome, unit: Unit) -> Buying:
    """Return everything a wiring asks for.

    Parameters
    ----------
    found : WiringOutcome
        The wiring as computed.
    unit : {'mm', 'in'}
        The build's: wire is sold by the metre or by the foot.
    """
    ends = _by_terminal(found)
    splices = {one.name for one in found.wiring.splices}
    many = [Shared(end, wires) for end, wires in ends.items() if len(wires) > 1]
    return Buying(
        _wires(found, unit),
        _crimps(found),
        tuple(Shared(end, wires) for end, wires in ends.items() if end.device in splices),
        tuple(
            one
            for one in many
            if one.end.device not in splices and crimp(one.end, found.wiring) != "ring"
        ),
        _fuses(found),
        _relays(found.wiring.relays),
        found.wiring.plugs,
        tuple(one for one in bundlings(found) if one.bundle is not None and len(one.wires) > 1),
        found.wiring.bought_cables,
    )


def _wires(found: WiringOutcome, unit: Unit) -> tuple[WireToBuy, ...]:
    """Return wire by size, thinnest first, and colour."""
    made = made_of(found)
    lots: dict[tuple[float, str, str], list[float | None]] = {}
    for one in found.loom.wires:
        own = made[one.name]
        lots.setdefault((own.area_mm2, own.bought, one.colour or ""), []).append(one.cut_mm)
    bought = []
    for (_, size, colour), cuts in sorted(lots.items()):
        total = sum(cut for cut in cuts if cut is not None)
        lengths = ceil(round(total * (1 + SPARE_SHARE) / SOLD_BY_MM[unit], 9))
        bought.append(WireToBuy(size, colour, len(cuts), total, lengths, cuts.count(None)))
    return tuple(bought)


def _crimps(found: WiringOutcome) -> tuple[CrimpToBuy, ...]:
    """Return what is crimped on by kind and size of wire, joints apart."""
    made = made_of(found)
    counted: Counter[tuple[Crimp, float, str]] = Counter()
    for one in found.loom.wires:
        own = made[one.name]
        for end in (one.start, one.end):
            counted[crimp(end, found.wiring), own.area_mm2, own.size] += 1
    return tuple(
        CrimpToBuy(kind, size, count)
        for (kind, _, size), count in sorted(counted.items())
        if kind != "joint"
    )


def _by_terminal(found: WiringOutcome) -> dict[End, tuple[str, ...]]:
    """Return the names of the wires at each terminal that has one, cavities of plugs left out."""
    there: dict[End, list[str]] = {}
    plugs = {one.name for one in found.wiring.plugs}
    for one in found.loom.wires:
        for end in (one.start, one.end):
            if end.device not in plugs:
                there.setdefault(end, []).append(one.name)
    return {end: tuple(names) for end, names in there.items()}


def _fuses(found: WiringOutcome) -> tuple[FuseToBuy, ...]:
    """Return fuses by kind and rating."""
    counted = Counter((one.type, one.rated.value) for one in found.wiring.fuses)
    return tuple(FuseToBuy(kind, rated, count) for (kind, rated), count in sorted(counted.items()))


def _relays(relays: tuple[Relay, ...]) -> tuple[tuple[str, float, int], ...]:
    """Return relays by what guards their coils and what they carry [A], and how many."""
    counted = Counter((one.coil_guard, one.carries.value) for one in relays)
    return tuple((guard, carries, count) for (guard, carries), count in sorted(counted.items()))
