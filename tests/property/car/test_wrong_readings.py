"""Slips in sections of every form: found, named by their key, and not seen where there are none."""

import re
from collections.abc import Callable

import numpy as np
import pytest

from bench.slips import (
    DOWN,
    FORMS,
    HEAD,
    PLACES,
    Slip,
    car,
    named,
    outline,
    points,
    slips,
    top_below_string,
)
from trimwright.build import edited, parse
from trimwright.car import Suspect, adjusted
from trimwright.car.curve import Curve
from trimwright.car.shape import shape_of
from trimwright.car.suspicion import turned
from trimwright.findings import Edit

SEEDS = 20
FIELDS = {
    "rows": ("",),
    "points": ("off middle", "down"),
    "bites": ("off middle", "down"),
    "nails": ("left", "right"),
}


def _key(form: str, start: str, slip: Slip) -> str:
    """Return the key of the reading that is off."""
    names = FIELDS[form]
    return start + names[slip.number % len(names)]


def _least(form: str, seed: int, slip: Slip) -> float:
    """Return the least slip of that reading that is said to be found; infinite if none is."""
    text, start = car(form, seed, slip)
    return dict(adjusted(parse(text).build).checked).get(_key(form, start, slip), np.inf)


def _suspects(text: str) -> tuple[Suspect, ...]:
    return adjusted(parse(text).build).suspects


def _path(key: str) -> tuple[str | int, ...]:
    return tuple(int(step) if step.isdigit() else step for step in key.split("."))


def _mended(text: str, suspect: Suspect, which: int = 0) -> str:
    """Return a build file with what a suspect's rewrite says."""
    return edited(text, [Edit(_path(key), value) for key, value in suspect.rewrites[which]])


@pytest.mark.parametrize("form", FORMS)
def test_a_good_car_has_no_reading_named(form: str) -> None:
    assert [seed for seed in range(SEEDS) if named(form, seed)[1]] == []


@pytest.mark.parametrize("form", FORMS)
def test_ten_millimetres_are_found_wherever_eight_are_said_to_be(form: str) -> None:
    trials = [one for one in slips(form, 10.0, SEEDS) if _least(form, *one) <= 8]
    found = [named(form, seed, slip) for seed, slip in trials]
    assert len(trials) > SEEDS / 2
    assert sum(hit for hit, _ in found) >= 0.9 * len(found)
    assert not any(other for _, other in found)


@pytest.mark.parametrize("form", FORMS)
def test_a_slip_as_small_as_is_said_is_found_four_times_in_five(form: str) -> None:
    hits = []
    for seed, slip in slips(form, 10.0, SEEDS):
        least = _least(form, seed, slip)
        if np.isfinite(least):
            hits.append(named(form, seed, Slip(slip.section, slip.number, least))[0])
    assert len(hits) > SEEDS / 2
    assert sum(hits) / len(hits) >= 0.6  # 4 in 5, less 2 standard errors of 20 trials


@pytest.mark.parametrize("form", FORMS)
def test_what_is_written_instead_makes_the_car_good(form: str) -> None:
    slip = Slip(2, 3, 14.0)
    text, start = car(form, 4, slip)
    (suspect,) = _suspects(text)
    assert suspect.key.startswith(start)
    assert "; the others have " in suspect.says
    assert _suspects(_mended(text, suspect)) == ()


def test_either_figure_of_a_point_may_be_the_wrong_one() -> None:
    text, start = car("points", 4, Slip(2, 3, 14.0))  # the depth of the second point
    (suspect,) = _suspects(text)
    keys = {edits[0][0] for edits in suspect.rewrites}
    assert keys == {start.rstrip(".")}
    assert len(suspect.rewrites) == 2
    assert ", or else " in suspect.says
    for which in range(2):
        assert _suspects(_mended(text, suspect, which)) == ()


def _section(text: str, number: int, change: Callable[[str], str]) -> str:
    """Return a build file with one section's lines changed."""
    head, *sections = text.split("    - at: ")
    sections[number] = change(sections[number])
    return "    - at: ".join([head, *sections])


def _lopsided(turned: bool = False) -> str:  # noqa: FBT001, FBT002  one car or the other
    """Return a car read as points, side by side, 14 mm wider to the right; the 3rd turned round."""
    text = HEAD
    for number, x in enumerate(PLACES):
        places = outline(x, (DOWN, DOWN)) + np.where(np.arange(12) < 6, 0.0, 14.0)[:, None] * [1, 0]
        if turned and number == 2:
            places = places[::-1] * [-1, 1]
        way = "behind" if x >= 0 else "ahead"
        text += f"    - at: {abs(x):g} {way}\n      top: {top_below_string(x):.3f} below string\n"
        text += points(places, lambda true: true)[0]
    return text


def test_two_points_with_their_widths_exchanged_are_one_swap() -> None:
    good = _lopsided()
    assert _suspects(good) == ()

    def exchange(lines: str) -> str:
        left, right = re.findall(r"[\d.]+(?= (?:left|right), 62.000)", lines)
        for old, new in ((left, "#"), (right, left), ("#", right)):
            lines = lines.replace(old, new)
        return lines

    text = _section(good, 2, exchange)
    (suspect,) = _suspects(text)
    assert suspect.kind == "swapped"
    pair = ("car.tunnel.2.points.2.off middle", "car.tunnel.2.points.9.off middle")
    assert {suspect.key, suspect.partner} == set(pair)
    assert "point 3 at section 220 behind" in suspect.says
    assert _mended(text, suspect) == good


def test_a_section_of_points_turned_round_is_named_and_turned_back() -> None:
    text = _lopsided(turned=True)
    suspect = _suspects(text)[0]
    assert suspect.says == "Left and right look swapped all over section 220 behind."
    assert _mended(text, suspect) == _lopsided()


@pytest.mark.parametrize("form", ["rows", "points", "nails"])
def test_a_turned_section_is_turned_back_in_its_form(form: str) -> None:
    text = car(form, 3)[0]
    section = parse(text).build.car.tunnel[1]
    edits = [Edit(_path(key), value) for key, value in turned(section)]
    once = edited(text, edits)
    again = [Edit(_path(key), value) for key, value in turned(parse(once).build.car.tunnel[1])]
    shapes = [shape_of(parse(one).build.car, 1).variants()[0] for one in (text, once)]
    assert shapes[1] == pytest.approx(shapes[0][::-1] * [-1, 1], abs=1e-6)
    assert edited(once, again) == text


def _with_second_ways(text: str) -> str:
    """Return a car with the girth and the height above the floor of each section."""
    build = parse(text).build
    for number, section in enumerate(build.car.tunnel):
        assert section.top is not None
        shape = shape_of(build.car, number)
        girth = float(Curve.through(shape.variants()[:1]).length(-180.0)[0])
        lines = f"      girth floor to floor: {girth:.2f}\n"
        lines += f"      height above floor: {580 - section.top.value:.2f}\n"
        text = _section(text, number, lambda own, lines=lines: own + lines)  # type: ignore[misc]  # mypy and a default
    return text


def _top_off(text: str, number: int, size: float) -> str:
    """Return a car whose top is written so much too low at one section."""

    def lower(lines: str) -> str:
        return re.sub(
            r"top: ([\d.]+)", lambda found: f"top: {float(found[1]) + size:.3f}", lines, count=1
        )

    return _section(text, number, lower)


@pytest.mark.parametrize("form", ["rows", "points"])
@pytest.mark.parametrize("size", [-12.0, 12.0])
def test_a_wrong_top_is_named_where_girth_and_height_check_it(form: str, size: float) -> None:
    for seed in range(6):
        good = _with_second_ways(car(form, seed)[0])
        assert _suspects(good) == ()
        (suspect,) = _suspects(_top_off(good, seed, size))
        assert suspect.key == f"car.tunnel.{seed}.top"
        assert suspect.slip_mm == pytest.approx(size, abs=3)


def test_a_top_that_only_its_neighbours_check_is_found_when_a_decimetre_off() -> None:
    for seed in range(6):
        text = car("rows", seed)[0]
        assert _suspects(_top_off(text, 1 + seed % 4, 20.0)) == ()
        (suspect,) = _suspects(_top_off(text, 1 + seed % 4, 100.0))
        assert (suspect.key, suspect.kind) == (f"car.tunnel.{1 + seed % 4}.top", "round slip")
    build = parse(car("rows", 0)[0]).build
    assert "car.tunnel.2.top" in adjusted(build).unchecked  # an inch would not be found


def test_a_wrong_depth_of_the_floor_shows_at_every_girth() -> None:
    good = _with_second_ways(car("rows", 2)[0])
    (suspect,) = _suspects(good.replace("floor below string: 580", "floor below string: 595"))
    assert suspect.key == "car.floor below string"
    assert suspect.slip_mm == pytest.approx(15, abs=2)
