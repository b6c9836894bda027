"""What the sheet 'wire' is told of the parts of the wiring, and asks to add to it."""

from typing import Annotated, Literal

from pydantic import Field

from trimwright.app.message import EditMessage, Message, Step

Named = Annotated[str, Field(max_length=200)]
PartSort = Literal[
    "source",
    "feed",
    "fuse",
    "switch",
    "relay",
    "unit",
    "plug",
    "splice",
    "load",
    "ground",
    "path",
    "place",
    "trunk",
    "cable",
    "signal",
    "rule",
]


class LaidWire(Message):
    """One wire, of a path or in a trunk: its name in the drawing, what it joins, its length and its size."""

    name: str
    joins: str
    long: str
    size: str


class WirePartMessage(Message):
    """One part of the wiring: its name, and where its fields are in the file.

    `facts` is what is computed of it, `wires` are those of a path or in a trunk; `waits` says of a
    load that no path leads to it.
    """

    sort: PartSort
    name: str
    path: tuple[Step, ...]
    says: str
    facts: tuple[str, ...]
    wires: tuple[LaidWire, ...]
    waits: bool


class WirePartsMessage(Message):
    """All parts of a version, in the order of the file."""

    version: str
    parts: tuple[WirePartMessage, ...]


class DrawnNamesMessage(Message):
    """What each page of a version's diagram draws, by name."""

    version: str
    pages: tuple[tuple[str, ...], ...]


class StopsAsked(Message):
    """The stops of a path so far."""

    goes: tuple[Named, ...] = Field(default=(), max_length=100)


class WayMessage(Message):
    """One way to meet a device: as a path has it, what it is, the paths that meet it there."""

    text: str
    says: str
    by: tuple[str, ...]


class NextStopMessage(Message):
    """A device that a path may go on to."""

    device: str
    sort: PartSort
    ways: tuple[WayMessage, ...]


class NextStopsMessage(Message):
    """What may follow some stops, what usually does first; where nothing can, why in words."""

    stops: tuple[NextStopMessage, ...]
    ends: str


class CircuitAsked(Message):
    """A load that no path leads to."""

    load: Named


class RenameAsked(Message):
    """A part, by the path of its fields, and what it is to be called; or a unit's state or terminal."""

    path: tuple[Step, ...] = Field(max_length=5)
    name: Named


class WithoutAsked(Message):
    """A part that is to be taken out, by the path of its fields."""

    path: tuple[Step, ...] = Field(max_length=3)


class OfferMessage(Message):
    """Edits to a version that are offered as one, in words; without edits why none are."""

    version: str
    says: str
    edits: tuple[EditMessage, ...]
