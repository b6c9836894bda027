"""Trunks that lie under the carpet, as ridges on the metal."""

from msgspec import Struct
from msgspec.structs import replace

from trimwright.car import Ridge
from trimwright.wiring.bundle import Bundle
from trimwright.wiring.bundling import Bundling, bundlings
from trimwright.wiring.outcome import WiringOutcome


class Ridging(Struct, frozen=True):
    """A trunk under the carpet, and the ridge that it is.

    `flatter` is the ridge that its wires would be side by side; None where they lie so. `mirrored`
    is the same on the other side of the car.
    """

    own: Bundling
    ridge: Ridge
    flatter: Ridge | None

    @property
    def mirrored(self) -> Ridge:
        """The ridge it would be on the other side of the car."""
        return replace(self.ridge, path=tuple((x, -y) for x, y in self.ridge.path))


def ridges(found: WiringOutcome) -> tuple[Ridging, ...]:
    """Return every trunk that lies under the carpet, by its wires whose thickness is known."""
    told = []
    for own in bundlings(found):
        places = own.trunk.under_carpet
        if own.bundle is None or not places:
            continue
        path = tuple((one.at.value, one.off_middle.value) for one in places)
        round_one, flat = _bundled(path, own.bundle), _flat(path, own.bundle)
        lies_flat = own.trunk.laid == "flat"
        lying = replace(flat if lies_flat else round_one, relieved=own.trunk.relief == "cut")
        told.append(
            Ridging(own, lying, None if lies_flat else replace(flat, relieved=lying.relieved))
        )
    return tuple(told)


def _bundled(path: tuple[tuple[float, float], ...], packed: Bundle) -> Ridge:
    """Return wires in a round bundle."""
    return Ridge(path, packed.diameter_mm, packed.diameter_mm)


def _flat(path: tuple[tuple[float, float], ...], packed: Bundle) -> Ridge:
    """Return wires side by side in one layer."""
    return Ridge(path, max(packed.diameters_mm), sum(packed.diameters_mm))
