"""What is said of a gap fits what it lies between."""

from types import SimpleNamespace
from typing import cast

import pytest

from tests.unit.checks.small_build import text
from trimwright.build import parse
from trimwright.cabin import Cabin
from trimwright.checks.clearance import CLEAR, HIT, PHYSICS, TIGHT, kind, remedies
from trimwright.fit import Fate, Gap, GapOutcome, Single, cuts


@pytest.mark.parametrize(
    ("name", "keys", "family"),
    [
        ("nose to dash", ("car.dash",), "nose"),
        ("left wall to seat", ("car.seats.left",), "seat"),
        ("knob to dash, engine moved", ("car.lever",), "lever"),
        ("lever to opening, standing", ("car.lever",), "lever"),
        ("handbrake", ("car.handbrake",), "handbrake"),
        ("daylight right wall", ("car.carpet",), "daylight"),
        ("deck to heater box", ("car.bodies.0", "covers"), "body"),
        ("left wall to seat belt reel", ("car.bodies.1", "covers"), "body"),
        ("deck to handbrake cable", ("car.bodies.2", "covers"), "body"),
    ],
)
def test_a_gap_is_told_as_what_it_is(name: str, keys: tuple[str, ...], family: str) -> None:
    assert kind(Gap(name, "", ("deck", "other"), 5.0, keys)) == family


def test_every_family_has_its_words() -> None:
    families = {"nose", "seat", "lever", "handbrake", "body", "daylight"}
    for words in (HIT, TIGHT, CLEAR, PHYSICS):
        assert set(words) == families


@pytest.mark.parametrize(
    ("sure", "clear", "offered"),
    [
        (0.96, 1.0, True),
        (0.96, 0.99, True),
        (0.94, 1.0, False),  # good today, and would want a change
        (0.96, 0.95, False),  # moves, and would touch in one row of twenty: a stop
    ],
)
def test_a_cut_that_costs_another_gap_its_grade_is_not_offered(
    sure: float, clear: float, *, offered: bool
) -> None:
    build = parse(text("Costs")).build
    near = Gap("left wall to seat", "", ("left wall", "left seat"), 8.0, ())
    other = Gap("knob to deck", "", ("deck", "gear knob"), 6.0, (), moves=True)

    def today(gap: Gap, sure: float) -> GapOutcome:
        made = SimpleNamespace(value=sure), SimpleNamespace(value=1.0)
        return cast("GapOutcome", SimpleNamespace(gap=gap, sure=made[0], clear=made[1]))

    short, fine = today(near, 0.5), today(other, 0.97)
    cut = cuts(build, lambda _: True)[0]
    fates = Fate(near, 0.96, 1.0), Fate(other, sure, clear)
    single = Single(near.name, cut, 3.0, 0.96, 0.95, fates)
    outcome = SimpleNamespace(gaps=(short, fine))
    cabin = SimpleNamespace(build=build, outcome=outcome, singles=(single,))
    assert len(remedies(cast("Cabin", cabin), short)) == int(offered)
