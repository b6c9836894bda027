"""Laws of readings at free places: mirrored cars, inches, and readings that say nothing new."""

from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.property.cabin.test_same_car import demo, in_inches, swapped
from trimwright.build import Probe, parse
from trimwright.cabin import cabin
from trimwright.chance import Ledger, sobol_scores
from trimwright.fit import GapModel, NotThere, Taught, gap_model, uncovered
from trimwright.fit.probing import Forecast, probed, taught

REST_MM = 2e-3  # the rest is found to 1e-3 mm, from another starting point
PLACES = (
    "left wall daylight at 610 behind",
    "right wall daylight at 33 ahead",
    "left wall to tunnel at 420 behind",
    "right wall to seat at 580 behind",
    "left wall to seat at 300 behind and 60 up",
    "deck to dash at 20 ahead and 60 left",
    "deck to dash at 44 ahead",
    "right wall to heater box at 52 ahead",
    "deck to handbrake at 560 behind",
    "box bulkhead daylight at 40 right",
)


@cache
def bare(text: str) -> GapModel:
    one = cabin(parse(text).build)
    assert one.carcass is not None
    assert not isinstance(one.tunnel, ValueError)
    return gap_model(uncovered(one.build), one.ledger, one.tunnel, one.carcass)


def learned(text: str, *readings: str) -> tuple[np.ndarray, Taught]:
    """Return the scores after some readings, and what was learned."""
    lines = "".join(f"  - probe: {one}\n" for one in readings)
    model = bare(text)
    scores = sobol_scores(len(model.ledger), scrambles=4, each=256, seed=1)
    after, found = taught(
        parse(f"{text}test fit:\n{lines}").build, (model,) * len(readings), scores, 1
    )
    assert found is not None
    return after, found


def forecast(text: str, words: str, scores: np.ndarray) -> np.ndarray:
    """Return what is forecast at a place, row by row [mm]."""
    probe = parse(f"{text}test fit:\n  - probe: {words}\n    touches: it\n").build.test_fit[0]
    meant = probed(probe, bare(text))
    assert not isinstance(meant, NotThere), meant
    return Forecast(bare(text), (meant,)).of(scores)[:, 0]


def nominal(text: str, words: str) -> float:
    """Return what is read at a place with all figures as written [mm]."""
    return float(forecast(text, words, np.zeros((1, len(bare(text).ledger))))[0])


@pytest.mark.parametrize("words", PLACES)
def test_a_mirrored_car_reads_the_same_at_the_mirrored_place(words: str) -> None:
    other = nominal(swapped(demo()), swapped(words))
    assert other == pytest.approx(nominal(demo(), words), abs=REST_MM)


@pytest.mark.parametrize("words", PLACES)
def test_a_place_in_inches_is_the_same_place(words: str) -> None:
    other = nominal(in_inches(demo()), in_inches(words))
    assert other == pytest.approx(nominal(demo(), words), abs=REST_MM)


def test_what_is_learned_is_mirrored_and_the_same_in_inches() -> None:
    readings = ("left wall to seat at 580 behind\n    reads: 16", PLACES[5] + "\n    reads: 14")
    here = learned(demo(), *readings)[1]
    inches = learned(in_inches(demo()), *map(in_inches, readings))[1]
    assert inches.surprise == pytest.approx(here.surprise, abs=1e-3)
    # the doubts stand in another order in the mirror and so are drawn otherwise
    there = learned(swapped(demo()), *map(swapped, readings))[1]
    assert there.surprise == pytest.approx(here.surprise, abs=0.15)
    assert abs(here.surprise[0]) > 1


DOUBTED = (
    "car.datum.string above tunnel",
    "car.tunnel.2.top",
    "car.dash.2.up",
    "car.dash.3.up",
    *(
        f"car.seats.{side}.inner edge {end}"
        for side in ("left", "right")
        for end in ("low", "high")
    ),
)


@cache
def few() -> tuple[GapModel, np.ndarray, np.ndarray]:
    """Return the car with few doubts, 1,024 draws of them, and the deviation of each whole gap."""
    model = bare(demo())
    some = Ledger(tuple(model.ledger.factors[model.ledger.index(key)] for key in DOUBTED))
    model = replace(model, ledger=some)
    rows = sobol_scores(len(some), scrambles=4, each=256, seed=1)
    return model, rows, model.evaluate(rows).values.std(axis=0)


@settings(max_examples=6, deadline=None)
@given(st.sampled_from(["left", "right", "deck"]), st.integers(0, 40), st.floats(0.1, 2.0))
def test_a_reading_as_forecast_moves_nothing_and_never_widens_the_doubt(
    on: str, place: int, doubt: float
) -> None:
    model, rows, wide = few()
    wall = f"{on} wall to seat at {200 + 10 * place} behind"
    words = f"deck to dash at {12 + place} ahead" if on == "deck" else wall
    meant = probed(Probe(probe=words, touches="it"), model)
    assert not isinstance(meant, NotThere), meant
    forecast = Forecast(model, (meant,))
    before = forecast.of(rows)[:, 0]
    reads = f"  - probe: {words}\n    reads: {before.mean():.6f} ± {2 * doubt:.6f}\n"
    after, found = taught(parse(f"{demo()}test fit:\n{reads}").build, (model,), rows, 1)
    assert found is not None
    assert found.surprise == pytest.approx((0.0,), abs=0.01)  # so far the mean of draws is off
    now = forecast.of(after)[:, 0]
    assert now.mean() == pytest.approx(before.mean(), abs=0.05 * before.std())
    assert now.std() < before.std()
    # 1,024 rows know a deviation to 2 in 100
    assert (model.evaluate(after).values.std(axis=0) <= 1.03 * wide).all()


@settings(max_examples=8, deadline=None)
@given(st.floats(11.0, 55.0), st.floats(-95.0, 95.0))
def test_a_whole_gap_is_never_more_than_at_a_place_of_it(ahead: float, across: float) -> None:
    model = bare(demo())
    column = [gap.name for gap in model.gaps].index("nose to dash")
    whole = float(model.nominal().values[0, column])
    side = "right" if across >= 0 else "left"
    place = f"deck to dash at {ahead:.2f} ahead"
    at_place = nominal(demo(), place)
    assert at_place >= whole - 0.05  # the whole is looked for at 9 places along
    assert nominal(demo(), f"{place} and {abs(across):.2f} {side}") >= at_place - 1e-9


def test_the_reading_no_model_explains_is_named() -> None:
    text = demo()
    odd = "left wall daylight at 610 behind"
    others = [f"left wall daylight at {x} behind" for x in (520, 560, 660)]
    reads = [f"{one}\n    reads: {max(nominal(text, one), 0):.2f}" for one in others]
    found = learned(text, *reads, f"{odd}\n    reads: 14")[1]
    assert found.puzzle == odd
    assert learned(text, *reads)[1].puzzle == ""
