"""What is crimped on the end of a wire, as far as the device it goes to says it."""

from typing import Literal

from trimwright.build import (
    Feed,
    Fuse,
    Ground,
    Plug,
    Relay,
    Splice,
    Switch,
    Wiring,
    by_name,
)
from trimwright.wiring.loom import End

Crimp = Literal["ring", "blade", "contact", "joint", "as the load asks"]
# common practice, no source: studs take rings, relays and fuses push-on blades, plugs contacts
CRIMPS: dict[type, Crimp] = {
    Ground: "ring",
    Feed: "ring",
    Fuse: "blade",
    Switch: "blade",
    Relay: "blade",
    Plug: "contact",
    Splice: "joint",
}


def crimp(end: End, wiring: Wiring) -> Crimp:
    """Return what is crimped on an end.

    Battery, alternator, live points, grounds and bolted fuses take a ring; other fuses, switches
    and relays a blade; a cavity of a plug a contact; in a joint wires are crimped to each other. What a load takes is
    the load's affair.
    """
    device = by_name(wiring).get(end.device)
    if device is None:  # battery or alternator, which have their names from the trade
        return "ring"
    if isinstance(device, Fuse) and device.type == "bolted":
        return "ring"
    return CRIMPS.get(type(device), "as the load asks")
