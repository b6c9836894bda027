"""A wiring of any size: half of its loads behind a switch, half behind a switch and a relay."""

from itertools import count

from trimwright.build import Wiring, parse

NUMBERS = count(1)
HEAD = """build: Dale Merlin
unit: mm
wiring:
  battery: {{at: bay, volts: 12.6 V, inside: {inside} mohm, holds: 60 Ah}}
  alternator: {{at: bay, gives: 90 A, at idle: 40 A, holds: 14.2 V}}
  places: [{{name: bay}}, {{name: box}}, {{name: dash}}, {{name: boot}}]
  trunks:
    - {{from: bay, to: box, long: 1000, zone: engine bay}}
    - {{from: box, to: dash, long: 500}}
    - {{from: box, to: boot, long: 3000}}
  feeds:
    - {{name: always, at: box, live: always, behind: 1 mohm}}
    - {{name: keyed, at: box, live: ignition, behind: 5 mohm}}
  grounds:
    - {{name: bay stud, at: bay, to battery: 1 mohm}}
    - {{name: dash stud, at: dash, to battery: 2 mohm}}
    - {{name: tail stud, at: boot, to battery: 3 mohm}}
"""
KINDS = ("lamp, takes: 21 W", "heater, takes: 2 A", "electronics, takes: 1 A", "motor, takes: 2 A")
MAINS = """    - {name: main, goes: [battery +, main fuse, always], size: 25 mm2}
    - {name: minus, goes: [battery -, bay stud], size: 25 mm2}
    - {name: charging, goes: [alternator B+, battery +], size: 16 mm2}
    - {name: alternator ground, goes: [alternator B-, bay stud], size: 16 mm2}
"""


def wired(loads: int) -> Wiring:
    """Return a wiring with so many loads; no two that are asked for are the same."""
    fuses, switches, relays, told, paths = ["main fuse, at: bay, rated: 80 A"], [], [], [], []
    for n in range(1, loads + 1):
        feed, stud = ("always", "keyed")[n % 2], ("dash stud", "tail stud")[n // 2 % 2]
        fuses.append(f"fuse {n}, at: box, rated: 10 A")
        switches.append(f"switch {n}, at: dash")
        told.append(
            f"load {n}, at: {stud.split()[0].replace('tail', 'boot')}, kind: {KINDS[n % 4]}"
        )
        if n % 4 < 2:
            paths.append(f"{n}, goes: [{feed}, fuse {n}, switch {n}, load {n}, {stud}]")
            continue
        relays.append(f"relay {n}, at: box")
        paths.append(f"{n}, goes: [{feed}, fuse {n}, relay {n} 30-87, load {n}, {stud}]")
        paths.append(f"worked {n}, goes: [fuse {n}, switch {n}, relay {n} 86-85, dash stud]")
    lines = [HEAD.format(inside=8 + next(NUMBERS) / 1000)]
    entries = {"fuses": fuses, "switches": switches, "relays": relays, "loads": told}
    for key, names in entries.items():
        lines += [f"  {key}:\n", *(f"    - {{name: {one}}}\n" for one in names)]
    lines += ["  paths:\n", MAINS]
    lines += [f"    - {{name: path {one}, size: 2.5 mm2}}\n" for one in paths]
    own = parse("".join(lines)).build.wiring
    if own is None:
        raise ValueError("the text must hold a wiring")
    return own
