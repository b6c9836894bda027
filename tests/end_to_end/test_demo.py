"""The demo build says what is wrong with it, for the right reasons, and can be put right."""

from functools import lru_cache
from pathlib import Path

import pytest

from trimwright.build import edited, load, parse
from trimwright.cabin import Cabin, cabin
from trimwright.checks import all_findings
from trimwright.findings import Edit, Finding

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
DEMO = EXAMPLES / "dunlin" / "first-measured.yaml"
AFTER = EXAMPLES / "dunlin" / "after-remedies.yaml"
QUARTER = EXAMPLES / "fifteen-minutes" / "build.yaml"


@lru_cache
def _cabin(path: Path) -> Cabin:
    return cabin(load(path).build)


@lru_cache
def _findings(path: Path) -> tuple[Finding, ...]:
    return all_findings(_cabin(path))


def _one(path: Path, *words: str) -> Finding:
    found = [one for one in _findings(path) if all(word in one.place for word in words)]
    assert len(found) == 1, [one.place for one in found]
    return found[0]


def test_the_slip_is_named_and_its_size_told() -> None:
    slip = _one(DEMO, "down 60", "left")
    assert slip.grade == "change"
    assert "a slip of 10 mm" in slip.says


def test_the_carpet_lifts_the_nose_to_the_dash() -> None:
    nose = _one(DEMO, "nose to dash")
    assert (nose.grade, nose.at is not None) == ("change", True)
    assert nose.margin is not None
    assert nose.margin < 0
    pose = _cabin(DEMO).pose
    assert pose is not None
    assert pose.nose_loose_mm > 10  # scribed to bare metal, it stands on the squeezed carpet


def test_the_wall_comes_near_the_seat_towards_the_end_of_its_travel() -> None:
    seat = _one(DEMO, "right wall to seat")
    assert seat.grade == "change"
    assert seat.at is not None
    assert seat.at[0] > 500  # the seat's inner edge runs from 170 to 620 behind


def test_the_lever_clears_standing_and_knocks_with_the_engine_moved() -> None:
    standing = _one(DEMO, "lever to opening, standing")
    moved = _one(DEMO, "lever to opening, engine moved")
    assert standing.figure is not None
    assert standing.low is not None
    assert standing.low > 0
    assert (moved.grade, moved.figure is not None and moved.figure < 0) == ("stop", True)


def test_only_the_front_corner_meets_the_heater_box() -> None:
    box = _one(DEMO, "heater box")
    assert box.grade == "stop"
    assert box.at is not None
    assert box.at[0] < -50
    assert box.at[1] > 60


def test_the_remedies_lead_to_a_pass() -> None:
    grades = {one.grade for one in _findings(AFTER)}
    assert grades <= {"look", "good"}
    joint = _one(AFTER, "the whole console")
    assert joint.figure is not None
    assert joint.figure >= 0.95


def test_the_remedied_file_is_the_demo_with_its_remedies_written() -> None:
    text = DEMO.read_text("utf-8")
    slip = next(remedy for remedy in _one(DEMO, "down 60", "left").remedies if remedy.edits)
    text = edited(text, slip.edits)
    plan = _plan_edits(text)
    assert edited(text, plan) == AFTER.read_text("utf-8")


def _plan_edits(text: str) -> tuple[Edit, ...]:
    one = cabin(parse(text).build)
    assert one.plan is not None
    return one.plan.edits(one.build)


def test_a_quarter_of_an_hour_answers_nose_seats_and_lever() -> None:
    graded = {one.place: one.grade for one in _findings(QUARTER)}
    assert graded["nose to dash"] != "look"
    assert graded["left wall to seat"] != "look"
    assert graded["knob to dash"] != "look"
    again = [one for one in _findings(QUARTER) if one.rule == "measure again"]
    assert len(again) == 3
    assumed = _one(QUARTER, "what nobody wrote")
    assert len(assumed.why) > 20


@pytest.mark.parametrize("path", [DEMO, AFTER, QUARTER])
def test_a_figure_with_a_limit_is_never_merely_a_look(path: Path) -> None:
    looks = [one for one in _findings(path) if one.grade == "look"]
    assert all(one.figure is None or one.limit is None for one in looks)
