"""What a field may name: words of the stock tables, and names that the file itself gives."""

from collections.abc import Iterator

from msgspec import Struct

from trimwright.build.entry import Entry
from trimwright.build.node import Node, Scalar, Sequence, child
from trimwright.build.stranger import ALWAYS_OVER
from trimwright.build.wiring import BoughtCable, Signal, Trunk, WirePath, WiringRule
from trimwright.build.wiring_device import (
    Alternator,
    Battery,
    Feed,
    Fuse,
    Ground,
    Load,
    Plug,
    Relay,
    Splice,
    Switch,
)
from trimwright.build.wiring_names import COLOURS
from trimwright.build.wiring_unit import ControlUnit
from trimwright.stock import rows

AT = (Alternator, Battery, Feed, Fuse, Ground, Load, Plug, Relay, Splice, Switch, ControlUnit)
ENDS = ("start", "end")
NAMES: dict[tuple[type[Entry], str], str] = {
    **{(model, "at"): "places" for model in AT},
    **{(model, end): "places" for model in (Trunk, BoughtCable) for end in ENDS},
    **{(Signal, end): "loads" for end in ENDS},
    (WiringRule, "never"): "loads",
    (WiringRule, "always"): "loads",
}  # fields that have to name an entry of a list of the wiring


class Known(Struct, frozen=True):
    """The layers that a file lists, and the names in its wiring, by their list."""

    overs: tuple[str, ...]
    places: tuple[str, ...]
    loads: tuple[str, ...]
    switches: tuple[str, ...]

    def choices(self, model: type[Entry], name: str) -> tuple[str, ...]:
        """Return the words that a field has to be one of; none where it is free."""
        if name == "over":
            return self.overs
        if (model, name) in NAMES:
            found: tuple[str, ...] = getattr(self, NAMES[model, name])
            return found
        tables = {"by": ("reading",), "bolt": ("bolt", "inch_bolt")}.get(name, ())
        return tuple(row["name"] for table in tables for row in rows(table))

    def offers(self, model: type[Entry], name: str) -> tuple[str, ...]:
        """Return the words that a field is likely to be, where any other will do as well."""
        if (model, name) == (Load, "worked_by"):
            return self.switches
        return COLOURS if (model, name) == (WirePath, "colour") else ()


def known(root: Node) -> Known:
    """Return the names that a file gives."""
    wiring = child(root, "wiring")
    told = (tuple(_names(wiring, group)) for group in ("places", "loads", "switches"))
    return Known((*ALWAYS_OVER, *_names(child(root, "car"), "layers")), *told)


def _names(holder: Node | None, group: str) -> Iterator[str]:
    """Yield the names of the entries of a list."""
    listed = child(holder, group) if holder else None
    for item in listed.items if isinstance(listed, Sequence) else ():
        name = child(item, "name")
        if isinstance(name, Scalar):
            yield name.text
