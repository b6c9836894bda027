"""The wires of each trunk as a bundle: how thick, through its hole, under its carpet, round its bend."""

from msgspec import Struct

from trimwright.build import Trunk
from trimwright.stock import Wire as StockWire
from trimwright.wiring.bundle import Bend, Bundle, Passage, bundle, passage, tightest_bend
from trimwright.wiring.loom import Wire, trunk_mm
from trimwright.wiring.made_of import made_of
from trimwright.wiring.outcome import WiringOutcome

WRAP_MM = 0.6  # cloth tape of 0.3 mm wound half over itself; common practice, no source


class Bundling(Struct, frozen=True):
    """What lies in one trunk.

    Attributes
    ----------
    number : int
        Of the trunk in the build.
    trunk : Trunk
        As in the build.
    long_mm : float
        Its length [mm].
    wires : tuple of Wire
        Those whose outside is known, in the order of the bundle's circles.
    unknown : tuple of Wire
        Those whose outside is not: the bundle is thicker by them.
    bundle : Bundle or None
        The known ones packed, a wrap round two or more; None where there is none.
    """

    number: int
    trunk: Trunk
    long_mm: float
    wires: tuple[Wire, ...]
    unknown: tuple[Wire, ...]
    bundle: Bundle | None

    @property
    def passage(self) -> Passage | None:
        """How the bundle stands in the trunk's hole; None without one of them."""
        if self.bundle is None or self.trunk.hole is None:
            return None
        return passage(self.bundle, self.trunk.hole.value)

    @property
    def bend(self) -> Bend | None:
        """The tightest bend the bundle bears; None without a bundle."""
        return None if self.bundle is None else tightest_bend(self.bundle)


def bundlings(found: WiringOutcome) -> tuple[Bundling, ...]:
    """Return what lies in each trunk that wires lie in, in the order of the file."""
    made = made_of(found)
    outside = {name: own.stock for name, own in made.items()}
    return tuple(
        _bundling(found, number, outside)
        for number in range(len(found.wiring.trunks))
        if found.loom.through(number)
    )


def _bundling(found: WiringOutcome, number: int, outside: dict[str, StockWire | None]) -> Bundling:
    """Return what lies in one trunk."""
    inside = found.loom.through(number)
    trunk = found.wiring.trunks[number]
    wires = tuple(one for one in inside if outside[one.name] is not None)
    unknown = tuple(one for one in inside if outside[one.name] is None)
    widths = tuple(own.outside_mm for one in wires if (own := outside[one.name]) is not None)
    packed = wrapped(widths) if widths else None
    return Bundling(number, trunk, trunk_mm(trunk, found.wiring), wires, unknown, packed)


def wrapped(widths_mm: tuple[float, ...]) -> Bundle:
    """Return wires of some outside diameters [mm] as a bundle: wrapped, where they are two or more."""
    return bundle(widths_mm, wrap_mm=WRAP_MM if len(widths_mm) > 1 else 0.0)
