"""A small sound wiring in which every key of the schema has a say, as text."""

from collections.abc import Iterator
from functools import cache

from trimwright.build import Build, Entry, Wiring, assumed, parse
from trimwright.build.walk import held
from trimwright.checks.wiring.rules import RULES
from trimwright.findings import Finding
from trimwright.wiring import wiring_outcome

TEXT = """build: Larkspur estate, all of its wiring
unit: mm
wiring:
  battery: {at: bay, volts: 12.6 V, holds: 60 Ah, cranks: 540 A, inside: 10 mohm, parked for: 14 days, idles for: 60 min, left on for: 45 min, starter takes: 120 A}
  alternator: {at: bay, gives: 55 A, at idle: 30 A, holds: 14.2 V}
  places:
    - {name: bay, at: 1300 ahead, off middle: 300 left, up: 200 up}
    - {name: box, at: 500 ahead, off middle: 400 left, up: 100 up}
    - {name: dash, at: 200 ahead, off middle: 0, up: 250 up}
    - {name: boot}
  trunks:
    - {from: bay, to: box, long: 1000, zone: engine bay, hole: 30, room: 30, bends: 120}
    - {from: box, to: dash}
    - {from: box, to: boot, long: 3000, laid: bundle, relief: none}
  feeds:
    - {name: always, at: box, live: always, behind: 2 mohm}
    - {name: ignition, at: box, live: ignition, cranking: dies, behind: 5 mohm, carries: 30 A}
  grounds:
    - {name: bay stud, at: bay, to battery: 1 mohm}
    - {name: dash stud, at: dash, to battery: 2 mohm}
    - {name: tail stud, at: boot, to battery: 3 mohm}
  fuses:
    - {name: main fuse, at: bay, rated: 40 A}
    - {name: fuse 1, at: box, rated: 15 A, type: blade, breaks: 2000 A}
    - {name: fuse 2, at: box, rated: 5 A}
    - {name: fuse 3, at: box, rated: 5 A}
  switches:
    - {name: heater switch, at: dash, contacts: make, action: latching, carries: 20 A}
    - {name: pump switch, at: dash, carries: 1 A}
    - {name: door switch, at: boot, contacts: make, action: momentary, worked by: boot open, carries: 10 A}
  relays:
    - {name: pump relay, at: box, coil: 90 ohm, carries: 30 A, coil guard: resistor}
  units:
    - name: lock unit
      at: boot
      terminals: [30, 31, 50, button]
      states: [asleep, opening]
      moves:
        - {from: asleep, to: opening, when: [lock unit button live]}
        - {from: opening, to: asleep, when: [not lock unit button live], waits: 1 s}
      outputs:
        - {name: lock output, joins: [30, 50], in: [opening]}
  plugs:
    - {name: boot plug, at: boot, cavities: 4, carries: 15 A}
  splices:
    - {name: boot splice, at: boot}
  loads:
    - {name: heater, at: boot, kind: heater, takes: 6 A, measured at: 12 V, live: ignition, worked by: heater switch}
    - {name: pump, at: boot, kind: motor, takes: 4 A, starts with: 12 A, on for: 20 s}
    - {name: radio, at: dash, kind: electronics, takes: 1 A, cuts out: 9 V, asleep: 4 mA}
    - {name: lock, at: boot, kind: solenoid, takes: 3 A, on for: 0.5 s, opens: tailgate, by hand: cord behind the trim}
  paths:
    - {name: main, goes: [battery +, main fuse, always], size: 16 mm2, colour: RD}
    - {name: minus, goes: [battery -, bay stud], size: 16 mm2}
    - {name: charging, goes: [alternator B+, battery +], size: 10 mm2}
    - {name: alternator ground, goes: [alternator B-, bay stud], size: 10 mm2}
    - {name: keyed, goes: [always, ignition], size: 16 mm2}
    - {name: heater, goes: [ignition, fuse 1, heater switch, boot plug 1, heater, boot splice, tail stud], size: 2.5 mm2}
    - {name: pump, goes: [fuse 1, pump relay 30-87, boot plug 2, pump, boot splice], size: 2.5 mm2}
    - {name: pump worked, goes: [ignition, fuse 2, pump switch, pump relay 86-85, dash stud], size: 1 mm2}
    - {name: radio, goes: [fuse 2, radio, dash stud], size: 1 mm2}
    - {name: lock fed, goes: [always, fuse 3, boot plug 3, lock unit 30], size: 1.5 mm2}
    - {name: lock, goes: [lock unit 50, lock, tail stud], size: 1.5 mm2}
    - {name: lock button, goes: [boot plug 3, door switch, lock unit button], size: 1 mm2}
    - {name: lock ground, goes: [lock unit 31, tail stud], size: 1 mm2}
  bought cables:
    - {name: aerial lead, from: dash, to: boot, long: 4400}
  signals:
    - {name: audio in, from: radio, to: heater, disturbed by: 500 mV}
  rules:
    - {never: heater, while: [key at accessory], except: [boot open]}
    - {always: heater, while: [key at ignition and heater switch worked]}
  readings:
    - {reading: heater, reads: 11.9 V}
  prices:
    - {of: blade fuse, costs: 0.40}
  insulation: 105 C
  tail: 100
  slack: 30
"""

Step = str | int
READING = """  readings:
    - {reading: heater, reads: 11.9 V}
"""

RULES_TEXT = """  rules:
    - {never: heater, while: [key at accessory], except: [boot open]}
    - {always: heater, while: [key at ignition and heater switch worked]}
"""


def quick(*kept: Step) -> str:
    """Return the text without its rules and reading, which take long, but for a key below them."""
    text = TEXT if "readings" in kept else TEXT.replace(READING, "")
    return text if "rules" in kept else text.replace(RULES_TEXT, "")


def said(build: Build) -> dict[tuple[str, str], Finding]:
    """Return what the rules of the wiring say of a build, by rule and place."""
    if build.wiring is None:
        return {}
    found = wiring_outcome(build.wiring, build.unit)
    told = [one for rule in RULES for one in rule.findings(found, build.unit)]
    by_place = {(one.rule, one.place): one for one in told}
    assert len(by_place) == len(told)  # no two findings of one rule have one place
    return by_place


@cache
def sound() -> tuple[dict[tuple[str, str], Finding], frozenset[str]]:
    """Return what is said of the whole text, and the keys whose figure is assumed."""
    build = parse(TEXT).build
    return said(build), frozenset(one.key for one in assumed(build))


def entries(wiring: Wiring) -> Iterator[Entry]:
    """Yield a wiring and every entry below it."""
    yield wiring
    yield from (entry for _, _, entry in held(wiring))
