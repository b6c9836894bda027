"""A bent lever: told from a straight one, its pivot and shape given back, its spread honest."""

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.spatial.transform import Rotation

from trimwright.build import parse
from trimwright.car import World, ledger, lever
from trimwright.car.bent_lever import BENT, LeverReadings, fitted, is_bent

Floats = NDArray[np.float64]

LONG, PIVOT = 330.0, np.array([165.0, 4, -70])
OFF = np.array([-38.0, 9, 0])  # the knob off the shaft's line, the lever upright
TIPS = np.radians([[0, 0], [11, 0], [-11, 0], [0, 8], [11, 8], [-11, 8], [11, -8]])
LOW = 130.0  # mm up the shaft from its pivot
SPREAD = np.array([40.0, 10, 30])


def _places(bend: Floats, pivot: Floats = PIVOT) -> tuple[Floats, Floats]:
    """Return the knob in each gear (g, 3), and the shaft low down in the first two (2, 3)."""
    shaft, knob = np.array([0.0, 0, 1]), np.array([0.0, 0, LONG]) + bend
    start = knob / np.linalg.norm(knob)
    knobs, lows = [], []
    for fore, side in TIPS:
        # the shortest turn that takes the knob there, by a library
        goes = Rotation.from_euler("xy", [side, fore]).apply(start)
        axis = np.cross(start, goes)
        sine = float(np.linalg.norm(axis))
        turn = Rotation.from_rotvec(axis / max(sine, 1e-12) * np.arctan2(sine, start @ goes))
        knobs.append(pivot + turn.apply(knob))
        lows.append(pivot + turn.apply(shaft * LOW))
    return np.array(knobs), np.array(lows[:2])


def _readings(
    knobs: Floats, lows: Floats, prior: Floats, sigmas: tuple[float, float] = (1.5, 1.0)
) -> LeverReadings:
    gear = np.arange(lows.shape[1])
    return LeverReadings(
        knobs, lows, gear, 0, prior, SPREAD, sigmas[0], np.full(len(gear), sigmas[1])
    )


def _start(readings: LeverReadings) -> Floats:
    rows = len(readings.knobs)
    away = np.linalg.norm(readings.knobs - readings.prior[:, None], axis=-1).mean(axis=1)
    return np.concatenate([readings.prior, away[:, None], np.zeros((rows, 2))], axis=1)


def test_exact_readings_give_back_pivot_length_and_offset() -> None:
    knobs, lows = _places(OFF)
    prior = np.array([[*knobs[0, :2], -50.0]])
    readings = _readings(knobs[None], lows[None], prior, (1e-6, 1e-6))  # the guess weighs nothing
    found = fitted(readings, _start(readings), bent=True)
    assert found.pivot[0] == pytest.approx(PIVOT, abs=1e-6)
    assert found.unknowns[0, 3] == pytest.approx(np.hypot(LONG, np.linalg.norm(OFF)), abs=1e-6)
    tops = found.tops(readings)[0]
    assert tops[0] == pytest.approx(PIVOT + np.array([0, 0, LONG]), abs=1e-6)
    assert knobs[0] - tops[0] == pytest.approx(OFF, abs=1e-6)
    assert np.linalg.norm(knobs - tops, axis=1) == pytest.approx(np.linalg.norm(OFF), abs=1e-6)


def test_knobs_alone_cannot_tell_bent_from_straight() -> None:
    # one ball of knobs, two levers: only where the shaft passes sets them apart
    knobs, lows = _places(OFF)
    middle = PIVOT + 0.4 * (knobs[:2] - PIVOT)
    for places, bent in ((lows, True), (middle, False)):
        readings = _readings(knobs[None], places[None], PIVOT[None])
        assert is_bent(readings, _start(readings)) is bent


def test_a_straight_lever_is_seldom_called_bent() -> None:
    rng = np.random.default_rng(12)
    called = 0
    for _ in range(150):
        knobs, lows = _places(np.zeros(3))
        pull = np.concatenate([knobs, lows]) + rng.normal(0, 1.0, (9, 3))
        readings = _readings(pull[None, :7], pull[None, 7:], np.array([[*pull[0, :2], -50.0]]))
        called += is_bent(readings, _start(readings))
    assert called <= 1  # a chance of 1 in 1,000 each
    assert pytest.approx(0.001) == np.exp(-BENT / 2)


def test_without_a_reading_to_spare_nothing_is_called_bent() -> None:
    knobs, lows = _places(OFF)
    readings = _readings(knobs[None, :4], lows[None, :1], np.array([[*knobs[0, :2], -50.0]]))
    assert readings.spare == 0
    assert not is_bent(readings, _start(readings))


def test_pivot_lies_within_two_sigma_nineteen_times_in_twenty() -> None:
    cars, draws = 60, 60
    rng = np.random.default_rng(5)
    found, spread, true = [], [], []
    for _ in range(cars):
        pivot = np.array([165.0, 4, -50]) + rng.normal(0, SPREAD)
        knobs, lows = _places(OFF, pivot)
        prior = np.array([165.0, 4, -50])
        noise = np.array([1.5] * 7 + [1.0] * 2)[:, None]
        read = np.concatenate([knobs, lows]) + rng.normal(0, 1, (9, 3)) * noise
        every = read + rng.normal(0, 1, (draws, 9, 3)) * noise
        every[0] = read
        guesses = prior + rng.normal(0, SPREAD, (draws, 3))
        guesses[0] = prior
        readings = _readings(every[:, :7], every[:, 7:], guesses)
        pivots = fitted(readings, _start(readings), bent=True).pivot
        found.append(pivots[0])
        spread.append(pivots[1:].std(axis=0))
        true.append(pivot)
    inside = np.abs(np.array(found) - np.array(true)) <= 2 * np.array(spread)
    # 180 figures, three to a car: 95 % less 3 standard errors of 60 cars
    assert 0.87 <= inside.mean() <= 0.995


TEXT = """build: Larkfield saloon
unit: mm
car:
  lever:
    knob: 48
    shaft: 14
    moves:
"""


def _car(bend: Floats, *, shafts: bool = True) -> World:
    knobs, lows = _places(bend)
    names = ("neutral", *(f"gear {k}" for k in range(1, 7)))

    def told(gear: str, place: Floats) -> str:
        side = "left" if place[1] < 0 else "right"
        return (
            f"      - {{gear: {gear}, behind datum: {place[0]:.4f}, above tunnel: {place[2]:.4f},"
            f" off middle: {abs(place[1]):.4f} {side}}}\n"
        )

    text = TEXT + "".join(told(*one) for one in zip(names, knobs, strict=True))
    if shafts:
        text += "    shaft passes:\n" + "".join(map(told, names[:2], lows))
    build = parse(text).build
    book = ledger(build)
    deviations = np.zeros((2, len(book)))
    if shafts:
        deviations[1, book.index("car.lever.shaft passes.0.behind datum")] = 3.0
    return World(build, book, deviations)


def test_the_shaft_of_a_bent_lever_passes_where_it_was_read() -> None:
    low = _places(OFF)[1][0]
    bent, unread = lever(_car(OFF)), lever(_car(OFF, shafts=False))
    assert bent is not None
    assert unread is not None
    at = np.array([low[2]])
    assert bent.bent
    assert bent.shaft_at(at)[0, 0, 0] == pytest.approx(low[:2], abs=0.5)
    # a straight line to the knob, 38 mm off the shaft's, would pass some 10 mm ahead of it
    assert float(np.linalg.norm(unread.shaft_at(at)[0, 0, 0] - low[:2])) > 8
    tipped = bent.tops[0, 1]
    ends = bent.shaft_at(tipped[2:])[0, 1, 0]
    assert ends == pytest.approx(tipped[:2], abs=1e-9)
    moved = bent.shaft_at(at)[1, 0, 0] - bent.shaft_at(at)[0, 0, 0]
    assert 0.5 < moved[0] < 3


def test_a_straight_lever_keeps_its_knob_as_the_end_of_its_shaft() -> None:
    straight = lever(_car(np.zeros(3)))
    assert straight is not None
    assert not straight.bent
    assert straight.tops[0] == pytest.approx(straight.knobs[0], abs=1e-9)
