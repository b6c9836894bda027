"""What is wired: the battery and what charges it, feeds, fuses, switches, relays, loads, plugs.

Figures here are chosen or read off a maker's plate, so they carry no doubt.
"""

import re
from typing import ClassVar, Literal

from trimwright.build.entry import Entry
from trimwright.build.field import key, maybe, otherwise
from trimwright.build.form import Split
from trimwright.build.kind import (
    ChosenCharge,
    ChosenCount,
    ChosenCurrent,
    ChosenPower,
    ChosenResistance,
    ChosenTime,
    ChosenVoltage,
)

Live = Literal["always", "accessory", "ignition", "start"]
Contacts = Literal["make", "break", "changeover", "reversing"]
LoadKind = Literal["lamp", "LED", "heater", "motor", "solenoid", "electronics"]
PLACE, PLACE_EXAMPLE = "Its place, by name.", "fuse box"


class Battery(Entry):
    """The battery. Its posts are called `battery +` and `battery -` in a path."""

    at: str | None = maybe("at", PLACE, "engine bay")
    volts: ChosenVoltage = otherwise("volts", "Charged and at rest.", "12.6 V")
    holds: ChosenCharge | None = maybe("holds", "Its capacity.", "60 Ah")
    cranks: ChosenCurrent | None = maybe("cranks", "Its cold cranking current.", "540 A")
    inside: ChosenResistance | None = maybe("inside", "Its inner resistance.", "8 mohm")
    parked_for: ChosenTime = otherwise(
        "parked for", "How long it may stand and still start.", "21 days"
    )
    idles_for: ChosenTime = otherwise(
        "idles for", "How long it may idle with all on and still start.", "60 min"
    )
    left_on_for: ChosenTime = otherwise(
        "left on for", "How long what is forgotten may be on and it still starts.", "60 min"
    )
    starter_takes: ChosenCurrent = otherwise(
        "starter takes", "What the starter takes while cranking.", "150 A"
    )


class Alternator(Entry):
    """What charges the battery. Its terminals are `alternator B+`, `D+` and `B-` in a path."""

    at: str | None = maybe("at", PLACE, "engine bay")
    gives: ChosenCurrent = key("gives", "Its current at speed.", "55 A")
    at_idle: ChosenCurrent | None = maybe("at idle", "Its current hot and idling.", "22 A")
    holds: ChosenVoltage = otherwise("holds", "The voltage it is regulated to.", "14.2 V")


class Feed(Entry):
    """A point that is live with the key in some position."""

    name: str = key("name", "What it is called in paths.", "ignition feed")
    at: str | None = maybe("at", PLACE, PLACE_EXAMPLE)
    live: Live = otherwise("live", "From which position of the key on.", "always")
    cranking: Literal["stays", "dies"] = otherwise(
        "cranking", "Whether it stays live while the starter turns.", "stays"
    )
    behind: ChosenResistance = otherwise(
        "behind", "Resistance of what lies between it and the battery.", "10 mohm"
    )
    carries: ChosenCurrent | None = maybe("carries", "The most that may be drawn here.", "30 A")


class Ground(Entry):
    """A point of the body where ground wires end."""

    name: str = key("name", "What it is called in paths.", "tail stud")
    at: str | None = maybe("at", PLACE, "boot left")
    to_battery: ChosenResistance = otherwise(
        "to battery", "Resistance of body and strap from here to the battery.", "3 mohm"
    )


class Fuse(Entry):
    """A fuse in its holder."""

    name: str = key("name", "What it is called in paths.", "fuse 7")
    at: str | None = maybe("at", PLACE, PLACE_EXAMPLE)
    rated: ChosenCurrent = key("rated", "What is printed on it.", "15 A")
    type: Literal["blade", "glass", "bolted"] = otherwise(
        "type", "How it is made; bolted is a strip under two nuts.", "blade"
    )
    breaks: ChosenCurrent | None = maybe(
        "breaks", "The most it can break at 12 V, off its maker's sheet.", "1000 A"
    )


class Switch(Entry):
    """A switch worked by hand, by a door, a pedal or the engine.

    In a path `make` and `break` contacts need no terminals; a `changeover` has `in`, `rest` and
    `worked`; a `reversing` one has `feed`, `ground`, `a` and `b`, and rests with a and b grounded.
    """

    name: str = key("name", "What it is called in paths and rules.", "fog switch")
    at: str | None = maybe("at", PLACE, "console")
    contacts: Contacts = otherwise("contacts", "What it does when it is worked.", "make")
    action: Literal["latching", "momentary"] = otherwise(
        "action", "Whether it stays where it is put.", "latching"
    )
    worked_by: str | None = maybe("worked by", "What works it, if not a hand.", "left door open")
    carries: ChosenCurrent | None = maybe("carries", "What its contacts are rated for.", "10 A")


class Relay(Entry):
    """A relay. Its terminals are numbered after DIN 72552: 30, 87, 87a, 85, 86."""

    name: str = key("name", "What it is called in paths and rules.", "fog relay")
    at: str | None = maybe("at", PLACE, PLACE_EXAMPLE)
    coil: ChosenResistance = otherwise("coil", "Resistance of its coil.", "90 ohm")
    carries: ChosenCurrent = otherwise("carries", "What contact 87 is rated for.", "30 A")
    coil_guard: Literal["none", "resistor", "diode"] = otherwise(
        "coil guard", "What takes up the coil's kick when it is switched off.", "none"
    )


class Load(Entry):
    """What the current is for. Its terminals are `+` and `-`, of a motor also `a` and `b`."""

    name: str = key("name", "What it is called in paths and rules.", "fog lamps")
    at: str | None = maybe("at", PLACE, "nose")
    kind: LoadKind = key("kind", "What sort of load it is.", "lamp")
    power: ChosenPower | None = None
    current: ChosenCurrent | None = None
    at_volts: ChosenVoltage = otherwise(
        "measured at", "The voltage at which it takes this.", "13.5 V"
    )
    starts_with: ChosenCurrent | None = maybe(
        "starts with", "What it takes at first: a motor held fast, a cold lamp.", "25 A"
    )
    on_for: ChosenTime | None = maybe("on for", "How long at a time, if short.", "1 s")
    cuts_out: ChosenVoltage | None = maybe("cuts out", "Below this it stops working.", "10.5 V")
    asleep: ChosenCurrent | None = maybe("asleep", "What it takes when all is off.", "12 mA")
    live: Live | None = maybe("live", "With which position of the key it may be on.", "ignition")
    worked_by: str | None = maybe(
        "worked by", "The switch that is to work it, where no path leads to it yet.", "fog switch"
    )
    opens: str | None = maybe("opens", "The way out that it unlatches.", "tailgate")
    by_hand: str | None = maybe(
        "by hand", "How that way out opens without power.", "cord behind the boot trim"
    )
    SPLITS: ClassVar[dict[str, Split]] = {
        "takes": Split(
            re.compile(r"(?P<power>.*\d *(?:W|watts?))|(?P<current>.*\d *(?:m?A|amps?))"),
            "a power or a current",
            "8 A",
            alike=("power", "current"),
        )
    }


class Plug(Entry):
    """A pair of connector halves; a path names the cavity it goes through: `console plug 3`."""

    name: str = key("name", "What it is called in paths.", "console plug")
    at: str | None = maybe("at", PLACE, "tunnel front")
    cavities: ChosenCount = key("cavities", "How many cavities it has.", "8")
    carries: ChosenCurrent | None = maybe("carries", "What one cavity is rated for.", "15 A")


class Splice(Entry):
    """A joint of three wires or more."""

    name: str = key("name", "What it is called in paths.", "lamp splice")
    at: str | None = maybe("at", PLACE, "dash middle")
