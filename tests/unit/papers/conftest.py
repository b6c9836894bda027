"""Small builds made by chance, with names as long as names get."""

import random
from collections.abc import Callable

import pytest

from trimwright.build import parse
from trimwright.cabin import Cabin, cabin

LONG = 40  # characters
LETTERS = "abcdefghijklmnopqrstuvwxyz"


def name(rng: random.Random, kind: str) -> str:
    """Return a name of forty characters, some of one long word."""
    words = [kind]
    while len(" ".join(words)) < LONG:
        words.append("".join(rng.choices(LETTERS, k=rng.choice((3, 6, 9, 17)))))
    return " ".join(words)[:LONG].strip().ljust(LONG, "x")


def build_text(seed: int) -> str:
    """Return the text of a build: tunnel, dash, seats, lever and body, some of them left out."""
    rng = random.Random(seed)  # noqa: S311  the same builds each time
    long, high = rng.randrange(180, 320), rng.randrange(110, 170)
    lean, edge = rng.choice((0, 2, 4)), rng.choice(("bevelled", "square", "as suits"))
    parts = [
        f"build: {name(rng, 'Wrenfold')}",
        f"unit: {rng.choice(('mm', 'in'))}",
        "car:",
        "  datum: {marks: two scribed lines, top of tunnel here: bare metal}",
        "  carpet: {loose: 12 mm, squeezed by hand: 6 mm}",
        "  tunnel:",
    ]
    for place in (50, 50 + long):
        half = rng.randrange(70, 110)
        parts += [
            f"    - at: {place} mm behind",
            "      by: contour gauge",
            "      over: bare metal",
            "      top: 200 mm above floor",
            *(
                f"      down {down} mm: {{left: {half + grow} mm, right: {half + grow + 3} mm}}"
                for down, grow in ((10, -30), (40, 0), (90, 20), (150, 30))
            ),
        ]
    if seed % 3:
        parts += [
            "  dash:",
            "    - {at: 20 mm ahead, across: 60 mm left, up: 190 mm}",
            "    - {at: 20 mm ahead, across: 60 mm right, up: 195 mm}",
            "    - {at: 60 mm behind, across: 0, up: 230 mm}",
        ]
    if seed % 4:
        gear = name(rng, "gear")
        parts += [
            "  lever:",
            "    knob: 40 mm",
            "    moves:",
            "      - {gear: neutral, behind datum: 150 mm, above tunnel: 260 mm, off middle: 0}",
            (
                f"      - {{gear: {gear}, behind datum: 190 mm, above tunnel: 255 mm,"
                " off middle: 30 mm left}"
            ),
        ]
    if seed % 2:
        parts += [
            "  bodies:",
            (
                f"    - {{name: {name(rng, 'heater')}, box: {{from: 40 mm ahead, to: 60 mm behind,"
                " left: 90 mm, right: 110 mm, bottom: 120 mm, top: 260 mm}}"
            ),
        ]
    parts += [
        "console:",
        "  sheet: birch plywood 12 mm",
        f"  deck height: {high + 60} mm",
        f"  width: {rng.randrange(190, 250)} mm",
        "  from: 40 mm behind",
        f"  to: {40 + long} mm behind",
        f"  walls: {{lean: {lean} deg, deck joint: rebate}}",
        f"  scribe: {{over: bare metal, edge: {edge}}}",
        "  bulkheads:",
        f"    - {{name: {name(rng, 'bulkhead')}, at: {60 + long // 2} mm behind}}",
        "  openings:",
        (
            f"    - {{name: {name(rng, 'gear lever')}, at: 130 mm behind, long: 60 mm, wide: 70 mm,"
            " corner: 15 mm}"
        ),
        f"  revision: {rng.choice('ABC')}",
        f"  trims: {{nose lower by: {rng.choice((0, 4))} mm}}",
    ]
    return "\n".join(parts) + "\n"


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> Callable[[int], Cabin]:
    """Return what makes the cabin of a random build; nothing rests on carpet: that takes minutes."""
    for slow in ("plan", "pose", "outcome", "bare"):
        monkeypatch.setattr(Cabin, slow, property(lambda _: None))
    return lambda seed: cabin(parse(build_text(seed)).build)
