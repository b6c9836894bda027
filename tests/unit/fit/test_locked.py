"""Of what is covered nothing is cut: no plan, no single cut, and it is said why."""

from pathlib import Path

import pytest

from trimwright.build import Build, InputError, load, parse
from trimwright.cabin import cabin
from trimwright.checks import all_findings

EXAMPLE = Path(__file__).parents[3] / "examples/dunlin/first-measured.yaml"


def locked(by: str) -> Build:
    """Return the example with something done."""
    return parse(f"{load(EXAMPLE).text}\nlocked:\n  - {{lock: {by}}}\n").build


def test_what_is_covered_is_no_longer_cut() -> None:
    one = cabin(locked("covering"))
    assert one.plan is not None
    assert one.plan.cuts == ()
    assert one.plan.short == "it is covered, and of what is covered nothing is cut"
    assert one.singles == ()
    trims = ("console", "trims")
    edits = [e for f in all_findings(one) for r in f.remedies for e in r.edits]
    assert not any(edit.path[:2] == trims for edit in edits)


def test_before_it_is_covered_it_is() -> None:
    one = cabin(locked("glue-up"))
    assert one.plan is not None
    assert one.plan.cuts != ()


def test_a_moment_that_is_none_is_refused_with_those_there_are() -> None:
    with pytest.raises(InputError, match="wood is cut"):
        locked("cutting")
