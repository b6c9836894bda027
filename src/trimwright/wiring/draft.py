"""A wiring that is being added to: each entry as it will stand, and as the edit that writes it."""

from collections.abc import Mapping

from trimwright.build import (
    Battery,
    Entry,
    Feed,
    Fuse,
    Ground,
    Relay,
    Splice,
    Switch,
    Trunk,
    WirePath,
    Wiring,
    WiringPlace,
    devices,
)
from trimwright.findings import Edit
from trimwright.quantities import Unit
from trimwright.wiring.loom import routes_from, spot

WIRING = "wiring"
ENTRY: dict[str, type[Entry]] = {
    "places": WiringPlace,
    "trunks": Trunk,
    "feeds": Feed,
    "grounds": Ground,
    "fuses": Fuse,
    "switches": Switch,
    "relays": Relay,
    "splices": Splice,
    "paths": WirePath,
}
Written = Mapping[str, str | tuple[str, ...] | None]


class Draft:
    """A wiring with what was added to it, and the edits that add it."""

    def __init__(self, wiring: Wiring, unit: Unit) -> None:
        """Begin with a wiring as it is written."""
        self.wiring = wiring
        self.edits: list[Edit] = []
        self._unit = unit

    def add(self, group: str, written: Written) -> None:
        """Add an entry to a group, with the keys that hold something."""
        own: tuple[Entry, ...] = getattr(self.wiring, group)
        told = {key: value for key, value in written.items() if value}
        entry = ENTRY[group].model_validate(told, context={"unit": self._unit})
        self.wiring = self.wiring.model_copy(update={group: (*own, entry)})
        at = (WIRING, group, len(own))
        for key, value in told.items():
            if isinstance(value, str):
                self.edits.append(Edit((*at, key), value))
            else:
                self.edits += [Edit((*at, key, n), one) for n, one in enumerate(value)]

    def battery_at(self, place: str) -> None:
        """Put the battery, there or not, at a place."""
        kept = self.wiring.battery or Battery.model_validate({}, context={"unit": self._unit})
        battery = kept.model_copy(update={"at": place})
        self.wiring = self.wiring.model_copy(update={"battery": battery})
        self.edits.append(Edit((WIRING, "battery", "at"), place))

    def place(self, name: str) -> str:
        """Return a place by name, added where it is not there yet."""
        if name not in {one.name for one in self.wiring.places}:
            self.add("places", {"name": name})
        return name

    def way(self, start: str | None, end: str | None) -> None:
        """Add a straight way between two places that are measured and that no trunk joins."""
        spots = {one.name: spot(one) for one in self.wiring.places}
        if start is None or end is None or spots[start] is None or spots[end] is None:
            return
        if end not in routes_from(start, self.wiring):
            self.add("trunks", {"from": start, "to": end})

    def device_name(self, name: str) -> str:
        """Return a name that no device has yet."""
        return _free(name, {one.name for one in devices(self.wiring)})

    def path_name(self, name: str) -> str:
        """Return a name that no path has yet."""
        return _free(name, {one.name for one in self.wiring.paths})


def _free(name: str, taken: set[str]) -> str:
    """Return a name that is not taken, numbered where it is."""
    number, found = 2, name
    while found in taken:
        found, number = f"{name} {number}", number + 1
    return found
