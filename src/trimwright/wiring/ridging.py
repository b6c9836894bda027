"""Trunks that lie under the carpet, as ridges on the metal."""

from dataclasses import dataclass

from trimwright.car import Ridge
from trimwright.wiring.bundle import Bundle
from trimwright.wiring.bundling import Bundling, bundlings
from trimwright.wiring.outcome import WiringOutcome

LEAST_PLACES = 2  # that a trunk has to run between


@dataclass(frozen=True, slots=True)
class Ridging:
    """A trunk under the carpet, and the ridge that it is.

    `flatter` is the ridge that its wires would be side by side; None where they lie so.
    """

    own: Bundling
    ridge: Ridge
    flatter: Ridge | None


def ridges(found: WiringOutcome) -> tuple[Ridging, ...]:
    """Return every trunk that lies under the carpet and whose thickness is known."""
    told = []
    for own in bundlings(found):
        places = own.trunk.under_carpet
        if own.bundle is None or len(places) < LEAST_PLACES:
            continue
        path = tuple((one.at.value, one.off_middle.value) for one in places)
        round_one, flat = _bundled(path, own.bundle), _flat(path, own.bundle)
        lies_flat = own.trunk.laid == "flat"
        told.append(Ridging(own, flat if lies_flat else round_one, None if lies_flat else flat))
    return tuple(told)


def _bundled(path: tuple[tuple[float, float], ...], packed: Bundle) -> Ridge:
    """Return wires in a round bundle."""
    return Ridge(path, packed.diameter_mm, packed.diameter_mm)


def _flat(path: tuple[tuple[float, float], ...], packed: Bundle) -> Ridge:
    """Return wires side by side in one layer."""
    return Ridge(path, max(packed.diameters_mm), sum(packed.diameters_mm))
