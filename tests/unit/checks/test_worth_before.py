"""What a test before a lock saves: its chance to catch a failure times the hours of doing it again."""

from math import asin, pi, sqrt

import numpy as np
import pytest
from msgspec.structs import replace
from scipy.stats import norm

from tests.unit.checks.small_build import fewer_draws, text
from trimwright.build import InputError, parse
from trimwright.cabin import Cabin, cabin
from trimwright.chance import Factor, ReMeasure
from trimwright.checks import hours_told, redoing_h, worth_before
from trimwright.checks.worth_before import IN_THE_CAR, caught, caught_again, missed
from trimwright.findings import LOCKS, Lock
from trimwright.fit import Again
from trimwright.quantities import Doubt

HOURS = "hours: {wood is cut: 3 h, covering: 14 h, test fit: 90 min}\n"


@pytest.mark.parametrize("explained", [0.1, 0.5, 0.9])
def test_even_odds_held_against_even_odds_are_caught_as_sheppard_says(explained: float) -> None:
    """Half sure and half wanted: the reading shows it whenever its own part is below the middle."""
    closed = 0.25 + asin(sqrt(explained)) / (2 * pi)
    assert caught(0.5, 0.5, explained) == pytest.approx(closed, abs=1e-9)


@pytest.mark.parametrize(("today", "wanted", "explained"), [(0.97, 0.95, 0.4), (0.99, 0.9, 0.7)])
def test_what_is_caught_is_what_draws_of_gap_and_reading_say(
    today: float, wanted: float, explained: float
) -> None:
    rng = np.random.default_rng(5)
    reading, rest = rng.standard_normal((2, 4_000_000))
    room, link, left = norm.ppf(today), sqrt(explained), sqrt(1 - explained)
    fails = room + link * reading + left * rest < 0
    shown = norm.cdf((room + link * reading) / left) < wanted
    counted = float(np.mean(fails & shown))
    standard_error = sqrt(counted / reading.size)
    assert caught(today, wanted, explained) == pytest.approx(counted, abs=4 * standard_error)


@pytest.mark.parametrize(("share", "again_mm"), [(0.8, 2.0), (1.0, 1.0), (0.5, 0.0)])
def test_a_reading_joins_the_one_there_is(share: float, again_mm: float) -> None:
    """Drawn: what is read again is off by its own doubt; both readings weigh by their doubts."""
    factor = Factor("car.dash", "dash", Doubt("normal", 2.0, 2.0), "reading", 1.0, again_mm)
    one = Again(factor, "nose to dash", share, ReMeasure(0.97, 0.99, 0.0, 0.0, 1.0, 0.97))
    rng = np.random.default_rng(8)
    off, rest, slip = rng.standard_normal((3, 4_000_000))
    room, ratio = norm.ppf(0.97), again_mm / 2.0
    fails = room + sqrt(share) * off + sqrt(1 - share) * rest < 0
    weight = 1 / (1 + ratio**2)
    expected = room + sqrt(share) * weight * (off + ratio * slip)
    spread = sqrt(share * (1 - weight) + 1 - share)
    shown = expected < spread * norm.ppf(0.95)
    counted = float(np.mean(fails & shown))
    assert caught_again(one, 0.95) == pytest.approx(counted, abs=4 * sqrt(counted / off.size))


@pytest.mark.parametrize("explained", [0.0, 0.3, 1.0])
def test_what_a_finding_tells_already_is_caught_by_no_test(explained: float) -> None:
    assert caught(0.94, 0.95, explained) == 0.0
    assert caught(1.0, 0.95, explained) == 0.0


def test_a_reading_that_says_all_catches_every_failure() -> None:
    assert caught(0.96, 0.95, 1.0) == pytest.approx(0.04)
    assert caught(0.96, 0.95, 1 - 1e-6) == pytest.approx(0.04, abs=1e-4)


@pytest.fixture
def built(monkeypatch: pytest.MonkeyPatch) -> Cabin:
    fewer_draws(monkeypatch)
    return cabin(parse(text("Weighed car") + HOURS).build)


def test_hours_saved_are_the_chance_times_the_hours_of_doing_it_again(built: Cabin) -> None:
    found = worth_before(built, "covering")
    assert [one.says for one in found if not one.place] == [IN_THE_CAR]
    assert len(found) == 1 + len(built.again)
    for one in found:
        assert one.saves_h == pytest.approx(14 * one.catches)
    saved = [one.saves_h or 0.0 for one in found]
    assert saved == sorted(saved, reverse=True)
    assert max(saved) > 0
    (car,) = (one for one in found if not one.place)
    assert car.takes_h == 1.5
    assert {one.takes_h for one in found if one.place} == {
        one.factor.minutes / 60 for one in built.again
    }


def test_in_the_car_every_failure_shows_that_no_finding_tells_of(built: Cabin) -> None:
    outcome = built.outcome
    assert outcome is not None
    good = [k for k, one in enumerate(outcome.gaps) if one.sure.value >= 0.95]
    good = [k for k in good if not outcome.gaps[k].gap.part_of]
    kept = outcome.draws.margins[:, good] >= 0  # false as well where it tips
    short = ~kept.all(axis=1)
    assert missed(outcome) == float(short.mean())
    (car,) = (one for one in worth_before(built, "covering") if not one.place)
    assert car.catches == float(short.mean())
    none_good = replace(outcome, wanted=1.5)
    assert missed(none_good) == 0.0


def test_only_wood_that_is_cut_can_be_tried_and_only_bare(built: Cabin) -> None:
    for lock in LOCKS:
        tried = [one for one in worth_before(built, lock) if not one.place]
        assert len(tried) == (lock in ("covering", "refit"))


@pytest.mark.parametrize(
    ("locked", "lock", "car", "readings"),
    [
        (("wood is cut",), "covering", True, False),
        (("wood is cut", "glue-up", "covering"), "refit", False, False),
        (("wood is cut", "glue-up", "covering"), "covering", False, False),
        ((), "covering", True, True),
    ],
)
def test_what_is_locked_is_tested_no_more(
    built: Cabin, locked: tuple[Lock, ...], lock: Lock, *, car: bool, readings: bool
) -> None:
    lines = "".join(f"  - {{lock: {one}}}\n" for one in locked)
    build = parse(text("Weighed car") + HOURS + (f"locked:\n{lines}" if lines else "")).build
    found = worth_before(replace(built, build=build), lock)
    assert [one.place for one in found if not one.place] == ([""] if car else [])
    assert any(one.place for one in found) == readings


def test_hours_that_nobody_wrote_are_none_and_the_order_is_that_of_the_findings(
    built: Cabin,
) -> None:
    silent = replace(built, build=parse(text("Weighed car")).build)
    assert redoing_h(silent, "covering") is None
    found = worth_before(silent, "covering")
    assert found[0].says == IN_THE_CAR
    assert found[0].takes_h is None
    assert [one.saves_h for one in found] == [None] * len(found)
    assert [one.place for one in found[1:]] == [one.factor.says for one in built.again]
    assert worth_before(built, "refit")[0].saves_h is None  # that of another lock is not taken
    assert hours_told(None) == ""


def test_without_a_console_there_is_nothing_to_weigh() -> None:
    assert worth_before(cabin(parse(text(console="") + HOURS).build), "covering") == ()


@pytest.mark.parametrize(
    ("typed", "found"), [("14", '"14"'), ("0 h", '"0 h"'), ("long", '"long"'), ("9 kg", '"9 kg"')]
)
def test_hours_that_are_none_are_refused(typed: str, found: str) -> None:
    with pytest.raises(InputError, match="cannot be used") as refused:
        parse(text() + f"hours: {{covering: {typed}}}\n")
    (fault,) = refused.value.faults
    assert (fault.path, fault.found) == (("hours", "covering"), found)
