"""Small invented wirings whose loads trade, share wires and ground, and let go: with few switches."""

import random

from trimwright.build import Wiring, parse

HEAD = """build: Marsh Heron, supply {seed}
unit: mm
wiring:
  battery: {{volts: 12.6 V, inside: {inside} mohm, holds: 60 Ah}}
  alternator: {{gives: {gives} A, at idle: {idle} A, holds: 14.2 V}}
  feeds:
    - {{name: always, live: always, behind: {behind} mohm}}
    - {{name: keyed, live: ignition, behind: {behind} mohm}}
  grounds:
    - {{name: near stud, to battery: 1 mohm}}
    - {{name: far stud, to battery: {far} mohm}}
"""
SIZES = ("0.75 mm2", "1.5 mm2", "2.5 mm2")
KINDS = (
    "kind: lamp, takes: 55 W",
    "kind: lamp, takes: 21 W",
    "kind: heater, takes: 12 A",
    "kind: motor, takes: 7 A, on for: 5 s",
    "kind: electronics, takes: 4 A, cuts out: 10.8 V",
    "kind: electronics, takes: 2 A, cuts out: 9 V",
    "kind: LED, takes: 10 W",
)


class _Made:
    """Entries by their key, and paths."""

    def __init__(self, rng: random.Random) -> None:
        self.rng = rng
        self.entries: dict[str, list[str]] = {
            "fuses": [],
            "switches": [],
            "relays": [],
            "loads": [],
        }
        self.paths: list[tuple[str, str]] = []

    def load(self) -> str:
        name = f"load {len(self.entries['loads']) + 1}"
        self.entries["loads"].append(f"name: {name}, {self.rng.choice(KINDS)}")
        return name

    def fuse(self) -> str:
        """Return a fuse of its own, or one that is there."""
        made = len(self.entries["fuses"])
        if made and self.rng.random() < 0.4:
            return f"fuse {self.rng.randint(1, made)}"
        self.entries["fuses"].append(f"name: fuse {made + 1}, rated: 20 A")
        return f"fuse {made + 1}"

    def path(self, goes: str) -> None:
        self.paths.append((f"path {len(self.paths) + 1}", goes))


def _switched(made: _Made, switch: str) -> None:
    made.entries["switches"].append(f"name: {switch}")
    made.path(f"FEED, {made.fuse()}, {switch}, {made.load()}, STUD")


def _either(made: _Made, switch: str) -> None:
    """Add a switch with one load on either throw."""
    made.entries["switches"].append(f"name: {switch}, contacts: changeover")
    made.path(f"FEED, {made.fuse()}, {switch} in-worked, {made.load()}, STUD")
    made.path(f"{switch} rest, {made.load()}, STUD")


def _kept_out(made: _Made, switch: str) -> None:
    """Add a relay that drops one load while it feeds another."""
    relay = f"relay {switch}"
    made.entries["switches"].append(f"name: {switch}")
    made.entries["relays"].append(f"name: {relay}")
    made.path(f"FEED, {made.fuse()}, {relay} 30-87, {made.load()}, STUD")
    made.path(f"{relay} 87a, {made.load()}, STUD")
    made.path(f"FEED, {switch}, {relay} 86-85, STUD")


def _turned(made: _Made, switch: str) -> None:
    made.entries["switches"].append(f"name: {switch}, contacts: reversing, action: momentary")
    name = f"load {len(made.entries['loads']) + 1}"
    made.entries["loads"].append(f"name: {name}, kind: motor, takes: 8 A, on for: 6 s")
    made.path(f"FEED, {made.fuse()}, {switch} feed")
    made.path(f"{switch} a, {name} a")
    made.path(f"{name} b, {switch} b")
    made.path(f"{switch} ground, STUD")


def _latched(made: _Made, switch: str) -> None:
    """Add a relay that holds itself in once its button was pressed, until a second one is."""
    relay = f"relay {switch}"
    made.entries["switches"].append(f"name: {switch}, action: momentary")
    made.entries["switches"].append(f"name: stop {switch}, contacts: break, action: momentary")
    made.entries["relays"].append(f"name: {relay}")
    made.path(f"FEED, {made.fuse()}, stop {switch}, {relay} 30-87, {made.load()}, STUD")
    made.path(f"stop {switch} out, {switch}, {relay} 86-85, STUD")
    made.path(f"{relay} 87, {relay} 86")


KINDS_OF_TURN = (_switched, _switched, _either, _kept_out, _turned, _latched)


def supply_text(seed: int, turns: int) -> str:
    """Return the text of a build with some switches and what they turn."""
    rng = random.Random(seed)  # noqa: S311  no secret
    made = _Made(rng)
    for number in range(1, turns + 1):
        rng.choice(KINDS_OF_TURN)(made, f"switch {number}")
    figures = {
        "inside": rng.choice((6, 15, 40)),
        "gives": rng.choice((30, 55, 90)),
        "idle": rng.choice((15, 30)),
        "behind": rng.choice((1, 8, 30)),
        "far": rng.choice((2, 10, 40)),
    }
    lines = [HEAD.format(seed=seed, **figures)]
    for key, entries in made.entries.items():
        lines += [f"  {key}:\n", *(f"    - {{{one}}}\n" for one in entries)] if entries else []
    lines.append("  paths:\n")
    for name, told in made.paths:
        goes = told.replace("FEED", rng.choice(("always", "keyed")))
        goes = goes.replace("STUD", rng.choice(("near stud", "far stud", "far stud")))
        lines.append(f"    - {{name: {name}, goes: [{goes}], size: {rng.choice(SIZES)}}}\n")
    names = [f"load {n + 1}" for n, one in enumerate(made.entries["loads"]) if "6 s" not in one]
    if len(names) > 1:
        one, other = rng.sample(names, 2)
        lines.append(f"  signals:\n    - {{name: lead, from: {one}, to: {other}}}\n")
    return "".join(lines)


def supply(seed: int, turns: int) -> Wiring:
    """Return an invented wiring, the same for the same seed."""
    own = parse(supply_text(seed, turns)).build.wiring
    if own is None:
        raise ValueError(f"seed must give a wiring, got none from {seed}")
    return own
