"""The electrics of the example car: as first drawn, and with every remedy taken in turn."""

from pathlib import Path

import pytest

from trimwright.build import edited, parse
from trimwright.cabin import cabin
from trimwright.checks import all_findings
from trimwright.findings import Edit, Finding

DUNLIN = Path(__file__).parents[2] / "examples" / "dunlin"
FIRST = (DUNLIN / "first-wired.yaml").read_text("utf-8")
MOST_ROUNDS = 60
LOCKS = ("carpet", "refit")
CORD = Edit(("wiring", "loads", 11, "by hand"), "cord behind the boot trim")  # only he can say it


def _findings(text: str) -> list[Finding]:
    return [one for one in all_findings(cabin(parse(text).build)) if one.lock in LOCKS]


@pytest.mark.parametrize(
    ("place", "grade", "words"),
    [
        ("contacts of tailgate button", "stop", "switches tailgate release (35 A)"),
        ("contacts of fog relay", "stop", "switches fog lamps"),
        ("never tailgate release", "stop", "No wire tells it of the engine."),
        ("never starter solenoid while engine running", "stop", "No wire tells it of the engine."),
        ("never starter solenoid while not clutch pressed", "stop", "4. clutch pressed no more."),
        ("never fuel pump", "look", "single faults break it: prime button welded"),
        ("way out by the tailgate", "stop", "cannot be opened"),
        ("wires of windows", "stop", "fuse 1 does not look after"),
        ("length of aerial lead", "change", "too short"),
        ("noise on audio in", "change", "will whine"),
        ("reach from boot to tailgate", "stop", "255 mm needed opened 69°"),
        ("parked", "change", "may not start after 0 days"),
    ],
)
def test_what_its_builder_did_not_see_is_found(place: str, grade: str, words: str) -> None:
    found = {one.place: one for one in _findings(FIRST)}[place]
    assert found.grade == grade
    assert words in found.says


def test_two_motors_on_one_thin_ground_are_told_with_the_wire_that_cures_it() -> None:
    found = {one.place: one for one in _findings(FIRST)}
    for name in ("left window", "right window"):
        one = found[f"voltage at {name}"]
        assert one.grade == "change"
        assert "windows ground" in one.remedies[0].says


def test_a_unit_that_cranks_on_without_the_clutch_is_given_the_move_it_lacks() -> None:
    found = {one.place: one for one in _findings(FIRST)}
    (remedy,) = found["never starter solenoid while not clutch pressed"].remedies
    assert remedy.edits == (
        Edit(("wiring", "units", 0, "moves", 2, "when", 1), "not start unit clutch live"),
    )


def test_remedies_taken_in_turn_leave_no_stop() -> None:
    text = edited(FIRST, (CORD,))
    for _ in range(MOST_ROUNDS):
        wrong = [one for one in _findings(text) if one.grade in ("stop", "change")]
        ways = [remedy for one in wrong for remedy in one.remedies if remedy.edits]
        if not ways:
            break
        text = edited(text, ways[0].edits)
    assert [one.place for one in wrong if one.grade == "stop"] == []
    assert text == (DUNLIN / "after-wired.yaml").read_text("utf-8")
