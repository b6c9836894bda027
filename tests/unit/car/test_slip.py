from collections.abc import Callable

import numpy as np
import pytest
from msgspec.structs import replace
from numpy.typing import NDArray

from trimwright.build import Build
from trimwright.car import adjusted
from trimwright.car.half_width import Widths
from trimwright.car.slip import Tie, slips, swapped_stations

Floats = NDArray[np.float64]

Writer = Callable[..., Build]

XS = np.array([-120.0, 60, 220, 380, 540, 700])
DOWN = np.array([10.0, 20, 36, 62, 102, 148])
NOISE = 0.5  # mm, sigma of a reading


def _true(x: float, down: float, side: int) -> float:
    """Return the half width of an invented tunnel that bulges ahead and leans right."""
    wide = 150 + 22 * np.exp(-(((x + 160) / 140) ** 2))
    return float(wide * (down / 150) ** 0.36 + 5.0 * side * (0.5 - x / 2000))


def _car(seed: int) -> Widths:
    """Return a car read with its noise: every station, row and side."""
    rng = np.random.default_rng(seed)
    spots = [(k, d, s) for k in range(len(XS)) for d in DOWN for s in (-1, 1)]
    value = [_true(float(XS[k]), float(d), s) for k, d, s in spots]
    return Widths(
        XS,
        np.array([k for k, _, _ in spots]),
        np.array([d for _, d, _ in spots]),
        np.array([s for _, _, s in spots]),
        np.array(value) + rng.normal(0, NOISE, len(spots)),
        np.eye(len(spots)),
        np.full(len(spots), NOISE),
        np.ones(len(spots)),
    )


def _with(car: Widths, value: Floats) -> Widths:
    return replace(car, value=value)


def test_ten_millimetre_slips_are_found_and_named() -> None:
    found = 0
    for seed in range(12):
        car = _car(seed)
        wrong = int(np.random.default_rng(1000 + seed).integers(len(car.value)))
        value = car.value.copy()
        value[wrong] += 10.0
        search = slips(_with(car, value))
        hits = [one for one in search.slips if one.reading == wrong]
        found += bool(hits) and abs(hits[0].slip_mm - 10) < 4
    assert found == 12


def test_good_readings_are_seldom_named() -> None:
    assert sum(len(slips(_car(seed)).slips) > 0 for seed in range(12)) == 0


def test_two_exchanged_readings_are_one_swap() -> None:
    car = _car(3)
    value = car.value.copy()
    pair = np.flatnonzero((car.station == 3) & (car.depth == 62.0))
    value[pair[0]] += 9.0  # so that the two differ enough to tell
    car = _with(car, value)
    shifted = car.value.copy()
    shifted[np.flatnonzero(car.station == 3)[::2]] += 9.0
    shifted[pair[0]] -= 9.0
    shifted[pair[[0, 1]]] = shifted[pair[[1, 0]]]
    search = slips(_with(car, shifted))
    assert search.slips[0].partner is not None
    assert {search.slips[0].reading, search.slips[0].partner} == set(pair.tolist())


def test_section_turned_round_is_named() -> None:
    car = _car(5)
    leaning = car.value + 12.0 * (car.side > 0)
    turned = leaning.copy()
    for down in DOWN:
        pair = np.flatnonzero((car.station == 2) & (car.depth == down))
        turned[pair] = leaning[pair[::-1]]
    assert swapped_stations(_with(car, turned)) == (2,)
    assert swapped_stations(_with(car, leaning)) == ()


def test_girth_that_does_not_fit_is_named_and_not_a_half_width() -> None:
    car = _car(8)
    row = np.where(car.station == 3, 0.3, 0.0)
    good = float(row @ car.value)
    assert slips(car, (Tie("girth", "girth", row, good, 0.0, 1.5),)).slips == ()
    search = slips(car, (Tie("girth", "girth", row, good + 30.0, 30.0, 1.5),))
    assert [one.reading for one in search.slips] == [len(car.value)]
    assert search.slips[0].slip_mm == pytest.approx(30, abs=3)


def test_reading_beside_nothing_is_not_said_to_be_checked() -> None:
    car = _car(1)
    one = (car.station == 0) & (car.side < 0) & (car.depth == 10.0)
    alone = Widths(
        car.x,
        car.station[one],
        car.depth[one],
        car.side[one],
        car.value[one],
        np.eye(1),
        car.sigma[one],
        car.weight[one],
    )
    search = slips(alone)
    assert search.slips == ()
    assert np.isinf(search.detectable[0])


def test_builder_is_told_the_key_and_the_size(write: Writer) -> None:
    sections = []
    for k, x in enumerate(XS):
        rows = [(float(d), _true(x, d, -1), _true(x, d, 1)) for d in DOWN]
        if k == 3:
            rows[3] = (rows[3][0], rows[3][1] + 10.0, rows[3][2])
        sections.append((float(x), 0.0, rows))
    found = adjusted(write(sections, each="by: contour gauge")).suspects
    assert [(one.key, one.kind) for one in found] == [
        ("car.tunnel.3.down 62.000000.left", "round slip")
    ]
    assert found[0].slip_mm == pytest.approx(10, abs=2)
    assert found[0].says.startswith("The left half width at section 380 behind, 62 mm down reads")


def _diagonal_car(write: Writer, length: float, slip: float = 0.0) -> Build:
    sections = [
        (float(x), 0.0, [(float(d), _true(x, d, -1), _true(x, d, 1)) for d in DOWN]) for x in XS
    ]
    down, left, right = sections[2][2][3]
    sections[2][2][3] = (down, left + slip, right)
    more = (
        "  diagonals:\n    - from: down 62.000000 left at 220 behind\n"
        f"      to: down 62.000000 right at 540 behind\n      length: {length:.3f}"
    )
    return write(sections, more, "by: contour gauge")


def test_diagonal_that_fits_is_silent_and_one_that_does_not_is_named(write: Writer) -> None:
    wide = _true(220, 62, -1) + _true(540, 62, 1)
    length = float(np.hypot(320, wide))
    assert adjusted(_diagonal_car(write, length)).suspects == ()
    (suspect,) = adjusted(_diagonal_car(write, length + 25)).suspects
    assert suspect.key == "car.diagonals.0.length"
    assert suspect.slip_mm == pytest.approx(25, abs=2)


def test_diagonal_speaks_for_the_half_width_it_ends_at(write: Writer) -> None:
    wide = _true(220, 62, -1) + _true(540, 62, 1)
    (suspect,) = adjusted(_diagonal_car(write, float(np.hypot(320, wide)), 16.0)).suspects
    assert suspect.key == "car.tunnel.2.down 62.000000.left"
    assert suspect.slip_mm == pytest.approx(16, abs=1)
