"""A small invented wiring for lists, bundles and boards: two plugs' worth of wires, one loop."""

from functools import lru_cache

from trimwright.build import Build, parse
from trimwright.cabin import Cabin, cabin

LOOM = """build: Wrenfold Teal, its wiring
unit: {unit}
wiring:
  battery: {{at: engine bay, holds: 60 Ah, cranks: 480 A}}
  places:
    - {{name: engine bay}}
    - {{name: fuse box}}
    - {{name: dash}}
    - {{name: tunnel}}
    - {{name: door}}
    - {{name: boot}}
  trunks:
    - {{from: engine bay, to: fuse box, long: 1000 mm, zone: engine bay, hole: 9 mm}}
    - {{from: fuse box, to: dash, long: 600 mm, room: 4 mm}}
    - {{from: dash, to: tunnel, long: 500 mm}}
    - {{from: dash, to: door, long: 700 mm, bends: 10 mm}}
    - {{from: tunnel, to: door, long: 900 mm}}
  feeds:
    - {{name: always, at: fuse box}}
  grounds:
    - {{name: stud, at: dash}}
  fuses:
    - {{name: fuse 1, at: fuse box, rated: 15 A}}
    - {{name: fuse 2, at: fuse box, rated: 15 A}}
    - {{name: fuse 3, at: fuse box, rated: 5 A, type: glass}}
  switches:
    - {{name: lamp switch, at: tunnel, carries: 10 A}}
    - {{name: pump switch, at: tunnel, carries: 10 A}}
  relays:
    - {{name: lamp relay, at: fuse box, coil guard: diode}}
  plugs:
    - {{name: tunnel plug, at: tunnel, cavities: 6}}
    - {{name: door plug, at: door, cavities: 2}}
  splices:
    - {{name: dash joint, at: dash}}
  loads:
    - {{name: lamp, at: engine bay, kind: lamp, takes: 55 W}}
    - {{name: pump, at: door, kind: motor, takes: 4 A}}
    - {{name: clock, at: tunnel, kind: heater, takes: 1 A}}
    - {{name: boot lamp, at: boot, kind: lamp, takes: 5 W}}
  paths:
    - {{name: feed, goes: [battery +, always], size: 6 mm2, colour: RD}}
    - {{name: lamp, goes: [always, fuse 1, lamp relay 30-87, lamp, stud], size: 2.5 mm2, colour: WH}}
    - {{name: lamp worked, goes: [fuse 2, tunnel plug 1, lamp switch, tunnel plug 2,
        lamp relay 86-85, dash joint], size: 0.75 mm2, colour: GYWH}}
    - {{name: pump, goes: [always, fuse 2, tunnel plug 3, pump switch, tunnel plug 4,
        door plug 1, pump, door plug 2, dash joint], colour: GN}}
    - {{name: clock, goes: [always, fuse 3, tunnel plug 5, clock, tunnel plug 2], size: 9 mm2}}
    - {{name: joint, goes: [dash joint, stud], size: 1 mm2, colour: BN}}
    - {{name: boot lamp, goes: [fuse 3, boot lamp, stud], size: 0.75 mm2, colour: BU}}
  bought cables:
    - {{name: aerial lead, from: dash, to: door, long: 800 mm}}
"""


def loom_build(unit: str = "mm") -> Build:
    """Return the build of the invented loom."""
    return parse(LOOM.format(unit=unit)).build


@lru_cache(maxsize=2)
def loom_cabin(unit: str = "mm") -> Cabin:
    """Return its cabin."""
    return cabin(loom_build(unit))
