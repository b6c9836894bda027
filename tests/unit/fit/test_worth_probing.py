"""The free places offered for a test fit are those where a reading settles most."""

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from trimwright.build import load, parse
from trimwright.cabin import Cabin, cabin
from trimwright.fit.worth_probing import most_settling

EXAMPLE = Path(__file__).resolve().parents[3] / "examples" / "dunlin" / "after-remedies.yaml"


@cache
def demo() -> Cabin:
    return cabin(load(EXAMPLE).build)


def test_the_first_place_is_best_and_the_next_is_best_after_it() -> None:
    # two gaps with independent doubts of 3 and 2; places 0 and 1 both see the first, place 2 the
    # second; a reading of 0.5 leaves 9 * 0.25 / 9.25 of the first
    see = np.array([[3.0, 0, 3, 3, 0], [0, 2.0, 0, 0, 2]])
    joint = see.T @ see + np.diag([0, 0, 0.0, 1.0, 0.0])
    found = most_settling(joint, np.array([1.0, 1.0]), 3)
    assert [one[:2] for one in found] == [(0, 0), (2, 1)]
    assert found[0][2] == pytest.approx(81 / 9.25 / 9)
    assert found[1][2] == pytest.approx(16 / 4.25 / 4)


def test_a_gap_that_is_settled_counts_little() -> None:
    see = np.array([[3.0, 0, 3, 0], [0, 2.0, 0, 2]])
    (first, *_) = most_settling(see.T @ see, np.array([0.01, 0.5]), 3)
    assert first[:2] == (1, 1)


def test_places_can_be_entered_as_they_are_told_and_settle_what_they_say() -> None:
    places = demo().probes
    assert places
    text = EXAMPLE.read_text("utf-8")
    before = demo().outcome
    assert before is not None
    first = places[0]
    middle = (first.low + first.high) / 2
    lines = f"test fit:\n  - probe: {first.words}\n    reads: {middle:.2f} ± 1\n"
    after = cabin(parse(f"{text}{lines}").build).outcome
    assert after is not None
    column = [one.gap.name for one in before.gaps].index(first.settles)
    was, now = (one.draws.table.values[:, column].var() for one in (before, after))
    # margins are taken as normal, and 512 rows know a variance to 6 in 100
    assert 1 - now / was == pytest.approx(first.narrower, abs=0.15)


def test_what_was_read_is_no_longer_first() -> None:
    text = EXAMPLE.read_text("utf-8")
    first = demo().probes[0]
    middle = (first.low + first.high) / 2
    lines = f"test fit:\n  - probe: {first.words}\n    reads: {middle:.2f} ± 1\n"
    after = cabin(parse(f"{text}{lines}").build).probes
    assert after[0].settles != first.settles
