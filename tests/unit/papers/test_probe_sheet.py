"""The test-fit sheet offers free places in words that can be entered, on either paper."""

from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from trimwright.build import Probe, load
from trimwright.cabin import Cabin, cabin
from trimwright.drawing import Circle, Group, Line, Size, Text, overlaps
from trimwright.fit import NotThere, probed
from trimwright.papers import probe_sheet
from trimwright.papers.leaf import pages

ROOT = Path(__file__).resolve().parents[3] / "examples"
SHEETS: tuple[tuple[str, Size], ...] = (
    ("dunlin/first-measured.yaml", "A4"),
    ("dunlin/after-remedies.yaml", "Letter"),
    ("fifteen-minutes/build.yaml", "Letter"),
    ("fifteen-minutes/build.yaml", "A4"),
)


@cache
def example(name: str) -> Cabin:
    return cabin(load(ROOT / name).build)


def words(cabin: Cabin, size: Size) -> list[str]:
    """Return all words of the page of free places."""
    *_, leaf = probe_sheet.leaves(cabin, size)
    assert not [one for one in leaf.elements if isinstance(one, Group)]
    return [one.words for one in leaf.elements if isinstance(one, Text)]


@pytest.mark.parametrize(("name", "size"), SHEETS)
def test_nothing_overlaps_and_there_is_room_to_write(name: str, size: Size) -> None:
    leaves = probe_sheet.leaves(example(name), size)
    drawn = pages(leaves, example(name).build)
    assert [overlaps(page) for page in drawn] == [()] * len(drawn)
    # on each blank row four lines to write on, and the one below it
    rules = [e for e in leaves[-1].elements if isinstance(e, Line) and len(e.points) == 2]
    assert len(rules) >= 5 * 3


@pytest.mark.parametrize(("name", "size"), SHEETS)
def test_every_place_offered_is_on_the_plan_and_understood(name: str, size: Size) -> None:
    one = example(name)
    assert one.probes
    assert one.model is not None
    said = words(one, size)
    for letter, place in zip("ABCDEF", one.probes, strict=False):
        assert said.count(letter) == 2  # in the plan and in the table
        assert place.words in " ".join(said)
        assert not isinstance(probed(Probe(probe=place.words, touches="it"), one.model), NotThere)


def test_a_place_is_told_in_the_unit_of_the_file() -> None:
    assert any(" in ahead" in one for one in words(example(SHEETS[2][0]), "Letter"))
    assert any(" mm behind" in one for one in words(example(SHEETS[0][0]), "A4"))


def test_letters_of_places_close_together_stand_beside_each_other() -> None:
    places = [((50.0, 30.0), "A"), ((51.0, 30.0), "B"), ((51.0, 30.0), "C")]
    drawn = probe_sheet.rings(places, 20.0)
    middles = [one.centre for one in drawn if isinstance(one, Circle) and one.radius > 1]
    assert [y for _, y in middles] == [20.0] * 3
    for before, after in pairwise(middles):
        assert after[0] - before[0] > 2 * probe_sheet.RING_MM
