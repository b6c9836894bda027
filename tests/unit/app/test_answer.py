"""What the page is told of a finding reads as it is meant."""

from pathlib import Path

from trimwright.app.answer import fit
from trimwright.build import load, parse
from trimwright.findings import LOCKS

INCHES = Path(__file__).parents[3] / "examples/fifteen-minutes/build.yaml"


def test_whole_and_fraction_stand_apart_in_a_sentence() -> None:
    """In the page's letters a thin space between them cannot be seen: 2 3/4 would read 23/4."""
    findings = fit(load(INCHES).build, "v").findings
    prose = [text for one in findings for text in (one.says, *one.why)]
    prose += [remedy.says for one in findings for remedy in one.remedies]
    assert any("\u00a03/4 in" in text or "\u00a01/4 in" in text for text in prose)
    assert not any("\u2009" in text for text in prose)


def test_hours_of_tests_are_told_for_the_lock_they_were_written_for() -> None:
    text = load(INCHES).text
    hours = "hours: {covering: 14 h, test fit: 90 min}\n"
    told = fit(parse(text + hours).build, "v")
    assert told.trying == "90 min"
    by_lock = {one.lock: one for one in told.before}
    assert list(by_lock) == list(LOCKS)
    assert [one.redoing for one in told.before] == ["", "", "", "14 h", ""]
    car = next(one for one in by_lock["covering"].tests if not one.place)
    assert (car.takes, car.takes_h) == ("1.5 h", 1.5)
    assert car.saves_h is not None
    assert {one.saves_h for one in by_lock["refit"].tests} == {None}
    assert {one.saves for one in by_lock["refit"].tests} == {""}
    silent = fit(load(INCHES).build, "v")
    assert silent.trying == ""
    assert {one.redoing for one in silent.before} == {""}
    places = {one.place for one in silent.findings if one.rule == "measure again"}
    assert {one.place for one in silent.before[1].tests} == places != set()  # before wood is cut
