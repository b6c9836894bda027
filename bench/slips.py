"""How often a slip in a section is found, by the way it was written: `python -m bench.slips`.

Seeded invented cars, six sections of twelve places of a lopsided tunnel, every reading with its
noise and one of them off by so much.
"""

import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from trimwright.build import parse
from trimwright.car import adjusted

Floats = NDArray[np.float64]

PLACES = (-120.0, 60.0, 220.0, 380.0, 540.0, 700.0)
DOWN = np.array([10.0, 20, 36, 62, 102, 148])
SPREAD = 0.13  # by how much, of itself, a depth differs from side to side and section to section
NOISE = 0.5  # mm, sigma of a reading
NAILS = np.array([[-250.0, -60], [250, -60]])  # across, down from the top
TURN = np.radians(15)  # how far the second bite of the gauge was turned
BITES = (slice(0, 8), slice(5, 12))  # which points each bite holds: three are in both
SIZES = (3.0, 4.0, 5.0, 6.0, 8.0, 10.0)
HEAD = (
    "build: Larkfield saloon\nunit: mm\ncar:\n  datum: {marks: two lines, top of tunnel here: bare"
    " metal, string above tunnel: 400}\n  floor below string: 580\n  tunnel:\n"
)


@dataclass(frozen=True, slots=True)
class Slip:
    """A reading off by `size` [mm]: in which section, the how-manieth reading of it."""

    section: int
    number: int
    size: float


def half_width(x: float, down: Floats, side: int) -> Floats:
    """Return half widths of a tunnel that bulges ahead and leans right [mm]."""
    wide = 150 + 22 * np.exp(-(((x + 160) / 140) ** 2))
    return np.asarray(wide * (down / 150) ** 0.36 + 5.0 * side * (0.5 - x / 2000))


def top_below_string(x: float) -> float:
    """Return how far the tunnel's top lies below the string [mm]."""
    return float(400 + 0.02 * x - 10 * np.exp(-(((x + 160) / 140) ** 2)))


def outline(x: float, down: tuple[Floats, Floats]) -> Floats:
    """Return the true points of a section, left to right, (12, 2) right and down."""
    left, right = down
    y = np.concatenate([-half_width(x, left, -1)[::-1], half_width(x, right, 1)])
    return np.stack([y, np.concatenate([left[::-1], right])], axis=-1)


def _across(y: float) -> str:
    return f"{abs(y):.3f} {'left' if y < 0 else 'right'}"


def rows(places: Floats, read: Callable[[Floats], Floats]) -> tuple[str, list[str]]:
    """Return a section as half widths at depths, and the key of each reading."""
    wide = read(np.abs(places[:, 0]))
    text, keys = "", [""] * 12
    for n, down in enumerate(DOWN):
        text += f"      down {down:g}: {{left: {wide[5 - n]:.3f}, right: {wide[6 + n]:.3f}}}\n"
        keys[5 - n], keys[6 + n] = f"down {down:g}.left", f"down {down:g}.right"
    return text, keys


def points(places: Floats, read: Callable[[Floats], Floats]) -> tuple[str, list[str]]:
    """Return a section as points, and the key of each reading."""
    taken = read(places.reshape(-1)).reshape(-1, 2)
    lines = [f"        - {_across(y)}, {down:.3f} down\n" for y, down in taken]
    return "      points:\n" + "".join(lines), [f"points.{n // 2}." for n in range(24)]


def bites(places: Floats, read: Callable[[Floats], Floats]) -> tuple[str, list[str]]:
    """Return a section as two bites of a gauge, and the key of each reading."""
    cos, sin = np.cos(TURN), np.sin(TURN)
    own = [places[one] for one in BITES]
    own[1] = (own[1] - places[6]) @ np.array([[cos, -sin], [sin, cos]]) + [5, 40]
    taken = read(np.concatenate(own).reshape(-1)).reshape(-1, 2)
    text, keys, start = "      bites:\n", [], 0
    for number, one in enumerate(BITES):
        text += "        - points:\n"
        for n in range(one.start, one.stop):
            y, down = taken[start + n - one.start]
            letter = f"{'ABC'[n - 5]} at " if 5 <= n < 8 else ""
            text += f"            - {letter}{_across(y)}, {down:.3f} down\n"
            keys += [f"bites.{number}.points.{n - one.start}."] * 2
        start += one.stop - one.start
    return text, keys


def nails(places: Floats, read: Callable[[Floats], Floats]) -> tuple[str, list[str]]:
    """Return a section by distances from two nails, and the key of each reading of its points."""
    off = np.concatenate([places, np.zeros((1, 2))])[:, None] - NAILS
    apart = np.array([NAILS[1, 0] - NAILS[0, 0]])
    taken = read(np.concatenate([np.hypot(*np.moveaxis(off, 2, 0)).reshape(-1), apart]))
    told = [f"from left {a:.3f}, from right {b:.3f}\n" for a, b in taken[:-1].reshape(-1, 2)]
    text = f"      nails:\n        apart: {taken[-1]:.3f}\n        middle: {told[-1]}"
    text += "        points:\n" + "".join(f"          - {one}" for one in told[:-1])
    return text, [f"nails.points.{n // 2}." for n in range(24)]


FORMS = {"rows": rows, "points": points, "bites": bites, "nails": nails}


def car(form: str, seed: int, slip: Slip | None = None) -> tuple[str, str]:
    """Return a car's build file, and the start of the key of the reading that is off."""
    rng = np.random.default_rng(seed)
    text, key = HEAD, ""
    for number, x in enumerate(PLACES):
        spread = 0.0 if form == "rows" else SPREAD
        down = tuple(DOWN * (1 + spread * rng.uniform(-1, 1, 6)) for _ in range(2))
        here = slip if slip is not None and slip.section == number else None

        def read(true: Floats, here: Slip | None = here) -> Floats:
            taken = true + rng.normal(0, NOISE, len(true))
            if here is not None:
                taken[here.number] += here.size
                if (
                    taken[here.number] < 0 < true[here.number]
                ):  # nothing is written as above the top
                    taken[here.number] -= 2 * here.size
            return taken

        way = "behind" if x >= 0 else "ahead"
        top = top_below_string(x) + rng.normal(0, NOISE)
        text += f"    - at: {abs(x):g} {way}\n      by: contour gauge\n"
        text += f"      top: {top:.3f} below string\n"
        told, keys = FORMS[form](outline(x, (down[0], down[1])), read)
        text += told
        if here is not None:
            key = f"car.tunnel.{number}.{keys[here.number]}"
    return text, key


def named(form: str, seed: int, slip: Slip | None = None) -> tuple[bool, bool]:
    """Return whether the reading that is off was named, and whether any other was."""
    text, key = car(form, seed, slip)
    keys = [one.key for one in adjusted(parse(text).build).suspects]
    hits = [bool(key) and one.startswith(key) for one in keys]
    return any(hits), not all(hits)


def slips(form: str, size: float, count: int) -> Iterator[tuple[int, Slip]]:
    """Yield a seed and a slip somewhere in a car, either way, so many times."""
    readings = {"rows": 12, "points": 24, "bites": 30, "nails": 24}[form]
    for seed in range(count):
        rng = np.random.default_rng(1000 + seed)
        way = 1 if rng.integers(2) else -1
        yield seed, Slip(int(rng.integers(6)), int(rng.integers(readings)), way * size)


def main(count: int = 100, clean: int = 200) -> None:
    """Print, for each form, how many slips were found and how many good readings named."""
    for form in FORMS:
        alarms = sum(named(form, seed)[1] for seed in range(clean))
        print(f"{form}: good cars with a reading named: {alarms} of {clean}")
        for size in SIZES:
            found = [named(form, seed, slip) for seed, slip in slips(form, size, count)]
            hits, others = (sum(one[k] for one in found) for k in range(2))
            print(f"{form}: {size:g} mm: found {hits}, another named {others}, of {count}")


if __name__ == "__main__":
    main(*(int(one) for one in sys.argv[1:]))
