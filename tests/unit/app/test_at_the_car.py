"""The test fit on the page: what is asked, what is refused, and what a reading changed."""

from pathlib import Path

import pytest

from trimwright.app.standing import NotDoneError
from trimwright.app.walk.at_the_car import learned, reading_edits, sheet
from trimwright.build import beginning, edited, parse
from trimwright.cabin import cabin

QUARTER = (Path(__file__).parents[3] / "examples/fifteen-minutes/build.yaml").read_text("utf-8")


def test_the_sheet_asks_for_places_that_can_be_entered() -> None:
    loaded = parse(QUARTER)
    asked = sheet(loaded, "v")
    assert asked.missing == ""
    assert asked.probes
    for probe in asked.probes:
        build = parse(edited(QUARTER, reading_edits(loaded, probe.words, "2"))).build
        assert build.test_fit[-1].probe == probe.words


def test_without_a_gap_there_is_nothing_to_probe() -> None:
    loaded = parse(beginning("x", "in", "left"))
    assert sheet(loaded, "v").missing == "No gap can be evaluated yet: measure first."
    with pytest.raises(NotDoneError, match="measure first"):
        reading_edits(loaded, "nose to dash", "2")


def test_words_that_name_nothing_are_refused_with_what_there_is() -> None:
    with pytest.raises(NotDoneError, match=r'found "bonnet".*\n?.*nose to dash'):
        reading_edits(parse(QUARTER), "bonnet", "2")
    with pytest.raises(NotDoneError, match="a figure, or touches"):
        reading_edits(parse(QUARTER), "nose to dash", " ")


def test_a_reading_narrows_its_gap_and_says_how_sure_it_is_now() -> None:
    loaded = parse(QUARTER)
    after = parse(edited(QUARTER, reading_edits(loaded, "left wall to seat", "5/8"))).build
    told = learned(loaded.build, after, "v")
    was, now = cabin(loaded.build).outcome, cabin(after).outcome
    assert was is not None
    assert now is not None
    place = next(k for k, gap in enumerate(now.gaps) if gap.gap.name == "left wall to seat")
    assert now.gaps[place].high - now.gaps[place].low < was.gaps[place].high - was.gaps[place].low
    untold = learned(loaded.build, loaded.build, "v")
    row, old = (
        next(one for one in said.gaps if one.gap == "left wall to seat") for said in (told, untold)
    )
    assert row.span != old.span
    assert untold.told == ""
    assert told.puzzle == ""
    assert "agree" in told.told


def test_a_reading_that_nothing_explains_is_named() -> None:
    loaded = parse(QUARTER)
    after = parse(edited(QUARTER, reading_edits(loaded, "left wall to seat", "2"))).build
    told = learned(loaded.build, after, "v")
    assert told.puzzle == "left wall to seat"
    assert "read it again" in told.told
