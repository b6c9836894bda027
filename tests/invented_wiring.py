"""Invented wirings: circuits of every kind that a build may have, some of them odd."""

import random
from collections.abc import Callable

from trimwright.build import Wiring, parse

SIZES = ("0.5 mm2", "0.75 mm2", "1.5 mm2", "2.5 mm2", "6 mm2", None)
COLOURS = ("RD", "BK", "GNWH", "BUYE", "VT", "GYRD", "BN", None)
KINDS = ("lamp", "LED", "heater", "motor", "solenoid", "electronics")
FEEDS = ("always", "accessory feed", "ignition feed", "start feed")
LIVE = ("always", "accessory", "ignition", "start")
LONG = ("left", "rear passenger side", "dashboard", "auxiliary", "under bonnet", "x")
PLACES = ("fuse box", "dash", "boot", "nose")


class Invented:
    """Grows the entries of a wiring, circuit by circuit."""

    def __init__(self, rng: random.Random) -> None:
        """Begin with feeds, grounds and nothing else."""
        self.rng = rng
        self.entries: dict[str, list[str]] = {
            "places": [f"{{name: {one}}}" for one in PLACES],
            "feeds": [],
            "grounds": [f"{{name: stud {n}, at: {rng.choice(PLACES)}}}" for n in range(1, 5)],
        }
        self.paths: list[list[str]] = []
        for name, live in zip(FEEDS, LIVE, strict=True):
            self.entries["feeds"].append(f"{{name: {name}, at: fuse box, live: {live}}}")

    def add(self, kind: str, name: str, *more: str) -> str:
        """Add a device and return its name."""
        place = f"at: {self.rng.choice(PLACES)}" if self.rng.random() < 0.8 else ""
        told = ", ".join(one for one in (f"name: {name}", place, *more) if one)
        self.entries.setdefault(kind, []).append(f"{{{told}}}")
        return name

    def load(self, number: int) -> tuple[str, str]:
        """Add a load and return its name and kind."""
        kind = self.rng.choice(KINDS)
        name = f"{self.rng.choice(LONG)} {kind} {number}"
        takes = self.rng.choice(("takes: 8 A", "takes: 21 W"))
        return self.add("loads", name, f"kind: {kind}", takes), kind

    def fuse(self, number: int) -> str:
        """Add a fuse, mostly in the fuse box with its feed."""
        name = f"fuse {number}"
        place = "at: fuse box, " if self.rng.random() < 0.7 else ""
        self.entries.setdefault("fuses", []).append(f"{{name: {name}, {place}rated: 10 A}}")
        return name

    def feed(self) -> str:
        """Return a feed."""
        return self.rng.choice(FEEDS[:3])

    def stud(self) -> str:
        """Return a ground."""
        return f"stud {self.rng.randint(1, 4)}"


def _lone(made: Invented, n: int) -> None:
    load, _ = made.load(n)
    made.paths.append([made.feed(), made.fuse(n), load, made.stud()])


def _switched(made: Invented, n: int) -> None:
    load, _ = made.load(n)
    how = made.rng.choice(("contacts: break", "action: momentary", "worked by: door open", ""))
    switch = made.add("switches", f"{made.rng.choice(LONG)} switch {n}", how)
    plug = made.add("plugs", f"plug {n}", "cavities: 4")
    made.paths.append(
        [made.feed(), made.fuse(n), f"{plug} 1", switch, f"{plug} 2", load, made.stud()]
    )


def _relayed(made: Invented, n: int) -> None:
    load, _ = made.load(n)
    relay = made.add("relays", f"{made.rng.choice(LONG)} relay {n}")
    switch = made.add("switches", f"switch {n}")
    throw = made.rng.choice(("87", "87a"))
    made.paths.append([made.feed(), made.fuse(n), f"{relay} 30-{throw}", load, made.stud()])
    made.paths.append([f"fuse {n}", switch, f"{relay} 86-85", made.stud()])


def _both_throws(made: Invented, n: int) -> None:
    one, _ = made.load(n)
    other, _ = made.load(n + 100)
    relay = made.add("relays", f"relay {n}")
    made.paths.append([made.feed(), made.fuse(n), f"{relay} 30-87", one, made.stud()])
    made.paths.append([f"{relay} 87a", other, made.stud()])
    made.paths.append([made.feed(), f"{relay} 85-86", made.stud()])


def _reversed(made: Invented, n: int) -> None:
    motor = made.add("loads", f"window {n}", "kind: motor", "takes: 8 A")
    switch = made.add("switches", f"window switch {n}", "contacts: reversing, action: momentary")
    made.paths.append([made.feed(), made.fuse(n), f"{switch} feed"])
    made.paths.append([f"{switch} a", f"{motor} a"])
    made.paths.append([f"{motor} b", f"{switch} b"])
    made.paths.append([f"{switch} ground", made.stud()])


def _changeover(made: Invented, n: int) -> None:
    one, _ = made.load(n)
    other, _ = made.load(n + 100)
    switch = made.add("switches", f"two way {n}", "contacts: changeover")
    made.paths.append([made.feed(), made.fuse(n), f"{switch} in-worked", one, made.stud()])
    made.paths.append([f"{switch} rest", other, made.stud()])


def _series(made: Invented, n: int) -> None:
    one, _ = made.load(n)
    other, _ = made.load(n + 100)
    made.paths.append([made.feed(), made.fuse(n), one, other, made.stud()])


def _between_feeds(made: Invented, n: int) -> None:
    lamp = made.add("loads", f"telltale {n}", "kind: lamp", "takes: 2 W")
    made.paths.append(["always", made.fuse(n), f"{lamp} +"])
    made.paths.append(["ignition feed", f"{lamp} -"])


def _spliced(made: Invented, n: int) -> None:
    splice = made.add("splices", f"splice {n}")
    made.paths.append([made.feed(), made.fuse(n), splice])
    for k in range(made.rng.randint(2, 4)):
        load, _ = made.load(n + 100 * (k + 1))
        made.paths.append([splice, load, made.stud()])


def _latched(made: Invented, n: int) -> None:
    relay = made.add("relays", f"holding relay {n}")
    button = made.add("switches", f"button {n}", "action: momentary")
    load, _ = made.load(n)
    made.paths.append([made.feed(), made.fuse(n), f"{relay} 30-87", load, made.stud()])
    made.paths.append([f"{relay} 87-86"])
    made.paths[-1] = [f"{relay} 87", f"{relay} 86"]
    made.paths.append([f"fuse {n}", button, f"{relay} 86-85", made.stud()])


CIRCUITS: tuple[Callable[[Invented, int], None], ...] = (
    _lone, _switched, _relayed, _both_throws, _reversed, _changeover, _series, _between_feeds,
    _spliced, _latched,
)  # fmt: skip


def _odd(made: Invented) -> None:
    """Join terminals that nobody would, as long as the schema lets them."""
    known = [one for path in made.paths for one in path if not one.startswith("plug")]
    for _ in range(made.rng.randint(1, 5)):
        pair = made.rng.sample(known, 2)
        if not _of_one(*pair):
            made.paths.append(pair)


def _of_one(one: str, other: str) -> bool:
    """Return whether two stops are, or may be, at one terminal."""
    heads = {text.rsplit(" ", 1)[0] for text in (one, other)}
    return one == other or (len(heads) == 1 and ("relay" in one or "switch" in one))


def wiring_text(seed: int, circuits: int) -> str:
    """Return the text of a build with a number of circuits, the same for the same seed."""
    rng = random.Random(seed)  # noqa: S311  the same wirings each time
    made = Invented(rng)
    if rng.random() < 0.7:
        made.paths += [["battery +", "always"], ["battery -", "stud 1"]]
        made.paths += [["always", "accessory feed"], ["always", "ignition feed"]]
    for number in range(1, circuits + 1):
        rng.choice(CIRCUITS)(made, number)
    if seed % 3 == 0:
        _odd(made)
    lines = [f"build: Harlow Petrel {seed}", "unit: mm", "wiring:", "  battery: {holds: 60 Ah}"]
    for kind, some in made.entries.items():
        lines += [f"  {kind}:", *(f"    - {one}" for one in some)]
    lines.append("  paths:")
    lines += [f"    - {_path(n, goes, rng)}" for n, goes in enumerate(made.paths)]
    return "\n".join(lines) + "\n"


def _path(number: int, goes: list[str], rng: random.Random) -> str:
    """Return a path as it is written."""
    size, colour = rng.choice(SIZES), rng.choice(COLOURS)
    told = [f"name: path {number}", f"goes: [{', '.join(goes)}]"]
    told += [f"size: {size}"] if size else []
    told += [f"colour: {colour}"] if colour else []
    return f"{{{', '.join(told)}}}"


def invented_wiring(seed: int, circuits: int) -> Wiring:
    """Return an invented wiring.

    Raises
    ------
    ValueError
        If it cannot be read, which is a fault of this module.
    """
    own = parse(wiring_text(seed, circuits)).build.wiring
    if own is None:
        raise ValueError(f"seed must give a wiring, got none from {seed}")
    return own
