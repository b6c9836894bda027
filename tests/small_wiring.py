"""A small invented wiring as text, to be changed line by line in tests."""

from trimwright.build import Build, Wiring, parse
from trimwright.cabin import cabin
from trimwright.checks import all_findings
from trimwright.findings import Finding
from trimwright.wiring import WiringOutcome, wiring_outcome

SMALL = """build: Larkspur estate, its wiring
unit: mm
wiring:
  battery: {at: bay, volts: 12.6 V, inside: 10 mohm, holds: 60 Ah}
  alternator: {at: bay, gives: 55 A, at idle: 30 A, holds: 14.2 V}
  places:
    - {name: bay}
    - {name: box}
    - {name: dash}
    - {name: boot}
  trunks:
    - {from: bay, to: box, long: 1000, zone: engine bay}
    - {from: box, to: dash, long: 500}
    - {from: box, to: boot, long: 3000}
  feeds:
    - {name: always, at: box, live: always, behind: 2 mohm}
    - {name: ignition, at: box, live: ignition, behind: 5 mohm}
  grounds:
    - {name: bay stud, at: bay, to battery: 1 mohm}
    - {name: dash stud, at: dash, to battery: 2 mohm}
    - {name: tail stud, at: boot, to battery: 3 mohm}
  fuses:
    - {name: main fuse, at: bay, rated: 40 A}
    - {name: fuse 1, at: box, rated: 10 A}
    - {name: fuse 2, at: box, rated: 5 A}
  switches:
    - {name: heater switch, at: dash, carries: 20 A}
    - {name: lamp switch, at: dash, carries: 10 A}
  loads:
    - {name: heater, at: boot, kind: heater, takes: 6 A, measured at: 12 V}
    - {name: lamp, at: dash, kind: LED, takes: 6 W}
  paths:
    - {name: main, goes: [battery +, main fuse, always], size: 16 mm2}
    - {name: minus, goes: [battery -, bay stud], size: 16 mm2}
    - {name: charging, goes: [alternator B+, battery +], size: 10 mm2}
    - {name: alternator ground, goes: [alternator B-, bay stud], size: 10 mm2}
    - {name: keyed, goes: [always, ignition], size: 16 mm2}
    - {name: heater, goes: [ignition, fuse 1, heater switch, heater, tail stud], size: 4 mm2}
    - {name: lamp, goes: [always, fuse 2, lamp switch, lamp, dash stud], size: 1 mm2}
"""


def changed(*swaps: tuple[str, str], more: str = "") -> str:
    """Return the text with words replaced, each of which stands in it, and lines added."""
    text = SMALL
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new)
    return text + more


def build(*swaps: tuple[str, str], more: str = "") -> Build:
    """Return the build of a changed text."""
    return parse(changed(*swaps, more=more)).build


def wiring(*swaps: tuple[str, str], more: str = "") -> Wiring:
    """Return the wiring of a changed text."""
    found = build(*swaps, more=more).wiring
    assert found is not None
    return found


def outcome(*swaps: tuple[str, str], more: str = "") -> WiringOutcome:
    """Return everything computed of a changed text's wiring."""
    return wiring_outcome(wiring(*swaps, more=more), "mm")


def told(text: str) -> dict[str, Finding]:
    """Return the findings of a text by their place."""
    return {one.place: one for one in all_findings(cabin(parse(text).build))}
