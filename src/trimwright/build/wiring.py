"""The wiring as the builder wants it: what is wired, where it sits, the paths and the rules."""

from typing import Literal

from trimwright.build.entry import Entry
from trimwright.build.field import key, maybe, otherwise, several
from trimwright.build.kind import (
    ChosenAcross,
    ChosenAlong,
    ChosenLength,
    ChosenPrice,
    ChosenUp,
    ChosenVoltage,
    ChosenWarmth,
    ChosenWireSize,
    MeterVoltage,
)
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
from trimwright.build.wiring_hinge import Hinge
from trimwright.build.wiring_lying import LyingPoint
from trimwright.build.wiring_unit import ControlUnit

Zone = Literal["cabin", "boot", "engine bay", "by the exhaust"]


class WiringPlace(Entry):
    """A place that wires go to."""

    name: str = key("name", "What it is called.", "fuse box")
    at: ChosenAlong | None = maybe("at", "Where, along the car.", "420 ahead")
    off_middle: ChosenAcross | None = maybe("off middle", "Where, across the car.", "380 right")
    up: ChosenUp | None = maybe("up", "How high.", "60 up")


class Trunk(Entry):
    """A way that wires are laid along, from place to place."""

    start: str = key("from", "The place where it begins.", "fuse box")
    end: str = key("to", "The place where it ends.", "tunnel front")
    long: ChosenLength | None = maybe(
        "long", "Its length as the wires lie; without it, straight from place to place.", "640"
    )
    zone: Zone = otherwise("zone", "What it runs through.", "cabin")
    hole: ChosenLength | None = maybe("hole", "Clear width of its narrowest hole.", "22")
    room: ChosenLength | None = maybe("room", "Thickness there is for it, as under carpet.", "12")
    bends: ChosenLength | None = maybe("bends", "Radius of its tightest bend.", "40")
    under_carpet: tuple[LyingPoint, ...] = several(
        "under carpet",
        "Where it lies on the metal under the carpet, straight from place to place.",
        "300 behind, 70 right",
    )
    laid: Literal["bundle", "flat"] = otherwise(
        "laid", "Whether its wires lie in a bundle, or side by side.", "bundle"
    )
    relief: Literal["none", "cut"] = otherwise(
        "relief", "Whether the console's lower edges are cut out over it.", "none"
    )
    hinge: Hinge | None = maybe(
        "hinge",
        "A hinge it crosses; what is free there is not part of its length.",
        "{body hole: 60, door hole: 85, ...}",
    )


class WirePath(Entry):
    """A current path: what a current goes through, one after the other, each joined by a wire."""

    name: str = key("name", "What it is for, in a few words.", "fog lamps")
    goes: tuple[str, ...] = key(
        "goes",
        "What it goes through, in order.",
        "[always, fuse 7, fog switch, fog lamps, tail stud]",
    )
    size: ChosenWireSize | None = maybe("size", "Size of its wires.", "1.5 mm2")
    colour: str | None = maybe("colour", "Colour of its wires, after IEC 60757.", "BKRD")


class BoughtCable(Entry):
    """A cable that is bought with its plugs on, so its length cannot be changed."""

    name: str = key("name", "What it is called.", "charger lead")
    start: str = key("from", "The place where it begins.", "dash middle")
    end: str = key("to", "The place where it ends.", "console")
    long: ChosenLength = key("long", "Its length.", "900")


class Signal(Entry):
    """A signal lead between two devices, which hears the difference of their grounds."""

    name: str = key("name", "What it is called.", "audio in")
    start: str = key("from", "The load that sends.", "charger")
    end: str = key("to", "The load that hears.", "amplifier")
    disturbed: ChosenVoltage = otherwise(
        "disturbed by", "How far apart their grounds may be.", "50 mV"
    )


class WiringRule(Entry):
    """What a load must do, or must never do, in every state."""

    never: str | None = maybe("never", "The load that must not be on.", "fuel pump")
    always: str | None = maybe("always", "The load that must be on.", "stop lamps")
    when: tuple[str, ...] = key("while", "In which states: any of these.", "[engine stalled]")
    excepting: tuple[str, ...] = several("except", "Unless one of these.", "[priming]")


class MeterReading(Entry):
    """What a meter read, at one of the places that the meter sheet names."""

    reading: str = key("reading", "Where it was read, in the meter sheet's words.", "fog lamps")
    reads: MeterVoltage = key("reads", "What the meter said.", "11.9 V")


class Price(Entry):
    """What something on the buying list costs: each, or a metre or a foot of wire."""

    of: str = key("of", "How its row on the buying list begins.", "blade fuse")
    costs: ChosenPrice = key("costs", "What one costs, in your own money.", "1.20")


class Wiring(Entry):
    """Everything electrical: sources, devices, places, current paths, and rules they must keep."""

    battery: Battery | None = maybe("battery", "The battery.", "{holds: 60 Ah}")
    alternator: Alternator | None = maybe("alternator", "What charges it.", "{gives: 55 A}")
    places: tuple[WiringPlace, ...] = several(
        "places", "Places.", "{name: fuse box, at: 420 ahead}"
    )
    trunks: tuple[Trunk, ...] = several("trunks", "Ways for wires.", "{from: fuse box, to: nose}")
    feeds: tuple[Feed, ...] = several("feeds", "Live points.", "{name: always}")
    grounds: tuple[Ground, ...] = several("grounds", "Ground points.", "{name: tail stud}")
    fuses: tuple[Fuse, ...] = several("fuses", "Fuses.", "{name: fuse 7, rated: 15 A}")
    switches: tuple[Switch, ...] = several("switches", "Switches.", "{name: fog switch}")
    relays: tuple[Relay, ...] = several("relays", "Relays.", "{name: fog relay}")
    units: tuple[ControlUnit, ...] = several(
        "units", "Control units.", "{name: start unit, states: ...}"
    )
    plugs: tuple[Plug, ...] = several("plugs", "Plugs.", "{name: console plug, cavities: 8}")
    splices: tuple[Splice, ...] = several("splices", "Joints.", "{name: lamp splice}")
    loads: tuple[Load, ...] = several("loads", "Loads.", "{name: fog lamps, kind: lamp}")
    paths: tuple[WirePath, ...] = several("paths", "Current paths.", "{name: fog lamps, goes: ...}")
    bought_cables: tuple[BoughtCable, ...] = several(
        "bought cables", "Cables of fixed length.", "{name: charger lead, long: 900}"
    )
    signals: tuple[Signal, ...] = several("signals", "Signal leads.", "{name: audio in}")
    rules: tuple[WiringRule, ...] = several("rules", "Interlocks.", "{never: fuel pump}")
    readings: tuple[MeterReading, ...] = several(
        "readings", "What a meter read.", "{reading: fog lamps, reads: 11.9 V}"
    )
    prices: tuple[Price, ...] = several(
        "prices", "What things on the buying list cost.", "{of: blade fuse, costs: 0.40}"
    )
    insulation: ChosenWarmth = otherwise(
        "insulation", "The warmest its wires' insulation may be.", "105 C"
    )
    tail: ChosenLength = otherwise(
        "tail", "Wire added at each end, to strip, crimp and hold.", "100 mm"
    )
    slack: ChosenLength = otherwise("slack", "Slack added to each metre of a wire.", "30 mm")
