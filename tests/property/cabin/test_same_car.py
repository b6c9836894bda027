"""The same car told in another way has the same gaps: mirrored, in inches, moved, reordered.

Everything here is the example that has all of a car, with its figures as written (no draws).
"""

import re
from functools import cache
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import yaml

from trimwright.build import InputError, parse
from trimwright.cabin import Cabin, cabin
from trimwright.checks import clearance

ROOT = Path(__file__).resolve().parents[3]
SAME_MM = 1e-6  # the same figures in another order of adding up
REST_MM = 2e-3  # the rest is found to 1e-3 mm, from another starting point


def demo() -> str:
    """Return the example's text, without comments and with long form lists only."""
    text = (ROOT / "examples" / "dunlin" / "first-measured.yaml").read_text("utf-8")
    return "\n".join(line.split(" #")[0].rstrip() for line in text.splitlines()) + "\n"


@cache
def built(text: str) -> Cabin:
    """Return the cabin of a build file."""
    return cabin(parse(text).build)


def gaps(text: str) -> dict[str, float]:
    """Return every gap as written, by name [mm]."""
    found = built(text)
    assert found.model is not None
    return {gap.name: v for gap, v in zip(found.model.gaps, found.nominal, strict=True)}


def unlike(one: dict[str, float], other: dict[str, float], within: float) -> dict[str, float]:
    """Return the gaps that differ by more than they may, with their difference [mm]."""
    assert sorted(one) == sorted(other)
    return {k: one[k] - other[k] for k in one if abs(one[k] - other[k]) > within}


def swapped(words: str) -> str:
    """Return words with left and right exchanged.

    Examples
    --------
    >>> swapped("80 left, right wall")
    '80 right, left wall'
    """
    return re.sub(r"\b(left|right)\b", lambda m: "right" if m.group() == "left" else "left", words)


def test_a_mirrored_car_has_mirrored_gaps() -> None:
    other = swapped(demo())
    assert "right: 80 left, left: 210 left" in other
    here = {swapped(name): value for name, value in gaps(demo()).items()}
    assert unlike(here, gaps(other), REST_MM) == {}


def test_a_mirrored_car_is_told_the_same() -> None:
    # place, limit, direction and movement of every gap; the words with left and right exchanged
    def told(text: str) -> set[tuple[str, float, str, bool, str]]:
        model = built(text).model
        assert model is not None
        return {(g.name, g.wanted, g.sense, g.moves, clearance.kind(g)) for g in model.gaps}

    here = {(swapped(name), *rest) for name, *rest in told(demo())}
    assert here == told(swapped(demo()))


KEPT = re.compile(r"^ *(?:build|format|seed|certainty|lean):.*$|torque: [^,}]*|M6", re.MULTILINE)
LENGTH = re.compile(r"(?<![\w.])(\d+(?:\.\d+)?)(?! (?:deg|kg|%)|[\w.])")


def in_inches(text: str) -> str:
    """Return the file with every length in inches, to 1e-7 in; degrees, kg and N m stay."""
    text = text.replace("unit: mm", "unit: in")
    ends = [0, *(end for found in KEPT.finditer(text) for end in found.span()), len(text)]
    pieces = [text[a:b] for a, b in pairwise(ends)]
    return "".join(
        piece if k % 2 else LENGTH.sub(lambda m: f"{float(m.group()) / 25.4:.7f}", piece)
        for k, piece in enumerate(pieces)
    )


def test_inches_give_the_same_figures() -> None:
    other = in_inches(demo())
    assert "{at: 2.7559055 ahead, height: 7.2440945}" in other
    assert unlike(gaps(demo()), gaps(other), REST_MM) == {}
    assert built(other).build.unit == "in"


def reordered(place: str) -> str:
    """Return the file with the first two entries of a list of the car turned and put last."""
    held = yaml.safe_load(demo())
    held["car"][place] = held["car"][place][2:] + held["car"][place][:2][::-1]
    return yaml.safe_dump(held, sort_keys=False, allow_unicode=True)


def test_the_order_of_dash_points_does_not_matter() -> None:
    assert unlike(gaps(demo()), gaps(reordered("dash")), SAME_MM) == {}


def test_sections_out_of_order_are_refused_and_never_joined_up_as_they_come() -> None:
    with pytest.raises(InputError, match='found "60 behind"; expected a section behind the one'):
        parse(reordered("tunnel"))


def test_the_order_of_bodies_does_not_matter() -> None:
    held = yaml.safe_load(demo())
    ends = {"from": "200 ahead", "to": "60 ahead", "left": "210 left", "right": "80 left"}
    duct = {"name": "duct", "box": {**ends, "bottom": 138, "top": 300}}
    both = [*held["car"]["bodies"], duct]
    found = []
    for order in (both, both[::-1]):
        held["car"]["bodies"] = order
        found.append(gaps(yaml.safe_dump(held, sort_keys=False, allow_unicode=True)))
    assert unlike(found[0], found[1], SAME_MM) == {}
    assert len(found[0]) == len(gaps(demo())) + 1


LEVEL = """
build: Level tunnel
unit: mm
car:
  carpet: {{loose: 15, squeezed by hand: 6}}
  dash: [{{at: {dash}, across: 60 left, up: 216}}, {{at: {datum}, across: 0, up: 224}},
    {{at: {dash}, across: 60 right, up: 215}}]
  tunnel:
    - {{at: {first}, height above floor: 186, down 15: {{left: 82, right: 84}},
      down 60: {{left: 118, right: 116}}, down 140: {{left: 152, right: 155}}}}
    - {{at: {last}, height above floor: 186, down 15: {{left: 78, right: 79}},
      down 60: {{left: 112, right: 113}}, down 140: {{left: 148, right: 150}}}}
  seats:
    left: {{inner edge low: 142 at 20 up, inner edge high: 138 at 200 up,
      from: {front}, to: {rear}}}
  handbrake:
    pivot: {{behind datum: {pivot}, up: 160, off middle: 10 left}}
    long: 200
    thick: 30
    down: 12 deg
    up: 40 deg
  bodies:
    - name: heater box
      box: {{from: {box}, to: {dash}, left: 150 left, right: 60 left, bottom: 80, top: 240}}
console:
  sheet: birch plywood 12
  deck: [{{at: {start}, height: 190}}, {{at: {end}, height: 198}}]
  widths: [{{at: {start}, left: 104, right: 108}}, {{at: {end}, left: 116, right: 112}}]
  from: {start}
  to: {end}
"""
PLACES = {
    "dash": -80, "datum": 0, "first": -150, "last": 750, "front": 200, "rear": 600,
    "box": -160, "start": -70, "end": 690,
}  # fmt: skip


def level(by: int) -> str:
    """Return a car with a level tunnel, told from marks so much further behind [mm]."""
    told = {name: place - by for name, place in PLACES.items()}
    words = {n: f"{abs(x)} {'ahead' if x < 0 else 'behind'}" for n, x in told.items()}
    return LEVEL.format(**words, pivot=640 - by)


@pytest.mark.parametrize("by", [25, -110])
def test_marks_may_stand_anywhere(by: int) -> None:
    # the tunnel is level, so heights from its top at the marks stay what they are
    assert unlike(gaps(level(0)), gaps(level(by)), REST_MM) == {}
    assert built(level(by)).carcass is not None
    here, there = built(level(0)).carcass, built(level(by)).carcass
    assert here is not None
    assert there is not None
    assert there.centre_mm[0] + by == pytest.approx(here.centre_mm[0], abs=1e-6)


@pytest.mark.parametrize("more", [1.0, 3.0])
def test_carpet_that_turns_out_thicker_never_widens_the_nose_gap(more: float) -> None:
    # it is scribed to the carpet as read; loose and squeezed both turn out thicker
    found = built(level(0))
    assert found.model is not None
    keys = ("car.carpet.loose", "car.carpet.squeezed by hand")
    rows = np.zeros((2, len(found.ledger)))
    for key in keys:
        column = found.ledger.index(key)
        rows[1, column] = more / found.ledger.factors[column].doubt.sigma
    values = found.model.evaluate(rows).values[:, 0]
    assert found.model.gaps[0].name == "nose to dash"
    assert values[1] < values[0] - 0.5 * more
