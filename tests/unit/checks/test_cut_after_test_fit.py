"""A cut written after a test fit leaves what was read there true, and what it taught the same."""

from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from tests.unit.checks.small_build import CONSOLE, fewer_draws, text
from trimwright.build import edited, parse
from trimwright.cabin import Cabin, cabin
from trimwright.checks import all_findings
from trimwright.findings import Remedy
from trimwright.fit import cut_edits, cuts

OPENING = "  openings:\n    - {name: gear lever, at: 190 behind, long: 130, wide: 110}\n"
EXAMPLE = Path(__file__).parents[3] / "examples" / "fifteen-minutes" / "build.yaml"
INCHES = EXAMPLE.read_text("utf-8") + (
    "  openings: [{name: gear lever, at: 7 1/2 behind, long: 5, wide: 4.3}]\n"
    "test fit:\n  - {probe: nose left, reads: 0.35}\n"
)
READ = """\
test fit:
  - {probe: nose left, reads: 9}
  - probe: card at 220 behind and 60 left
    reads: 3
  - probe: right wall to seat at 400 behind  # with the seat where I sit
    reads: at least 4
"""
WHOLE = text("Cut after a test fit", dash=212, hip=258, console=CONSOLE + OPENING) + READ


@pytest.fixture(autouse=True)
def _quick(monkeypatch: pytest.MonkeyPatch) -> None:
    fewer_draws(monkeypatch)


def remedies(found: Cabin) -> Iterator[Remedy]:
    """Yield every remedy that cuts."""
    for one in all_findings(found):
        yield from (remedy for remedy in one.remedies if remedy.edits)


def rows(found: Cabin) -> np.ndarray:
    """Return the scores that a build is judged on."""
    assert found.outcome is not None
    return found.outcome.draws.scores


@pytest.mark.parametrize("written", [WHOLE, INCHES], ids=["mm", "in"])
def test_no_cut_changes_what_was_learned(written: str) -> None:
    before = cabin(parse(written).build)
    assert before.outcome is not None
    assert before.outcome.taught is not None
    assert before.outcome.taught.unknown == ()
    ways = list(remedies(before))
    assert len(ways) > 1
    for remedy in ways:
        after = cabin(parse(edited(written, remedy.edits)).build)
        assert after.outcome is not None
        np.testing.assert_allclose(rows(after), rows(before), rtol=0, atol=1e-9)
        assert after.outcome.taught == before.outcome.taught


def test_without_the_key_the_car_would_seem_to_have_come_closer() -> None:
    before = cabin(parse(WHOLE).build)
    assert before.plan is not None
    by_hand = [one for one in before.plan.edits(before.build) if one.path[0] == "console"]
    after = cabin(parse(edited(WHOLE, by_hand)).build)
    assert np.abs(rows(after) - rows(before)).max() > 0.5


def test_a_cut_is_kept_under_every_reading_of_the_wood_once() -> None:
    once = cut(WHOLE, "nose lower by", 3.5)
    assert "{probe: nose left, reads: 9, cut then: {nose lower by: 0 mm}}" in once
    assert "    reads: at least 4\n    cut then:\n      nose lower by: 0 mm\n" in once
    assert "    reads: 3\n  - probe: right wall" in once  # of a tunnel nothing is cut
    twice = cut(once + "  - {probe: nose right, reads: 12}\n", "nose lower by", 1.0)
    assert "  nose lower by: 4.5 mm\n" in twice
    assert twice.count("nose lower by: 0 mm") == 2
    assert "reads: 12, cut then: {nose lower by: 3.5 mm}}" in twice
    last = cut(twice, "wide", 2.0)
    assert "cut then: {nose lower by: 0 mm, gear lever wide: 110}}" in last
    assert "cut then: {nose lower by: 3.5 mm, gear lever wide: 110}}" in last
    assert "      nose lower by: 0 mm\n      gear lever wide: 110\n" in last


def cut(written: str, key: str, amount: float) -> str:
    """Return a file with one cut written as a remedy writes it."""
    build = parse(written).build
    one = next(one for one in cuts(build, lambda _: True) if one.path[-1] == key)
    return edited(written, cut_edits(build, ((one, amount),)))


def test_a_size_is_kept_as_it_was_typed() -> None:
    # neither on 1/64 in nor on 0.01 mm, to which cuts are written
    assert "cut then: {gear lever wide: 4.3}}" in cut(INCHES, "wide", 2.0)
